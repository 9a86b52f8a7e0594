import type { FastenerSetStanding, LogPull } from '#contracts/assembly.ts';
import { rounded } from '#contracts/figures.ts';
import { tighteningOrder } from '#domain/fasteners/order.ts';
import { checkPull, nextPull, type Pull, setProgress } from '#domain/fasteners/pulls.ts';
import { guardTorque } from '#domain/fasteners/typo-guard.ts';
import { wrenchFit, wrenchFor } from '#domain/fasteners/wrench.ts';
import { micronewtonMetres } from '#domain/units/quantity.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { fastenerSetOf, figureOf, pullsOf, torqueUnitOf, wrenchOf } from './fastener-sets.ts';
import { findJob } from './queries.ts';
import {
  findPullJob,
  findPulls,
  findSets,
  findWrenches,
  insertPull,
  insertStrike,
  type PullRow,
  type SetRow,
  type WrenchRow,
} from './torque-queries.ts';
import { guardWords, pullRefusal, wrenchFault } from './words.ts';

export interface SetContext {
  readonly pulls: readonly PullRow[];
  readonly wrenches: readonly WrenchRow[];
  /** Codes of the sets that closing still asks for: those complete are no longer among them. */
  readonly asked: ReadonlySet<string>;
  readonly day: string;
}

/** One set: how far it is, which pull comes next and with which wrench. */
export function setStanding(row: SetRow, { pulls: rows, wrenches, asked, day }: SetContext): FastenerSetStanding {
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
    tool: row.tool,
    source: [row.source, row.page].filter((text) => text !== '').join(', '),
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
    pulls: rows
      .filter(({ setCode }) => setCode === row.code)
      .map(({ id, fastener, stage, text, unit: keyed, instrumentCode, byId, by, at }) => ({
        id,
        fastener,
        stage,
        value: { value: text, unit: keyed },
        instrumentCode,
        by: { id: byId, name: by },
        at,
      })),
  };
}

interface Keyed {
  readonly pull: Pull;
  readonly torque: number | null;
  readonly angle: number | null;
}

function keyedPull(asked: LogPull, row: SetRow): Keyed {
  const isAngle = row.stages.find(({ ordinal }) => ordinal === asked.stage)?.angle != null;
  const base = { fastener: asked.fastener, stage: asked.stage };
  if (isAngle) {
    const angle = baseOf(asked.value, 'angle', '/value');
    if (angle <= 0 || angle > 360_000_000) {
      const detail = 'A stage turns by more than 0 and at most 360°.';
      throw new ProblemError('refused', detail, { errors: [{ pointer: '/value', detail }] });
    }
    return { pull: { ...base, kind: 'angle', angle }, torque: null, angle };
  }
  const torque = baseOf(asked.value, 'torque', '/value');
  return { pull: { ...base, kind: 'torque', torque }, torque, angle: null };
}

/** The wrench it was pulled with; a calibration that ran out, or a setting outside its range, refuses the pull. */
async function wrenchAsked(act: Act, asked: LogPull, torque: number | null): Promise<string | null> {
  if (asked.instrumentCode === undefined || torque === null) return null;
  const row = (await findWrenches(act.sql)).find(({ code }) => code === asked.instrumentCode);
  if (row === undefined)
    throw new ProblemError('not-found', `There is no torque wrench ${asked.instrumentCode} in use.`);
  const fit = wrenchFit(wrenchOf(row), micronewtonMetres(torque), today());
  if (!fit.ok) {
    const why = fit.faults.map((fault) => wrenchFault(fault, row.code)).join(' ');
    throw new ProblemError('refused', `${why} Take another wrench.`, {
      errors: [{ pointer: '/instrumentCode', detail: why }],
    });
  }
  return row.id;
}

const today = (): string => new Date().toISOString().slice(0, 10);

/** Logs one pull, the next one and a good one; anything else is refused and says what comes first. */
export async function logPull(act: Act, jobId: string, asked: LogPull): Promise<FastenerSetStanding> {
  await openJob(act, jobId);
  const job = found(await findJob(act.sql, jobId), 'such job');
  const sets = await findSets(act.sql, job.revisionId);
  const row = sets.find(({ code }) => code === asked.set);
  if (row === undefined) {
    throw new ProblemError(
      'not-found',
      `The spec sheet has no fastener set ${asked.set}. It has ${sets.map(({ code }) => code).join(', ')}.`,
    );
  }
  const set = fastenerSetOf(row);
  const { pull, torque, angle } = keyedPull(asked, row);
  const before = await findPulls(act.sql, jobId, job.openedAt);
  const refusal = pullRefusal(checkPull(set, pullsOf(before, row.code), pull), { set, kind: pull.kind });
  if (refusal !== undefined)
    throw new ProblemError('refused', refusal, { errors: [{ pointer: '/fastener', detail: refusal }] });
  const instrumentId = await wrenchAsked(act, asked, torque);
  await insertPull(act.sql, {
    jobId,
    setCode: row.code,
    fastener: asked.fastener,
    stage: asked.stage,
    text: asked.value.value,
    unit: asked.value.unit,
    torque,
    angle,
    instrumentId,
    byId: act.actor.id,
  });
  const standing = setStanding(row, {
    pulls: await findPulls(act.sql, jobId, job.openedAt),
    wrenches: await findWrenches(act.sql),
    asked: new Set([row.code]),
    day: today(),
  });
  await act.event('torque.pulled', {
    engineId: job.engineId,
    jobId,
    data: {
      set: row.name,
      fastener: asked.fastener,
      stage: asked.stage,
      value: asked.value,
      complete: standing.complete,
    },
  });
  return standing;
}

/** Strikes a pull with a reason; it may then be pulled again. */
export async function strikePull(act: Act, pullId: string, reason: string): Promise<void> {
  const pull = found(await findPullJob(act.sql, pullId), 'such pull');
  const job = await openJob(act, pull.jobId);
  if (pull.struck) throw new ProblemError('already-done', 'That pull was struck already.');
  await insertStrike(act.sql, { pullId, reason, byId: act.actor.id });
  await act.event('torque.struck', {
    engineId: job.engineId,
    jobId: pull.jobId,
    data: { set: pull.setCode, fastener: pull.fastener, stage: pull.stage, reason },
  });
}

/** Every set of the job's sheet as it stands. */
export async function setsNow(
  sql: Sql,
  job: { jobId: string; revisionId: string; openedAt: string | null },
  asked: ReadonlySet<string>,
): Promise<readonly FastenerSetStanding[]> {
  const [rows, pulls, wrenches] = [
    await findSets(sql, job.revisionId),
    await findPulls(sql, job.jobId, job.openedAt),
    await findWrenches(sql),
  ];
  return rows.map((row) => setStanding(row, { pulls, wrenches, asked, day: today() }));
}
