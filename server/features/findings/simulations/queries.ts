import type { Side } from '#domain/metrology/finding.ts';
import type { Histogram } from '#domain/metrology/histogram.ts';
import type { Sql } from '#platform/database/client.ts';

/** A finding drawn by chance, as it is kept; figures in base units, never rounded. */
export interface SimulationRecord {
  readonly id: string;
  readonly findingId: string;
  readonly trials: number;
  readonly seed: number;
  readonly side: Side;
  readonly mean: number;
  readonly u: number;
  readonly symmetricLow: number;
  readonly symmetricHigh: number;
  readonly shortestLow: number;
  readonly shortestHigh: number;
  readonly past: number | null;
  readonly histogram: Histogram;
  readonly fromRegister: readonly string[];
  readonly formulaVersion: number;
  readonly madeById: string;
}

export interface SimulationRow extends SimulationRecord {
  readonly madeByName: string;
  readonly madeAt: string;
}

export async function insertSimulation(sql: Sql, of: SimulationRecord): Promise<string> {
  const [row] = await sql<{ madeAt: string }[]>`
    insert into finding_simulation (id, finding_id, trials, seed, side, mean, u, symmetric_low, symmetric_high,
      shortest_low, shortest_high, p_past, histogram, from_register, formula_version, made_by_id)
    values (${of.id}, ${of.findingId}, ${of.trials}, ${of.seed}, ${of.side}, ${of.mean}, ${of.u}, ${of.symmetricLow},
      ${of.symmetricHigh}, ${of.shortestLow}, ${of.shortestHigh}, ${of.past}, ${sql.json(of.histogram as never)},
      ${sql.array([...of.fromRegister])}::text[], ${of.formulaVersion}, ${of.madeById})
    returning made_at as "madeAt"`;
  return row?.madeAt ?? '';
}

/** Every drawing of a finding, the newest first (index finding_simulation_finding). */
export async function findSimulations(sql: Sql, findingId: string): Promise<readonly SimulationRow[]> {
  return sql<SimulationRow[]>`
    select s.id, s.finding_id as "findingId", s.trials, s.seed, s.side, s.mean, s.u, s.symmetric_low as "symmetricLow",
           s.symmetric_high as "symmetricHigh", s.shortest_low as "shortestLow", s.shortest_high as "shortestHigh",
           s.p_past as past, s.histogram, s.from_register as "fromRegister", s.formula_version as "formulaVersion",
           s.made_by_id as "madeById", p.name as "madeByName", s.made_at as "madeAt"
    from finding_simulation s join person p on p.id = s.made_by_id
    where s.finding_id = ${findingId} order by s.made_at desc, s.id desc`;
}
