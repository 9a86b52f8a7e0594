import { randomInt } from 'node:crypto';
import type { DrawFinding, FindingSimulation, FindingSimulations } from '#contracts/finding-simulations.ts';
import type { DimensionDefinition } from '#domain/metrology/dimension.ts';
import { formulaVersion, type Side } from '#domain/metrology/finding.ts';
import { mostDraws } from '#domain/metrology/monte-carlo.ts';
import { type Simulation, simulateDimension } from '#domain/metrology/simulating.ts';
import { refusalText } from '#domain/metrology/wording.ts';
import { baseQuantity } from '#domain/units/quantity.ts';
import { specOf } from '#features/specs/service.ts';
import { type Act, newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { type Material, materialOf } from '../judging/material.ts';
import {
  type FindingRow,
  findFinding,
  findFittedParts,
  findInstruments,
  findReadingsOfFinding,
  type InstrumentRow,
  type KeptInstrument,
  type KeptLimits,
} from '../judging/queries.ts';
import { findSimulations, insertSimulation, type SimulationRecord } from './queries.ts';
import { simulationOnWire } from './simulation-wire.ts';

const level = 0.95;
const usualTrials = 20_000;

/** A gauge as it was when the finding was judged: the register of today stands in only for what was not kept then. */
function asKept(row: InstrumentRow, kept: KeptInstrument | undefined): InstrumentRow {
  if (kept === undefined) return row;
  const { resolution, mpe, repeatability, calibrationDue, drawing = {} } = kept;
  return { ...row, resolution, mpe, repeatability, calibrationDueOn: calibrationDue, ...drawing };
}

function limitsKept(
  { standard, service }: KeptLimits,
  kind: DimensionDefinition['kind'],
): DimensionDefinition['limits'] {
  const bounds = ({ low, high }: KeptLimits['standard']) => ({
    ...(low === null || low === undefined ? {} : { low: baseQuantity(kind, low) }),
    ...(high === null || high === undefined ? {} : { high: baseQuantity(kind, high) }),
  });
  return { standard: bounds(standard), service: bounds(service) };
}

interface Rest {
  readonly material: Material;
  /** How many readings it rests on. */
  readonly readings: number;
  readonly fromRegister: readonly string[];
}

/** What a kept finding rests on: its own readings, sheet, limits and gauges. */
async function restOf(sql: Sql, finding: FindingRow): Promise<Rest> {
  const [sheet, register, parts, rows] = await Promise.all([
    specOf(sql, finding.revisionId),
    findInstruments(sql),
    findFittedParts(sql, finding.engineId),
    findReadingsOfFinding(sql, finding.id),
  ]);
  const measured = new Set(rows.map(({ fittedPartId }) => fittedPartId));
  const kept = new Map(finding.instruments.map((one) => [one.code, one]));
  const material = materialOf({
    sheet,
    readings: rows,
    register: register.map((row) => asKept(row, kept.get(row.code))),
    partOf: (place) => parts.find(({ id, placeCode }) => placeCode === place && measured.has(id)),
  });
  const definitions = material.definitions.map((definition) =>
    definition.code === finding.dimension
      ? { ...definition, limits: limitsKept(finding.limits, definition.kind) }
      : definition,
  );
  const used = new Set(rows.flatMap(({ instrumentCode }) => (instrumentCode === null ? [] : [instrumentCode])));
  return {
    material: { ...material, definitions },
    readings: rows.length,
    fromRegister: [...used].filter((code) => kept.get(code)?.drawing === undefined).toSorted(),
  };
}

const refuse = (pointer: string, detail: string): never => {
  throw new ProblemError('refused', detail, { errors: [{ pointer, detail }] });
};

function refuseDrawing(simulation: Simulation & { readonly ok: false }): never {
  switch (simulation.reason) {
    case 'refused':
      throw new ProblemError('refused', refusalText(simulation.refusal));
    case 'felt':
      throw new ProblemError('refused', 'It was felt by hand: there is no figure to draw.');
    case 'no-upper-end':
      throw new ProblemError('refused', 'The thickest blade went in: a gap without an upper end can’t be drawn.');
    case 'trials':
    case 'level':
    case 'seed':
      return refuse(`/${simulation.reason}`, 'It is out of range.');
  }
}

const sideDrawn = ({ nearestSide }: FindingRow): Side => nearestSide ?? 'upper';

function trialsFor(asked: number | undefined, readings: number): number {
  const most = Math.floor(mostDraws / Math.max(1, readings));
  if (asked !== undefined && asked > most) {
    return refuse('/trials', `With ${readings} readings ${most} trials are the most that are drawn at once.`);
  }
  return asked ?? Math.min(usualTrials, most);
}

/** Draws a kept finding by chance and keeps what came of it, with its seed. The verdict stays as it is. */
export async function drawFinding(
  act: Act,
  asked: DrawFinding & { readonly findingId: string },
): Promise<FindingSimulation> {
  const { sql } = act;
  const finding = found(await findFinding(sql, asked.findingId), 'such finding');
  if (finding.valueType === 'felt') refuseDrawing({ ok: false, reason: 'felt' });
  const { material, readings, fromRegister } = await restOf(sql, finding);
  const trials = trialsFor(asked.trials, readings);
  const seed = asked.seed ?? randomInt(2 ** 32);
  const simulation = simulateDimension({
    sheet: material.definitions,
    readings: material.readings,
    instruments: material.instruments,
    dimension: finding.dimension,
    trials,
    seed,
    level,
  });
  if (!simulation.ok) return refuseDrawing(simulation);
  const side = sideDrawn(finding);
  const drawn = simulation[side];
  const record: SimulationRecord = {
    id: newId(),
    findingId: finding.id,
    trials,
    seed,
    side,
    mean: drawn.mean,
    u: drawn.sd,
    symmetricLow: drawn.symmetric.low,
    symmetricHigh: drawn.symmetric.high,
    shortestLow: drawn.shortest.low,
    shortestHigh: drawn.shortest.high,
    past: simulation.probabilityPast,
    histogram: drawn.histogram,
    fromRegister,
    formulaVersion,
    madeById: act.actor.id,
  };
  const madeAt = await insertSimulation(sql, record);
  await act.event('finding.drawn', {
    engineId: finding.engineId,
    jobId: finding.jobId,
    data: { id: record.id, dimension: finding.dimension, name: finding.name, trials, seed },
  });
  return simulationOnWire({ ...record, madeByName: act.actor.name, madeAt }, finding);
}

/** What a finding came to each time it was drawn, the newest first. */
export async function drawingsOf(sql: Sql, findingId: string): Promise<FindingSimulations> {
  const finding = found(await findFinding(sql, findingId), 'such finding');
  return { items: (await findSimulations(sql, findingId)).map((row) => simulationOnWire(row, finding)) };
}
