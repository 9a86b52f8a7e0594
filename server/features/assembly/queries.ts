import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** The job with its sheet, and the opening it is assembled in: the open one, else the last. */
export async function findJob(sql: Sql, jobId: string) {
  const [job] = await sql<
    {
      jobId: string;
      engineId: string;
      serial: string;
      family: string;
      revisionId: string;
      openingId: string | null;
      openedAt: string | null;
      separation: number | null;
    }[]
  >`
    select j.id as "jobId", j.engine_id as "engineId", e.serial, f.name as family, j.revision_id as "revisionId",
           o.id as "openingId", o.opened_at as "openedAt", r.ring_separation_udeg as separation
    from job j join engine e on e.id = j.engine_id join family f on f.id = e.family_id
    join spec_revision r on r.id = j.revision_id
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

/** Shims of a diameter: what lies in the bins and is not reserved, and every size that could be bought (no lot). */
export async function findShims(sql: Sql, diameter: number): Promise<readonly ShimLot[]> {
  return sql<ShimLot[]>`
    select l.id as "lotId", p.id as "partId", p.number, coalesce(l.shim_nm, p.shim_nm) as thickness, l.shim_nm is not null as measured,
           l.on_hand - l.reserved as available, b.code as bin, l.received_at as "receivedAt"
    from part p join stock_lot l on l.part_id = p.id join bin b on b.id = l.bin_id
    where p.shim_diameter_nm = ${diameter} and l.on_hand > l.reserved
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

/** Shims of these diameters that the job still has to get: reserved, short, or not asked for yet. */
export async function findShimsAskedFor(
  sql: Sql,
  of: { readonly jobId: string; readonly diameters: readonly number[] },
): Promise<readonly { readonly number: string; readonly count: number }[]> {
  return sql<{ number: string; count: number }[]>`
    select p.number, d.reserved + d.short + d.not_asked as count
    from demand_line d join part p on p.id = d.part_id
    where d.job_id = ${of.jobId} and p.shim_diameter_nm = any(${of.diameters}::bigint[])
      and d.reserved + d.short + d.not_asked > 0
    order by p.number`;
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

export async function findRings(sql: Sql, revisionId: string) {
  const [rings, zones] = [
    await sql<{ code: string; name: string; angle: number }[]>`
      select code, name, angle_udeg as angle from spec_ring where revision_id = ${revisionId} order by ordinal`,
    await sql<{ from: number; to: number; reason: string }[]>`
      select from_udeg as "from", to_udeg as "to", reason from spec_ring_zone where revision_id = ${revisionId} order by from_udeg`,
  ];
  return { rings, zones };
}

export interface PlacementRow {
  readonly gaps: readonly { readonly ring: string; readonly angle: number }[];
  readonly marksUp: boolean;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
}

/** The last placement made since the opening began; an earlier one was for rings that have been out since. */
export async function findPlacement(sql: Sql, jobId: string, since: string | null): Promise<PlacementRow | undefined> {
  const [row] = await sql<PlacementRow[]>`
    select r.gaps, r.marks_up as "marksUp", p.id as "byId", p.name as by, r.placed_at as at
    from ring_placement r join person p on p.id = r.placed_by_id
    where r.job_id = ${jobId} and r.placed_at >= coalesce(${since}::timestamptz, '-infinity')
    order by r.placed_at desc limit 1`;
  return row;
}

export async function insertPlacement(
  sql: Sql,
  placement: {
    jobId: string;
    gaps: readonly { ring: string; angle: number }[];
    faults: readonly { ring: string; words: string }[];
    marksUp: boolean;
    byId: string;
  },
): Promise<void> {
  await sql`
    insert into ring_placement (id, job_id, gaps, faults, marks_up, placed_by_id)
    values (${newId()}, ${placement.jobId}, ${sql.json(placement.gaps as never)}, ${sql.json(placement.faults as never)},
            ${placement.marksUp}, ${placement.byId})`;
}
