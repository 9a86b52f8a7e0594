import { rounded } from '#contracts/figures.ts';
import type { FittedShims, FittedShimsKept, HeadsBeside } from '#contracts/head-shims.ts';
import type { LashFact } from '#domain/closing/closing-the-opening.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found } from '#platform/problem.ts';
import { refuseAt } from './head-shims-reading.ts';
import { usualUncertainty } from './lash-service.ts';
import { findHeadsBeside, findJob, findValves, insertFitted, type ValveRow } from './queries.ts';
import { valvesNow } from './valve-standing.ts';

type Given = FittedShims['valves'][number];

interface MeasuredShim {
  readonly valve: string;
  readonly thickness: number;
  readonly uncertainty: number;
  readonly printed: number | null;
}

const notAtTheGate: ReadonlyMap<string, LashFact['standing']> = new Map();

function rowOf(rows: readonly ValveRow[], code: string, at: string): ValveRow {
  const row = rows.find((one) => one.code === code);
  if (row === undefined) refuseAt(`${at}/valve`, `This engine has no valve ${code}.`);
  return row.adjuster === 'screw' ? refuseAt(`${at}/valve`, `${row.name} has a screw, no shim.`) : row;
}

/** A thickness twice the thickest of the maker, or half the thinnest, is a slip of the unit or the point. */
function thicknessOf(given: Given['thickness'], row: ValveRow, at: string): number {
  const thickness = baseOf(given, 'length', at);
  if (thickness <= 0) refuseAt(at, 'must be above zero.');
  const { shimLow, shimHigh } = row;
  if (shimLow !== null && shimHigh !== null && (thickness < shimLow / 2 || thickness > shimHigh * 2)) {
    const [low, high] = [formatQuantity(shimLow, 'mm', 2), formatQuantity(shimHigh, 'mm', 2)];
    refuseAt(at, `The maker's shims go from ${low} to ${high} mm: look at the unit and the point.`);
  }
  return thickness;
}

function readShim(given: Given, rows: readonly ValveRow[], at: string): MeasuredShim {
  const row = rowOf(rows, given.valve, at);
  const uncertainty =
    given.uncertainty === undefined ? usualUncertainty(true) : baseOf(given.uncertainty, 'length', `${at}/uncertainty`);
  if (uncertainty < 0) refuseAt(`${at}/uncertainty`, 'lies below zero.');
  return {
    valve: given.valve,
    thickness: thicknessOf(given.thickness, row, `${at}/thickness`),
    uncertainty,
    printed: given.printed === undefined ? null : thicknessOf(given.printed, row, `${at}/printed`),
  };
}

/** Keeps the thickness of shims that are in, by micrometer, and apart from it what is printed on them. */
export async function recordFitted(act: Act, jobId: string, { valves }: FittedShims): Promise<FittedShimsKept> {
  const job = await openJob(act, jobId);
  const rows = await findValves(act.sql, job.revisionId);
  const shims = valves.map((given, index) => {
    const at = `/valves/${index}`;
    if (valves.findIndex(({ valve }) => valve === given.valve) !== index) {
      refuseAt(`${at}/valve`, `${given.valve} is there twice.`);
    }
    return readShim(given, rows, at);
  });
  await insertFitted(act.sql, { jobId, shims, byId: act.actor.id });
  await act.event('shims.measured', {
    engineId: job.engineId,
    jobId,
    data: {
      shims: shims.map(({ valve, thickness, printed }) => ({
        valve: rows.find(({ code }) => code === valve)?.name ?? valve,
        thickness: rounded(thickness, { unit: 'mm', decimals: 3 }),
        printed: printed === null ? null : rounded(printed, { unit: 'mm', decimals: 3 }),
      })),
    },
  });
  return { valves: [...(await valvesNow(act.sql, { jobId, revisionId: job.revisionId }, notAtTheGate))] };
}

/** Engines in the shop that draw on the same bins as a job's, and what must be measured before they can be chosen for. */
export async function headsBeside(sql: Sql, jobId: string): Promise<HeadsBeside> {
  found(await findJob(sql, jobId), 'such job');
  const items = [];
  for (const { revisionId, ...head } of await findHeadsBeside(sql, jobId)) {
    const valves = await valvesNow(sql, { jobId: head.jobId, revisionId }, notAtTheGate);
    const shimmed = valves.filter(({ adjuster }) => adjuster !== 'screw');
    items.push({
      ...head,
      valves: shimmed.map(({ code, name }) => ({ code, name })),
      missing: shimmed.filter(({ lash, fitted }) => lash === null || fitted === null).map(({ name }) => name),
    });
  }
  return { items };
}
