import type { MarkStep, RunStep } from '#contracts/procedure-runs.ts';
import { setLoosened } from '#features/assembly/service.ts';
import { refuseUnlessInHand } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  refuseUndone,
  refuseWhereItStandsNot,
  refuseWhileInterrupted,
  refuseWhileShort,
  refuseWrongMark,
  whereOf,
} from './mark-refusals.ts';
import { findJobOfRun, findVersionOfStep, type StepRow } from './run-queries.ts';
import { findRunFacts, marksOf, type RunFacts, roundOf, standingOfRun } from './run-view.ts';
import { insertMark, insertRedo } from './run-writes.ts';

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

/** Marks a step done, skipped with a reason, or signed by a second person. */
export async function markStep(
  act: Act,
  asked: { readonly runId: string; readonly stepId: string } & MarkStep,
): Promise<{ id: string; standing: RunStep['standing'] }> {
  const { job, facts } = await runLocked(act, asked.runId);
  await refuseUnlessInHand(act, job.engineId);
  const step = await stepOfRun(act, facts, asked.stepId);
  const reason = asked.reason?.trim() ?? '';
  const noPhoto = asked.noPhoto?.trim() ?? '';
  refuseWhereItStandsNot(facts, step);
  if (asked.mark !== 'second person') refuseWhileInterrupted(facts);
  refuseWrongMark(facts, step, { mark: asked.mark, reason, byId: act.actor.id });
  if (asked.mark === 'done') refuseUndone({ facts, step, noPhoto });
  else if (noPhoto !== '')
    throw new ProblemError('refused', `${whereOf(step)}: only a step that is done says why it has no photo.`);
  if (asked.mark !== 'second person') await refuseWhileShort(act, { facts, step, mark: asked.mark });
  const mark = {
    runId: facts.run.id,
    stepId: step.id,
    mark: asked.mark,
    round: roundOf(facts, step.id),
    reason,
    noPhoto,
  };
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
      ...(noPhoto === '' ? {} : { noPhoto }),
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
  await refuseUnlessInHand(act, job.engineId);
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
