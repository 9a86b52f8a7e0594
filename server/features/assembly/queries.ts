import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** The job with its sheet, and the opening it is assembled in: the open one, else the last. */
export async function findJob(sql: Sql, jobId: string) {
  const [job] = await sql<
    {
      jobId: string;
      number: number;
      engineId: string;
      serial: string;
      family: string;
      revisionId: string;
      openingId: string | null;
      openedAt: string | null;
    }[]
  >`
    select j.id as "jobId", j.number, j.engine_id as "engineId", e.serial, f.name as family, j.revision_id as "revisionId",
           o.id as "openingId", o.opened_at as "openedAt"
    from job j join engine e on e.id = j.engine_id join family f on f.id = e.family_id
    left join lateral (select o.id, o.opened_at from opening o where o.job_id = j.id order by o.closed_at is null desc, o.opened_at desc limit 1) o on true
    where j.id = ${jobId}`;
  return job;
}

export interface ValveRow {
  readonly code: string;
  readonly name: string;
  readonly side: 'intake' | 'exhaust';
  readonly adjuster: 'shim under bucket' | 'shim on bucket' | 'screw';
  readonly dimension: string;
  readonly wanted: number;
  readonly shimDiameter: number | null;
  readonly shimLow: number | null;
  readonly shimHigh: number | null;
  readonly screwPitch: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** The sheet's valves with the range their lash may have: the standard one (a sheet gives lash no service limit). */
export async function findValves(sql: Sql, revisionId: string): Promise<readonly ValveRow[]> {
  return sql<ValveRow[]>`
    select v.code, v.name, v.side, v.adjuster, v.dimension_code as dimension, v.wanted_nm as wanted,
           v.shim_diameter_nm as "shimDiameter", v.shim_low_nm as "shimLow", v.shim_high_nm as "shimHigh",
           v.screw_pitch_nm as "screwPitch", l.standard_low as low, l.standard_high as high
    from spec_valve v
    left join spec_dimension d on d.revision_id = v.revision_id and d.code = v.dimension_code
    left join spec_limit l on l.dimension_id = d.id and l.size_class = 'standard'
    where v.revision_id = ${revisionId} order by v.ordinal`;
}

export interface LashRow {
  readonly dimension: string;
  readonly low: number;
  readonly high: number | null;
  readonly verdict: string;
  readonly judgedAt: string;
}

/** The latest standing lash finding of each dimension in this job, whatever the round. */
export async function findLash(sql: Sql, jobId: string): Promise<readonly LashRow[]> {
  return sql<LashRow[]>`
    select distinct on (f.dimension_code) f.dimension_code as dimension, f.value_low as low, f.value_high as high, f.verdict,
           f.judged_at as "judgedAt"
    from finding_standing f
    where f.job_id = ${jobId}
      and f.dimension_code in (select v.dimension_code from spec_valve v join job j on j.revision_id = v.revision_id where j.id = ${jobId})
    order by f.dimension_code, f.judged_at desc`;
}

export interface ChoiceRow {
  readonly valve: string;
  readonly chosen: number;
  readonly words: string;
  readonly low: number;
  readonly high: number;
  readonly guaranteed: boolean;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
}

export async function findChoices(sql: Sql, jobId: string): Promise<readonly ChoiceRow[]> {
  return sql<ChoiceRow[]>`
    select distinct on (c.valve_code) c.valve_code as valve, c.chosen_nm as chosen, c.from_words as words,
           c.then_low_nm as low, c.then_high_nm as high, c.guaranteed, p.id as "byId", p.name as by, c.chosen_at as at
    from shim_choice c join person p on p.id = c.chosen_by_id
    where c.job_id = ${jobId} order by c.valve_code, c.chosen_at desc`;
}

export interface ShimLot {
  readonly lotId: string | null;
  readonly partId: string;
  readonly number: string;
  readonly thickness: number;
  readonly measured: boolean;
  readonly available: number;
  readonly bin: string;
  readonly receivedAt: string;
}

/** Shims on top of what lies in a lot unreserved: reserved for the very valves that are being chosen for. */
export interface ComingBack {
  readonly lotId: string;
  readonly count: number;
}

/** Shims of a diameter: what lies in the bins and is not reserved, and every size that could be bought (no lot). */
export async function findShims(
  sql: Sql,
  diameter: number,
  back: readonly ComingBack[] = [],
): Promise<readonly ShimLot[]> {
  return sql<ShimLot[]>`
    with back as (
      select lot_id, sum(count)::int as count
      from unnest(${back.map(({ lotId }) => lotId)}::uuid[], ${back.map(({ count }) => count)}::int[]) b (lot_id, count)
      group by lot_id
    )
    select l.id as "lotId", p.id as "partId", p.number, coalesce(l.shim_nm, p.shim_nm) as thickness, l.shim_nm is not null as measured,
           l.on_hand - l.reserved + coalesce(k.count, 0) as available, b.code as bin, l.received_at as "receivedAt"
    from part p join stock_lot l on l.part_id = p.id join bin b on b.id = l.bin_id left join back k on k.lot_id = l.id
    where p.shim_diameter_nm = ${diameter} and l.on_hand - l.reserved + coalesce(k.count, 0) > 0
    union all
    select null, p.id, p.number, p.shim_nm, false, 1, '', clock_timestamp()
    from part p where p.shim_diameter_nm = ${diameter} and p.shim_nm is not null and p.retired_at is null`;
}

/** Holds every lot of shims of these diameters, so that what is chosen from them is still there to reserve. */
export async function lockShims(sql: Sql, diameters: readonly number[]): Promise<void> {
  await sql`
    select l.id from stock_lot l
    where l.part_id in (select p.id from part p where p.shim_diameter_nm = any(${diameters}::bigint[]))
    order by l.id for no key update of l`;
}

export interface FittedRow {
  readonly valve: string;
  readonly thickness: number;
  /** Expanded, k = 2; null: nobody said. */
  readonly uncertainty: number | null;
  /** A micrometer said it; else it is a new one of that printed size. */
  readonly measured: boolean;
  readonly printed: number | null;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
}

/**
 * The shim that is in each valve, as last measured in this job. A chosen one counts as being in once the lash has been
 * measured after it was chosen.
 */
export async function findFitted(sql: Sql, jobId: string): Promise<readonly FittedRow[]> {
  return sql<FittedRow[]>`
    select distinct on (s.valve) s.valve, s.thickness, s.uncertainty, s.measured, s.printed, p.id as "byId", p.name as by, s.at
    from (
      select valve_code as valve, thickness_nm as thickness, uncertainty_nm as uncertainty, true as measured,
             printed_nm as printed, measured_by_id as by_id, measured_at as at, 0 as rank
      from fitted_shim where job_id = ${jobId}
      union all
      select c.valve_code, c.fitted_nm, null, true, null, c.chosen_by_id, c.chosen_at, 0
      from shim_choice c
      where c.job_id = ${jobId}
        and not exists (select from fitted_shim s
                        where s.job_id = c.job_id and s.valve_code = c.valve_code and s.thickness_nm = c.fitted_nm
                          and s.measured_at < c.chosen_at)
      union all
      select c.valve_code, c.chosen_nm, null, c.lot_id is null or l.shim_nm is not null, null, c.chosen_by_id, c.chosen_at, 1
      from shim_choice c join job j on j.id = c.job_id
      join spec_valve v on v.revision_id = j.revision_id and v.code = c.valve_code
      left join stock_lot l on l.id = c.lot_id
      where c.job_id = ${jobId}
        and exists (select from finding_standing f
                    where f.job_id = c.job_id and f.dimension_code = v.dimension_code and f.judged_at > c.chosen_at)
    ) s join person p on p.id = s.by_id
    order by s.valve, s.at desc, s.rank desc`;
}

export async function insertFitted(
  sql: Sql,
  of: {
    readonly jobId: string;
    readonly byId: string;
    readonly shims: readonly {
      readonly valve: string;
      readonly thickness: number;
      readonly uncertainty: number;
      readonly printed: number | null;
    }[];
  },
): Promise<void> {
  const { jobId, byId, shims } = of;
  await sql`
    insert into fitted_shim (id, job_id, valve_code, thickness_nm, uncertainty_nm, printed_nm, measured_by_id)
    select s.id, ${jobId}, s.valve, s.thickness, s.uncertainty, s.printed, ${byId}
    from unnest(${shims.map(newId)}::uuid[], ${shims.map(({ valve }) => valve)}::text[], ${shims.map(({ thickness }) => thickness)}::bigint[],
                ${shims.map(({ uncertainty }) => uncertainty)}::bigint[], ${shims.map(({ printed }) => printed)}::bigint[])
      s (id, valve, thickness, uncertainty, printed)`;
}

export interface HeadBesideRow {
  readonly jobId: string;
  readonly job: number;
  readonly serial: string;
  readonly family: string;
  readonly revisionId: string;
}

/** Other jobs in the shop whose valves take shims of a diameter that this one's take, and have one measured already. */
export async function findHeadsBeside(sql: Sql, jobId: string): Promise<readonly HeadBesideRow[]> {
  return sql<HeadBesideRow[]>`
    select j.id as "jobId", j.number as job, e.serial, f.name as family, j.revision_id as "revisionId"
    from job j join engine e on e.id = j.engine_id join family f on f.id = e.family_id
    where j.handed_back_at is null and j.id <> ${jobId}
      and exists (
        select from spec_valve v
        where v.revision_id = j.revision_id and v.shim_diameter_nm in (
          select o.shim_diameter_nm from spec_valve o join job own on own.revision_id = o.revision_id where own.id = ${jobId})
          and (exists (select from fitted_shim s where s.job_id = j.id and s.valve_code = v.code)
            or exists (select from shim_choice c where c.job_id = j.id and c.valve_code = v.code)))
    order by j.number limit 20`;
}

export interface NewChoice {
  readonly jobId: string;
  readonly valve: string;
  readonly lashLow: number;
  readonly lashHigh: number;
  readonly fitted: number;
  readonly wantedLow: number;
  readonly wantedHigh: number;
  readonly chosen: number;
  readonly thenLow: number;
  readonly thenHigh: number;
  readonly lotId: string | null;
  readonly words: string;
  readonly guaranteed: boolean;
  readonly byId: string;
}

export async function insertChoice(sql: Sql, choice: NewChoice): Promise<string> {
  const id = newId();
  await sql`
    insert into shim_choice (id, job_id, valve_code, lash_low_nm, lash_high_nm, fitted_nm, wanted_low_nm, wanted_high_nm,
                             chosen_nm, then_low_nm, then_high_nm, lot_id, from_words, guaranteed, chosen_by_id)
    values (${id}, ${choice.jobId}, ${choice.valve}, ${choice.lashLow}, ${choice.lashHigh}, ${choice.fitted},
            ${choice.wantedLow}, ${choice.wantedHigh}, ${choice.chosen}, ${choice.thenLow}, ${choice.thenHigh},
            ${choice.lotId}, ${choice.words}, ${choice.guaranteed}, ${choice.byId})`;
  return id;
}
