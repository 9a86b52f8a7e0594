import type { ProcedureRun } from '#contracts/procedure-runs.ts';
import type { ProcedurePage } from '#contracts/procedures.ts';
import { type Person, refusalOf } from './client.ts';
import type { Job, Walk } from './context.ts';
import { measureRequired } from './measure.ts';
import { refused, say } from './say.ts';

export type Step = ProcedureRun['steps'][number];

/** Begins the family's newest procedure of a kind on the job, or goes on with it. */
export async function beginProcedure(
  person: Person,
  { walk, job, kind }: { walk: Walk; job: Job; kind: 'strip' | 'assemble' },
): Promise<ProcedureRun> {
  const { items } = await person.get<ProcedurePage>(`/procedures?familyId=${walk.familyId}&kind=${kind}`);
  const procedure = items.find(({ name }) => /top end/i.test(name)) ?? items[0];
  if (procedure === undefined) throw new Error(`This family has no procedure to ${kind}.`);
  const { id } = await person.post<{ id: string }>(`/jobs/${job.jobId}/procedure-runs`, {
    versionId: procedure.versionId,
  });
  return runOf(person, { job, runId: id });
}

async function runOf(person: Person, { job, runId }: { job: Job; runId: string }): Promise<ProcedureRun> {
  const runs = await person.get<{ items: ProcedureRun[] }>(`/jobs/${job.jobId}/procedure-runs`);
  const run = runs.items.find(({ id }) => id === runId);
  if (run === undefined) throw new Error('The procedure was begun but does not run.');
  return run;
}

interface Following {
  readonly walk: Walk;
  readonly job: Job;
  readonly by: Person;
  readonly second: Person;
  /** What is to be done before a step is marked: pieces, rags. */
  readonly work: (step: Step, run: ProcedureRun) => Promise<void>;
}

/** Follows a run from its next step to its last: answers what is asked, measures what is required, signs for two. */
export async function follow(run: ProcedureRun, of: Following): Promise<void> {
  for (const step of run.steps.filter(({ standing }) => standing === 'left out')) {
    say(`step ${step.ordinal}, ${step.title}, is left out: ${step.because}`);
  }
  for (;;) {
    const now = await runOf(of.by, { job: of.job, runId: run.id });
    const step = now.steps.find(({ next }) => next);
    if (step === undefined) return;
    await doStep(now, step, of);
  }
}

async function doStep(run: ProcedureRun, step: Step, { walk, job, by, second, work }: Following): Promise<void> {
  const path = `/procedure-runs/${run.id}/steps/${step.id}`;
  await work(step, run);
  await measureRequired(walk, job, step.readings);
  const choice = step.asks?.choices[0];
  if (choice !== undefined) {
    await by.post(`${path}/answer`, { choice: choice.code });
    say(`${step.asks?.words} ${choice.words}`);
  }
  const noPhoto = step.photo === '' ? {} : { noPhoto: 'This walk has no camera' };
  await by.post(`${path}/mark`, { mark: 'done', ...noPhoto });
  if (!step.secondPerson) return;
  refused((await refusalOf(by.post(`${path}/mark`, { mark: 'second person' }))).detail);
  await second.post(`${path}/mark`, { mark: 'second person' });
  say(`${step.title}: ${second.name} looked too`);
}

/** Called away in the middle of a step; somebody else reads what is loose, and goes on from there. */
export async function leaveAndResume(run: ProcedureRun, step: Step, of: { by: Person; next: Person }): Promise<void> {
  await of.by.post(`/procedure-runs/${run.id}/interrupt`, {
    stepId: step.id,
    why: 'Called to a delivery',
    loose: 'Two cam caps loosened, two still tight',
  });
  refused((await refusalOf(of.by.post(`/procedure-runs/${run.id}/steps/${step.id}/mark`, { mark: 'done' }))).detail);
  await of.next.post(`/procedure-runs/${run.id}/resume`);
  say(`${of.next.name} has read it and goes on at step ${step.ordinal}, ${step.title}`);
}
