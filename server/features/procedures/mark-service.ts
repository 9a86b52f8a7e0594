import type { MarkStep, RunStep } from '#contracts/procedures.ts';
import { setLoosened } from '#features/assembly/service.ts';
import { blindTrays } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import type { Mark } from './queries.ts';
import { findJobOfRun, findVersionOfStep, insertMark, insertRedo, type StepRow } from './run-queries.ts';
import { findRunFacts, marksOf, openInterruption, type RunFacts, roundOf, shortOf, standingOfRun } from './run-view.ts';

/** A run that may be written to: its job's engine is locked, its rows read after that. */
export async function runLocked(act: Act, runId: string) {
  const job = await openJob(act, found(await findJobOfRun(act.sql, runId), 'such run of a procedure'));
  const facts = found((await findRunFacts(act.sql, { runId }))[0], 'such run of a procedure');
  return { job, facts };
}

/** A step of the run; one of another version is refused with which version it is of. */
export async function stepOfRun(act: Act, { run, steps }: RunFacts, stepId: string): Promise<StepRow> {
  const step = steps.find(({ id }) => id === stepId);
  if (step !== undefined) return step;
  const other = found(await findVersionOfStep(act.sql, stepId), 'such step in this procedure');
  throw new ProblemError(
    'refused',
    `That is step ${other.ordinal} of version ${other.version} of "${other.name}"; this run follows version ${run.version} of "${run.name}". Read the run again and take a step of it.`,
    { errors: [{ pointer: '/stepId', detail: 'is a step of another version' }] },
  );
}

export const whereOf = ({ ordinal, title }: StepRow): string => `Step ${ordinal}, ${title}`;

/** While a run is interrupted nothing is marked: whoever goes on reads first what is loose. */
export function refuseWhileInterrupted(facts: RunFacts): void {
  const left = openInterruption(facts);
  if (left === undefined) return;
  throw new ProblemError(
    'conflict',
    `${left.by} left this procedure (${left.why}). Loose or half done: ${left.loose}. Read it and resume first.`,
    { interruptionId: left.id },
  );
}

/** A step that is left out, or whose question is open, is not worked at. */
export function refuseWhereItStandsNot(facts: RunFacts, step: StepRow): void {
  const told = standingOfRun(facts).byStep.get(step.id);
  if (told?.standing === 'left out') {
    throw new ProblemError(
      'conflict',
      `${whereOf(step)} is left out here: a fact of the engine or an answer speaks against it.`,
    );
  }
  if (told?.standing === 'not known yet') {
    throw new ProblemError(
      'conflict',
      `${whereOf(step)} stands on a question that is not answered yet. Answer that first.`,
    );
  }
}

/** Marks a step done, skipped with a reason, or signed by a second person. */
export async function markStep(
  act: Act,
  asked: { readonly runId: string; readonly stepId: string } & MarkStep,
): Promise<{ id: string; standing: RunStep['standing'] }> {
  const { job, facts } = await runLocked(act, asked.runId);
  const step = await stepOfRun(act, facts, asked.stepId);
  const reason = asked.reason?.trim() ?? '';
  refuseWhereItStandsNot(facts, step);
  if (asked.mark !== 'second person') refuseWhileInterrupted(facts);
  refuseWrongMark(facts, step, { mark: asked.mark, reason, byId: act.actor.id });
  if (asked.mark === 'done') {
    refuseBeyondStop(facts, step);
    refuseUnanswered(facts, step);
    refuseUnmeasured(step);
    await refuseWhileShort(act, facts, step);
  }
  const mark = { runId: facts.run.id, stepId: step.id, mark: asked.mark, round: roundOf(facts, step.id), reason };
  await insertMark(act.sql, { ...mark, byId: act.actor.id });
  const loosened =
    facts.run.kind === 'strip' && asked.mark === 'done' && step.fastenerSet !== null
      ? await setLoosened(act, { jobId: job.id, setCode: step.fastenerSet })
      : undefined;
  await act.event('step.marked', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      runId: facts.run.id,
      procedure: facts.run.name,
      step: step.ordinal,
      title: step.title,
      mark: asked.mark,
      reason,
      ...(loosened === undefined ? {} : { loosened }),
    },
  });
  const after = { ...facts, marks: [...facts.marks, { ...mark, byId: act.actor.id, by: '', at: '' }] };
  return { id: step.id, standing: standingOfRun(after).byStep.get(step.id)?.standing ?? 'to do' };
}

