import type { AssemblyPage, FastenerSetStanding } from '#contracts/assembly.ts';
import { quantity, rounded } from '#contracts/figures.ts';
import { tighteningOrder } from '#domain/fasteners/order.ts';
import { nextPull, setProgress } from '#domain/fasteners/pulls.ts';
import { isTorqueToYield } from '#domain/fasteners/reuse.ts';
import { guardTorque } from '#domain/fasteners/typo-guard.ts';
import { wrenchFor } from '#domain/fasteners/wrench.ts';
import type { UnitCode } from '#domain/units/unit-table.ts';
import type { Sql } from '#platform/database/client.ts';
import { fastenerSetOf, figureOf, PULLS_ALLOWED, pullsOf, torqueUnitOf, wrenchOf } from './fastener-sets.ts';
import { findRenewals, type RenewalRow } from './renewal-queries.ts';
import { findPulls, findSets, findWrenches, type PullRow, type SetRow, type WrenchRow } from './torque-queries.ts';
import { guardWords } from './words.ts';

export interface SetContext {
  readonly pulls: readonly PullRow[];
  readonly wrenches: readonly WrenchRow[];
  readonly renewals: readonly RenewalRow[];
  /** Codes of the sets that closing still asks for: those complete are no longer among them. */
  readonly asked: ReadonlySet<string>;
  readonly day: string;
}

/** One set: how far it is, which pull comes next and with which wrench. */
export function setStanding(
  row: SetRow,
  { pulls: rows, wrenches, renewals, asked, day }: SetContext,
): FastenerSetStanding {
  const set = fastenerSetOf(row);
  const unit = torqueUnitOf(row);
  const pulls = pullsOf(rows, row.code);
  const progress = setProgress(set, pulls);
  const next = nextPull(set, pulls);
  const wrench =
    next?.stage.kind === 'torque' ? (wrenchFor(wrenches.map(wrenchOf), next.stage.torque, day)?.code ?? null) : null;
  return {
    code: row.code,
    name: row.name,
    thread: row.thread,
    propertyClass: row.propertyClass,
    condition: row.condition,
    reuse: row.reuse,
    torqueToYield: isTorqueToYield(set),
    tool: row.tool,
    source: [row.source, row.page].filter((text) => text !== '').join(', '),
    orderIsMakers: row.orderIsMakers,
    renewals: renewals
      .filter(({ setCode }) => setCode === row.code)
      .map(({ words, obligationId, open }) => ({ words, obligationId, open })),
    required: asked.has(row.code) || pulls.length > 0,
    complete: progress.complete,
    order: [...tighteningOrder(set)],
    positions: row.fasteners.map(({ number, x, y }) => ({
      number,
      x: rounded(x, { unit: 'mm', decimals: 1 }),
      y: rounded(y, { unit: 'mm', decimals: 1 }),
    })),
    stages: set.stages.map((stage) => {
      const { done = [], missing = [] } = progress.stages.find((each) => each.stage === stage.ordinal) ?? {};
      return { ordinal: stage.ordinal, figure: figureOf(stage, unit), done: [...done], missing: [...missing] };
    }),
    next:
      next === undefined
        ? null
        : {
            fastener: next.fastener,
            stage: next.stage.ordinal,
            figure: figureOf(next.stage, unit),
            instrumentCode: wrench,
          },
    cautions: set.stages
      .map((stage) => guardWords(guardTorque(set, stage), stage.ordinal))
      .filter((words): words is string => words !== undefined),
    pulls: rows.filter(({ setCode }) => setCode === row.code).map((pull) => pullOnWire(pull, unit)),
  };
}

function pullOnWire(row: PullRow, unit: UnitCode): FastenerSetStanding['pulls'][number] {
  const { wrenchLength, adapterLength, adapterAngle, torque } = row;
  const adapter =
    wrenchLength === null || adapterLength === null || adapterAngle === null
      ? null
      : {
          wrenchLength: quantity(wrenchLength, { unit: 'mm', decimals: 1 }),
          adapterLength: quantity(adapterLength, { unit: 'mm', decimals: 1 }),
          angle: quantity(adapterAngle, { unit: 'deg', decimals: 0 }),
        };
  return {
    id: row.id,
    fastener: row.fastener,
    stage: row.stage,
    value: { value: row.text, unit: row.unit },
    instrumentCode: row.instrumentCode,
    atBolt: adapter === null || torque === null ? null : rounded(torque, { unit, decimals: 1 }),
    adapter,
    by: { id: row.byId, name: row.by },
    at: row.at,
  };
}

/** One set of the job as it stands after an act on it. */
export async function setAfter(
  sql: Sql,
  row: SetRow,
  job: { readonly jobId: string; readonly openedAt: string | null },
): Promise<FastenerSetStanding> {
  return setStanding(row, {
    pulls: await findPulls(sql, job.jobId, job.openedAt),
    wrenches: await findWrenches(sql),
    renewals: await findRenewals(sql, job.jobId),
    asked: new Set([row.code]),
    day: today(),
  });
}

/** The shop's torque wrenches as the bench chooses from them. */
export async function wrenchesNow(sql: Sql): Promise<AssemblyPage['wrenches']> {
  return (await findWrenches(sql)).map(({ code, name, largest, calibratedUntil, pulls }) => ({
    code,
    name,
    largest: rounded(largest, { unit: 'N.m', decimals: 1 }),
    calibratedUntil,
    pulls,
    pullsAllowed: PULLS_ALLOWED,
  }));
}

/** The shop's day. */
export const today = (): string => new Date().toISOString().slice(0, 10);

/** Every set of the job's sheet as it stands. */
export async function setsNow(
  sql: Sql,
  job: { jobId: string; revisionId: string; openedAt: string | null },
  asked: ReadonlySet<string>,
): Promise<readonly FastenerSetStanding[]> {
  const [rows, pulls, wrenches, renewals] = [
    await findSets(sql, job.revisionId),
    await findPulls(sql, job.jobId, job.openedAt),
    await findWrenches(sql),
    await findRenewals(sql, job.jobId),
  ];
  return rows.map((row) => setStanding(row, { pulls, wrenches, renewals, asked, day: today() }));
}
