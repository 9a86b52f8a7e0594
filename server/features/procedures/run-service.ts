import type { AnswerStep, InterruptRun } from '#contracts/procedure-runs.ts';
import { refuseUnlessInHand } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { refuseWhereItStandsNot, refuseWhileInterrupted, whereOf } from './mark-refusals.ts';
import { runLocked, stepOfRun } from './mark-service.ts';
import { findRunOf, findVersionToRun, insertRun } from './queries.ts';
import { openInterruption, standingOfRun } from './run-view.ts';
import { insertAnswer, insertInterruption, insertResumption } from './run-writes.ts';

/** Starts a procedure on a job: a published version, of the engine's own family, once a job. */
export async function startRun(
  act: Act,
  asked: { readonly jobId: string; readonly versionId: string },
): Promise<{ id: string }> {
  const job = await openJob(act, asked.jobId);
  await refuseUnlessInHand(act, job.engineId);
  const version = found(
    await findVersionToRun(act.sql, { versionId: asked.versionId, engineId: job.engineId }),
    'such version of a procedure',
  );
  if (!version.published) {
    throw new ProblemError('refused', `Version ${version.number} of "${version.name}" is not published yet.`);
  }
  if (!version.fits) throw new ProblemError('refused', `"${version.name}" is for another engine family.`);
  const running = await findRunOf(act.sql, asked);
  if (running !== undefined) {
    throw new ProblemError('already-done', `"${version.name}" runs on this job already. Go on with it.`, {
      runId: running,
    });
  }
  const id = await insertRun(act.sql, { ...asked, byId: act.actor.id });
  await act.event('procedure.started', {
    engineId: job.engineId,
    jobId: job.id,
    data: { runId: id, procedure: version.name, version: version.number },
  });
  return { id };
}

/** Answers what a step asks; a later answer takes the place of an earlier one, with a reason. */
export async function answerStep(
  act: Act,
  asked: { readonly runId: string; readonly stepId: string } & AnswerStep,
): Promise<{ id: string }> {
  const { job, facts } = await runLocked(act, asked.runId);
  await refuseUnlessInHand(act, job.engineId);
  const step = await stepOfRun(act, facts, asked.stepId);
  const where = whereOf(step);
  if (step.asks === null) throw new ProblemError('refused', `${where} asks nothing.`);
  refuseWhereItStandsNot(facts, step);
  refuseWhileInterrupted(facts);
  const choice = step.asks.choices.find(({ code }) => code === asked.choice);
  if (choice === undefined) {
    const known = step.asks.choices.map(({ code }) => code).join(', ');
    throw new ProblemError('refused', `"${asked.choice}" is no answer to ${where}. It is one of: ${known}.`, {
      errors: [{ pointer: '/choice', detail: `is none of ${known}` }],
    });
  }
  const before = facts.answers.find(({ stepId, stands }) => stepId === step.id && stands);
  const reason = asked.reason?.trim() ?? '';
  if (before?.choice === choice.code)
    throw new ProblemError('already-done', `${where}: ${before.by} answered so already.`);
  if (before !== undefined && reason === '') {
    throw new ProblemError('refused', `${where}: ${before.by} answered otherwise. Say why the answer changes.`, {
      errors: [{ pointer: '/reason', detail: 'is needed to change an answer' }],
    });
  }
  await insertAnswer(act.sql, {
    runId: facts.run.id,
    stepId: step.id,
    choice: choice.code,
    reason,
    supersedesId: before?.id ?? null,
    byId: act.actor.id,
  });
  await act.event('step.answered', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      runId: facts.run.id,
      procedure: facts.run.name,
      step: step.ordinal,
      title: step.title,
      asks: step.asks.words,
      answer: choice.words,
      reason,
    },
  });
  return { id: step.id };
}

/** Says that the work was left: where, why, and what is loose. Nothing is marked until somebody has resumed it. */
export async function interruptRun(
  act: Act,
  asked: { readonly runId: string } & InterruptRun,
): Promise<{ id: string }> {
  const { job, facts } = await runLocked(act, asked.runId);
  refuseWhileInterrupted(facts);
  const { progress } = standingOfRun(facts);
  const stepId = asked.stepId ?? progress.nextId ?? progress.heldAtId;
  if (stepId === null) {
    throw new ProblemError(
      'conflict',
      `Every step of "${facts.run.name}" is done or skipped: there is nothing to leave.`,
    );
  }
  const step = await stepOfRun(act, facts, stepId);
  refuseWhereItStandsNot(facts, step);
  const [why, loose] = [asked.why.trim(), asked.loose.trim()];
  const id = await insertInterruption(act.sql, { runId: facts.run.id, stepId, why, loose, byId: act.actor.id });
  await act.event('procedure.interrupted', {
    engineId: job.engineId,
    jobId: job.id,
    data: { runId: facts.run.id, procedure: facts.run.name, step: step.ordinal, title: step.title, why, loose },
  });
  return { id };
}

/** Goes on where the work was left; whoever it is has been told by whom, why and what is loose. */
export async function resumeRun(act: Act, runId: string): Promise<{ stepId: string }> {
  const { job, facts } = await runLocked(act, runId);
  await refuseUnlessInHand(act, job.engineId);
  const left = openInterruption(facts);
  if (left === undefined) {
    throw new ProblemError(
      'already-done',
      `"${facts.run.name}" is not interrupted: somebody has resumed it, or nobody left it.`,
    );
  }
  await insertResumption(act.sql, { interruptionId: left.id, byId: act.actor.id });
  const step = facts.steps.find(({ id }) => id === left.stepId);
  await act.event('procedure.resumed', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      runId: facts.run.id,
      procedure: facts.run.name,
      step: step?.ordinal ?? 0,
      title: step?.title ?? '',
      leftBy: left.by,
    },
  });
  return { stepId: left.stepId };
}
