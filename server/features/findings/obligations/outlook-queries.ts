import type { Sql } from '#platform/database/client.ts';

/** What stands of a dimension in a job, base units; the spread is that of its own readings. */
export interface StandingRow {
  readonly dimension: string;
  readonly valueType: 'point' | 'interval' | 'span' | 'felt';
  readonly low: number;
  readonly high: number | null;
  readonly u: number;
  readonly spread: number;
}

export async function findStanding(sql: Sql, jobId: string): Promise<readonly StandingRow[]> {
  return sql<StandingRow[]>`
    select distinct on (f.dimension_code) f.dimension_code as dimension, f.value_type as "valueType", f.value_low as low,
           f.value_high as high, f.u,
           coalesce((select (max(r.value_low) - min(r.value_low))::float8 from finding_reading fr
                     join reading r on r.id = fr.reading_id and r.observation = 'value' where fr.finding_id = f.id), 0) as spread
    from finding_standing f where f.job_id = ${jobId}
    order by f.dimension_code, array_position(array['as received', 'after work', 'as built'], f.round) desc, f.judged_at desc`;
}

/** What an obligation is about, and the family of its engine; lengths in nm. */
export interface SubjectRow {
  readonly jobId: string;
  readonly revisionId: string;
  readonly dimension: string | null;
  readonly boreNm: number;
  readonly strokeNm: number;
  readonly cycle: string;
}

export async function findSubject(sql: Sql, obligationId: string): Promise<SubjectRow | undefined> {
  const [row] = await sql<SubjectRow[]>`
    select o.job_id as "jobId", j.revision_id as "revisionId", f.dimension_code as dimension, fam.bore_nm as "boreNm",
           fam.stroke_nm as "strokeNm", fam.cycle
    from obligation o join job j on j.id = o.job_id join engine e on e.id = j.engine_id
    join family fam on fam.id = e.family_id left join finding f on f.id = o.finding_id where o.id = ${obligationId}`;
  return row;
}
