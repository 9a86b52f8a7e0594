import type {
  LashFact,
  OpeningFacts,
  OpenObligation,
  RingFact,
  TorqueFact,
} from '#domain/closing/closing-the-opening.ts';
import type { Sql } from '#platform/database/client.ts';
import { findCheckLines } from './check-queries.ts';
import {
  assemblySteps,
  findLeftRuns,
  findUnfinishedRuns,
  findUnsignedStops,
  type Since,
} from './closing-procedure-queries.ts';
import { findPieces } from './piece-queries.ts';
import { findThings } from './put-in-queries.ts';
import type { OpeningRow } from './queries.ts';
import { findSearches } from './search-queries.ts';

interface ValveLash {
  readonly code: string;
  readonly name: string;
  readonly dimension: string;
  /** A shim was chosen for it since then. */
  readonly chosen: boolean;
  readonly standing: LashFact['standing'];
}

/** Everything the gate "close the opening" looks at; read it under the engine's lock to decide on it. */
export async function findFactsForClosing(sql: Sql, opening: OpeningRow): Promise<OpeningFacts> {
  const of = {
    openingId: opening.id,
    jobId: opening.jobId,
    revisionId: opening.revisionId,
    since: await findSince(sql, opening),
  };
  return {
    balances: await findPieces(sql, opening.id),
    obligations: await sql<OpenObligation[]>`
      select id, words as what, inside from obligation
      where engine_id = ${opening.engineId} and discharged_at is null order by opened_at, id`,
    torque: await findTorque(sql, of),
    rings: await findRings(sql, of),
    lash: await findLash(sql, of),
    left: await findLeftRuns(sql, of),
    unfinished: await findUnfinishedRuns(sql, of),
    unsignedStops: await findUnsignedStops(sql, of),
    ...(await findWhatMayBeLeftIn(sql, opening)),
  };
}

/** What was put in and has not come out, what may be inside, and what no second person has checked. */
async function findWhatMayBeLeftIn(sql: Sql, opening: OpeningRow) {
  const things = await findThings(sql, { openingId: opening.id });
  const searches = await findSearches(sql, { jobId: opening.jobId });
  const lines = await findCheckLines(sql, opening.id);
  return {
    stillIn: things
      .filter(({ stillIn, notFound }) => stillIn > notFound)
      .map(({ id, name, where, stillIn, notFound }) => ({ id, what: `${name}, ${where}`, count: stillIn - notFound })),
    searches: searches
      .filter(({ openingId, endedAt }) => openingId === opening.id && endedAt === null)
      .map(({ id, what, missing: count }) => ({ id, what, count })),
    check: { lines: lines.length, left: lines.filter(({ tickedById }) => tickedById === null).length },
  };
}

async function findSince(sql: Sql, opening: OpeningRow): Promise<string> {
  const [row] = await sql<{ since: string }[]>`
    select coalesce(max(closed_at), timestamptz '2000-01-01 00:00:00+00') as since
    from opening where job_id = ${opening.jobId} and closed_at < ${opening.openedAt}::timestamptz`;
  return row?.since ?? opening.openedAt;
}

/**
 * Fastener sets in question: loosened by a strip step done, or by one whose pieces came off in this opening (a step that
 * was done before the last closing stays done, and its pieces are counted off all the same), asked for by an assembly
 * step, or pulled in part. Of each stage, the positions without a pull that stands.
 */
async function findTorque(sql: Sql, of: Since): Promise<readonly TorqueFact[]> {
  const rows = await sql<{ code: string; name: string; stage: number; missing: number[] }[]>`
    with asked as (
      select s.fastener_set as code
      from procedure_run r
      join procedure_version v on v.id = r.version_id
      join procedure p on p.id = v.procedure_id and p.kind = 'strip'
      join procedure_step s on s.version_id = v.id
      join step_mark m on m.run_id = r.id and m.step_id = s.id and m.mark = 'done' and m.marked_at >= ${of.since}::timestamptz
      where r.job_id = ${of.jobId}
      union select s.fastener_set from piece p
        join step_piece sp on sp.id = p.step_piece_id
        join procedure_step s on s.id = sp.step_id
        where p.opening_id = ${of.openingId} and p.off > 0
      union select a.fastener_set from (${assemblySteps(sql, of)}) a
      union select t.set_code from torque_pull t
        where t.job_id = ${of.jobId} and t.pulled_at >= ${of.since}::timestamptz
          and not exists (select from torque_strike k where k.pull_id = t.id)
    )
    select fs.code, fs.name, st.ordinal as stage, array_agg(f.number order by f.number) as missing
    from spec_fastener_set fs
    join spec_fastener f on f.set_id = fs.id
    join spec_fastener_stage st on st.set_id = fs.id
    where fs.revision_id = ${of.revisionId} and fs.code in (select code from asked)
      and not exists (
        select from torque_pull t
        where t.job_id = ${of.jobId} and t.set_code = fs.code and t.fastener = f.number and t.stage = st.ordinal
          and t.pulled_at >= ${of.since}::timestamptz and not exists (select from torque_strike k where k.pull_id = t.id))
    group by fs.code, fs.name, st.ordinal order by fs.code, st.ordinal`;
  return [...new Set(rows.map(({ code }) => code))].map((code) => {
    const stages = rows.filter((row) => row.code === code);
    return {
      setId: code,
      name: stages[0]?.name ?? code,
      openStages: stages.map(({ stage, missing }) => ({ stage, missing })),
    };
  });
}