/** A step that was done or skipped is done again: its marks begin anew, the old ones stay as they were. */
export async function redoStep(
  act: Act,
  asked: { readonly runId: string; readonly stepId: string; readonly reason: string },
): Promise<{ id: string; standing: RunStep['standing'] }> {
  const { job, facts } = await runLocked(act, asked.runId);
  const step = await stepOfRun(act, facts, asked.stepId);
  refuseWhereItStandsNot(facts, step);
  refuseWhileInterrupted(facts);
  if (!marksOf(facts, step.id).some(({ mark }) => mark === 'done' || mark === 'skipped')) {
    throw new ProblemError('conflict', `${whereOf(step)} is still to be done: there is nothing to do again.`);
  }
  const round = roundOf(facts, step.id) + 1;
  const reason = asked.reason.trim();
  await insertRedo(act.sql, { runId: facts.run.id, stepId: step.id, round, reason, byId: act.actor.id });
  await act.event('step.again', {
    engineId: job.engineId,
    jobId: job.id,
    data: { runId: facts.run.id, procedure: facts.run.name, step: step.ordinal, title: step.title, round, reason },
  });
  return { id: step.id, standing: 'to do' };
}

function refuseWrongMark(facts: RunFacts, step: StepRow, asked: { mark: Mark; reason: string; byId: string }): void {
  const made = (mark: Mark) => marksOf(facts, step.id).find((row) => row.mark === mark);
  const same = made(asked.mark);
  const where = whereOf(step);
  if (same !== undefined) throw new ProblemError('already-done', `${where}: ${same.by} marked it so already.`);
  const [done, skipped] = [made('done'), made('skipped')];
  if (skipped !== undefined)
    throw new ProblemError('conflict', `${where}: ${skipped.by} skipped it (${skipped.reason}).`);
  if (asked.mark === 'skipped') {
    if (step.secondPerson) {
      throw new ProblemError(
        'refused',
        `${where} is a stop point for two people: it is done and looked at, never skipped.`,
      );
    }
    if (done !== undefined) throw new ProblemError('conflict', `${where}: ${done.by} has done it.`);
    if (asked.reason === '') throw new ProblemError('refused', `${where}: say why it is skipped.`);
  }
  if (asked.mark === 'second person') {
    if (!step.secondPerson) throw new ProblemError('refused', `${where} asks for no second person.`);
    if (done === undefined)
      throw new ProblemError('conflict', `${where} is not done yet: the second person marks it after.`);
    if (done.byId === asked.byId) {
      throw new ProblemError('refused', `${where}: you did it yourself. Another person has to look and mark it.`);
    }
  }
}

/** A stop point stops: nothing after it is done before another person has looked. */
function refuseBeyondStop(facts: RunFacts, step: StepRow): void {
  const heldAt = standingOfRun(facts).progress.heldAtId;
  const held = facts.steps.find(({ id }) => id === heldAt);
  if (held === undefined || step.ordinal <= held.ordinal) return;
  throw new ProblemError(
    'conflict',
    `Stop: ${whereOf(held)} waits for a second person. Nothing after it is marked done until they have looked and signed.`,
    { heldAtStepId: held.id },
  );
}

function refuseUnanswered({ answers }: RunFacts, step: StepRow): void {
  if (step.asks === null || answers.some(({ stepId }) => stepId === step.id)) return;
  throw new ProblemError('conflict', `${whereOf(step)}: answer first: ${step.asks.words}`);
}

/** A dimension the job's sheet doesn't have can't be measured, so it isn't asked for. */
function refuseUnmeasured(step: StepRow): void {
  const missing = step.readings.filter(({ measured, name }) => !measured && name !== null);
  if (missing.length === 0) return;
  const list = missing.map(({ name, round }) => `${name} (${round})`).join('; ');
  throw new ProblemError('conflict', `${whereOf(step)}: not measured yet: ${list}. Measure, then mark the step.`, {
    missingReadings: missing.map(({ dimension, round }) => ({ dimension, round })),
  });
}

/** Work stops while a piece of this or an earlier step is short: it may be in the engine. */
async function refuseWhileShort(act: Act, facts: RunFacts, step: StepRow): Promise<void> {
  const { run, steps, pieces } = facts;
  if (run.kind !== 'strip') return;
  const blind = await blindTrays(act.sql, { jobId: run.jobId, viewerId: act.actor.id });
  const { byStep } = standingOfRun(facts);
  const outside = ['skipped', 'left out', 'not known yet'];
  const upToHere = steps.filter(
    ({ id, ordinal }) => ordinal <= step.ordinal && !outside.includes(byStep.get(id)?.standing ?? ''),
  );
  const short = upToHere.flatMap(({ id, ordinal }) =>
    pieces
      .filter((piece) => piece.stepId === id && shortOf(piece) > 0)
      .map((piece) => {
        const isBlind = piece.trayIds.some((trayId) => blind.has(trayId));
        const counts = isBlind ? {} : { expected: piece.expected, off: piece.off };
        const tells = isBlind ? 'short' : piece.counted ? `${piece.off} of ${piece.expected} off` : 'not counted yet';
        return {
          words: `${piece.name} (step ${ordinal}): ${tells}`,
          pieceId: piece.pieceId,
          stepPieceId: piece.id,
          ...counts,
        };
      }),
  );
  if (short.length === 0) return;
  throw new ProblemError(
    'conflict',
    `Stop: ${short.map(({ words }) => words).join('; ')}. Count them off, find them, or say that they were never there or may be inside.`,
    { shortPieces: short },
  );
}
