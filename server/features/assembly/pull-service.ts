import type { AdapterOnWrench, FastenerSetStanding, LogPull } from '#contracts/assembly.ts';
import { type Adapter, torqueAtBolt } from '#domain/fasteners/adapter.ts';
import { checkPull, type Pull } from '#domain/fasteners/pulls.ts';
import { isTorqueToYield } from '#domain/fasteners/reuse.ts';
import { wrenchFit } from '#domain/fasteners/wrench.ts';
import { microDegrees, micronewtonMetres, nanometres } from '#domain/units/quantity.ts';
import { refuseUnlessInHand } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { fastenerSetOf, pullsOf, wrenchOf } from './fastener-sets.ts';
import { findJob } from './queries.ts';
import { findPulls, findSets, findWrenches, insertPull, type SetRow } from './torque-queries.ts';
import { setAfter, today } from './torque-service.ts';
import { pullRefusal, wrenchFault } from './words.ts';

interface Keyed {
  readonly pull: Pull;
  /** What the bolt got, and what the wrench showed with an adapter on it. */
  readonly torque: number | null;
  readonly shown: number | null;
  readonly adapter: Adapter | null;
  readonly angle: number | null;
}

const refuse = (pointer: string, detail: string): never => {
  throw new ProblemError('refused', detail, { errors: [{ pointer, detail }] });
};

function adapterOf(asked: AdapterOnWrench): Adapter {
  const length = (of: 'wrenchLength' | 'adapterLength') => {
    const base = baseOf(asked[of], 'length', `/adapter/${of}`);
    return base > 0 ? nanometres(base) : refuse(`/adapter/${of}`, 'A length on the wrench is more than 0.');
  };
  const angle = baseOf(asked.angle, 'angle', '/adapter/angle');
  if (angle < 0 || angle > 180_000_000) {
    refuse('/adapter/angle', 'An adapter stands at 0° (straight on) to 180° (turned right back).');
  }
  return {
    wrenchLength: length('wrenchLength'),
    adapterLength: length('adapterLength'),
    angle: microDegrees(angle),
  };
}

function keyedAngle(asked: LogPull): Keyed {
  const angle = baseOf(asked.value, 'angle', '/value');
  if (angle <= 0 || angle > 360_000_000) refuse('/value', 'A stage turns by more than 0 and at most 360°.');
  if (asked.adapter !== undefined) refuse('/adapter', 'An angle is turned the same with an adapter: leave it out.');
  const pull: Pull = { fastener: asked.fastener, stage: asked.stage, kind: 'angle', angle: microDegrees(angle) };
  return { pull, torque: null, shown: null, adapter: null, angle };
}

function keyedPull(asked: LogPull, row: SetRow): Keyed {
  if (row.stages.find(({ ordinal }) => ordinal === asked.stage)?.angle != null) return keyedAngle(asked);
  const shown = micronewtonMetres(baseOf(asked.value, 'torque', '/value'));
  if (shown <= 0) refuse('/value', 'A torque is more than 0.');
  const base = { fastener: asked.fastener, stage: asked.stage, kind: 'torque' } as const;
  if (asked.adapter === undefined) {
    return { pull: { ...base, torque: shown }, torque: shown, shown: null, adapter: null, angle: null };
  }
  const adapter = adapterOf(asked.adapter);
  const atBolt = torqueAtBolt(shown, adapter);
  if (!atBolt.ok) return refuse('/adapter', 'The adapter reaches back to the hand: it has no lever.');
  return { pull: { ...base, torque: atBolt.torque }, torque: atBolt.torque, shown, adapter, angle: null };
}

/** The wrench it was pulled with; a calibration that ran out, or a setting outside its range, refuses the pull. */
async function wrenchAsked(act: Act, asked: LogPull, setting: number | null): Promise<string | null> {
  if (asked.instrumentCode === undefined || setting === null) return null;
  const row = (await findWrenches(act.sql)).find(({ code }) => code === asked.instrumentCode);
  if (row === undefined)
    throw new ProblemError('not-found', `There is no torque wrench ${asked.instrumentCode} in use.`, {
      errors: [{ pointer: '/instrumentCode', detail: 'is no torque wrench in use' }],
    });
  const fit = wrenchFit(wrenchOf(row), micronewtonMetres(setting), today());
  if (!fit.ok) {
    const why = fit.faults.map((fault) => wrenchFault(fault, row.code)).join(' ');
    throw new ProblemError('refused', `${why} Take another wrench.`, {
      errors: [{ pointer: '/instrumentCode', detail: why }],
    });
  }
  return row.id;
}

async function setAsked(act: Act, revisionId: string, code: string): Promise<SetRow> {
  const sets = await findSets(act.sql, revisionId);
  const row = sets.find((set) => set.code === code);
  if (row !== undefined) return row;
  throw new ProblemError(
    'not-found',
    `The spec sheet has no fastener set ${code}. It has ${sets.map((set) => set.code).join(', ')}.`,
    { errors: [{ pointer: '/set', detail: 'is not on the sheet' }] },
  );
}

/** Logs one pull, the next one and a good one; anything else is refused and says what comes first. */
export async function logPull(act: Act, jobId: string, asked: LogPull): Promise<FastenerSetStanding> {
  const { engineId } = await openJob(act, jobId);
  await refuseUnlessInHand(act, engineId);
  const job = found(await findJob(act.sql, jobId), 'such job');
  const row = await setAsked(act, job.revisionId, asked.set);
  const set = fastenerSetOf(row);
  const { pull, ...kept } = keyedPull(asked, row);
  const before = await findPulls(act.sql, jobId, job.openedAt);
  const check = checkPull(set, pullsOf(before, row.code), pull);
  const refusal = pullRefusal(check, { set, kind: pull.kind, torqueToYield: isTorqueToYield(set) });
  if (refusal !== undefined) {
    const pointer = check.kind === 'out-of-tolerance' || check.kind === 'wrong-quantity' ? '/value' : '/fastener';
    throw new ProblemError('refused', refusal, {
      errors: [{ pointer: check.kind === 'unknown-stage' ? '/stage' : pointer, detail: refusal }],
    });
  }
  await insertPull(act.sql, {
    ...kept,
    jobId,
    setCode: row.code,
    fastener: asked.fastener,
    stage: asked.stage,
    text: asked.value.value,
    unit: asked.value.unit,
    instrumentId: await wrenchAsked(act, asked, kept.shown ?? kept.torque),
    byId: act.actor.id,
  });
  const standing = await setAfter(act.sql, row, { jobId, openedAt: job.openedAt });
  const { fastener, stage, value } = asked;
  await act.event('torque.pulled', {
    engineId: job.engineId,
    jobId,
    data: { set: row.name, fastener, stage, value, complete: standing.complete },
  });
  return standing;
}