/** Ring gaps, asked for once the cylinder was off: by the newest placement since then. */
async function findRings(sql: Sql, of: Since): Promise<readonly RingFact[]> {
  const rings = await sql<{ code: string; name: string }[]>`
    select code, name from spec_ring
    where revision_id = ${of.revisionId}
      and exists (select from piece where opening_id = ${of.openingId} and layer = 'cylinder' and off > 0)
    order by ordinal`;
  const [placement] = await sql<{ gaps: unknown; faults: unknown; marksWell: boolean; signed: boolean }[]>`
    select gaps, faults, marks_well as "marksWell",
           exists (select from ring_sign_off s where s.placement_id = ring_placement.id) as signed
    from ring_placement
    where job_id = ${of.jobId} and placed_at >= ${of.since}::timestamptz order by placed_at desc, id desc limit 1`;
  const placed = new Set(ringsNamedIn(placement?.gaps));
  const faulty = new Set(ringsNamedIn(placement?.faults));
  const unnamedFault = Array.isArray(placement?.faults) && placement.faults.length > 0 && faulty.size === 0;
  return rings.map(({ code, name }) => {
    const wrong = unnamedFault || faulty.has(code) || (faulty.size === 0 && placement?.marksWell === false);
    const well = placement?.signed === true ? 'placed' : 'unsigned';
    const standing = !placed.has(code) ? 'not-placed' : wrong ? 'against-the-rule' : well;
    return { ringId: code, name, standing };
  });
}

function ringsNamedIn(list: unknown): readonly string[] {
  if (!Array.isArray(list)) return [];
  return list.flatMap((item: unknown) =>
    typeof item === 'object' && item !== null && 'ring' in item && typeof item.ring === 'string' ? [item.ring] : [],
  );
}

/** How the lash of every valve stands: by what was measured as built, after the last shim was chosen for it. */
async function findLashOfValves(
  sql: Sql,
  of: Pick<Since, 'jobId' | 'revisionId' | 'since'>,
): Promise<readonly ValveLash[]> {
  const rows = await sql<{ code: string; name: string; dimension: string; chosen: boolean; verdict: string | null }[]>`
    select v.code, v.name, v.dimension_code as dimension, chosen.at is not null as chosen, f.verdict
    from spec_valve v
    left join lateral (
      select max(chosen_at) as at from shim_choice c
      where c.job_id = ${of.jobId} and c.valve_code = v.code and c.chosen_at >= ${of.since}::timestamptz) chosen on true
    left join lateral (
      select verdict from finding_standing f
      where f.job_id = ${of.jobId} and f.dimension_code = v.dimension_code and f.round = 'as built'
        and f.judged_at >= greatest(${of.since}::timestamptz, chosen.at) order by f.judged_at desc limit 1) f on true
    where v.revision_id = ${of.revisionId} order by v.ordinal`;
  return rows.map(({ verdict, ...valve }) => ({ ...valve, standing: lashStanding(verdict) }));
}

/** Lash, asked for once the head was off, a shim was chosen, or an assembly step measures it. */
async function findLash(sql: Sql, of: Since): Promise<readonly LashFact[]> {
  const [asked] = await sql<{ headOff: boolean; dimensions: string[] }[]>`
    select exists (select from piece where opening_id = ${of.openingId} and layer = 'head' and off > 0) as "headOff",
           array(select g.dimension_code from (${assemblySteps(sql, of)}) a join step_reading g on g.step_id = a.id) as dimensions`;
  const valves = await findLashOfValves(sql, of);
  return valves
    .filter(({ chosen, dimension }) => chosen || asked?.headOff === true || asked?.dimensions.includes(dimension))
    .map(({ name: valve, standing }) => ({ valve, standing }));
}

/** The same for a job: of every valve, asked for or not, since the engine was last closed before its newest opening. */
export async function findLashOfJob(
  sql: Sql,
  of: { readonly jobId: string; readonly revisionId: string; readonly opening: OpeningRow | undefined },
): Promise<ReadonlyMap<string, LashFact['standing']>> {
  const since = of.opening === undefined ? 'epoch' : await findSince(sql, of.opening);
  const valves = await findLashOfValves(sql, { ...of, since });
  return new Map(valves.map(({ code, standing }) => [code, standing]));
}

function lashStanding(verdict: string | null): LashFact['standing'] {
  if (verdict === null) return 'not-verified';
  if (verdict === 'undecided') return 'undecided';
  return verdict === 'past the limit' ? 'out' : 'in-range';
}
