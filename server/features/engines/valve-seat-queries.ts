import type { Sql } from '#platform/database/client.ts';

/** A lash that stands, with the shim that was in when it was felt; nm. */
export interface LashRow {
  readonly jobId: string;
  readonly jobNumber: number;
  readonly dimension: string;
  readonly valve: string;
  readonly fittedPartId: string;
  readonly minutes: number;
  readonly partMinutes: number | null;
  readonly low: number;
  readonly high: number | null;
  readonly rangeLow: number;
  readonly rangeHigh: number;
  /** null: nobody measured it, and none was chosen before. */
  readonly shim: number | null;
}

/**
 * The lash of every shimmed valve of an engine, the oldest visit first. The shim in it is the one chosen earlier in that
 * visit, else the one measured in it, else the last one known from a visit before.
 */
export async function findLashWithShims(sql: Sql, engineId: string): Promise<readonly LashRow[]> {
  return sql<LashRow[]>`
    select f.job_id as "jobId", j.number as "jobNumber", f.dimension_code as dimension, v.name as valve,
           f.fitted_part_id as "fittedPartId", f.running_minutes as minutes, f.part_minutes as "partMinutes",
           f.value_low as low, f.value_high as high, l.standard_low as "rangeLow", l.standard_high as "rangeHigh",
           coalesce(
             (select c.chosen_nm from shim_choice c
              where c.job_id = f.job_id and c.valve_code = v.code and c.chosen_at < f.judged_at order by c.chosen_at desc limit 1),
             (select s.nm from (
                select thickness_nm as nm, measured_at as at from fitted_shim where job_id = f.job_id and valve_code = v.code
                union all
                select fitted_nm, chosen_at from shim_choice where job_id = f.job_id and valve_code = v.code
              ) s order by s.at limit 1),
             (select s.nm from (
                select c.chosen_nm as nm, c.chosen_at as at from shim_choice c join job o on o.id = c.job_id
                where o.engine_id = ${engineId} and c.valve_code = v.code
                union all
                select m.thickness_nm, m.measured_at from fitted_shim m join job o on o.id = m.job_id
                where o.engine_id = ${engineId} and m.valve_code = v.code
              ) s where s.at < f.judged_at order by s.at desc limit 1)
           ) as shim
    from finding_standing f
    join job j on j.id = f.job_id
    join spec_valve v on v.revision_id = j.revision_id and v.dimension_code = f.dimension_code and v.adjuster <> 'screw'
    join spec_dimension d on d.revision_id = v.revision_id and d.code = v.dimension_code
    join spec_limit l on l.dimension_id = d.id and l.size_class = 'standard'
    where f.engine_id = ${engineId} and f.value_type = 'interval' and f.fitted_part_id is not null
      and l.standard_low is not null and l.standard_high is not null
    order by j.taken_in_at, j.number, array_position(array['as received', 'after work', 'as built'], f.round), f.judged_at, f.id`;
}
