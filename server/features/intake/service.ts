import type { AmendJob, AssignBay, Job, TakeIn } from '#contracts/intake.ts';
import { moveTo, takeEngineLock } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import type { Models } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  findBay,
  findEngine,
  findEngineOfJob,
  findJob,
  findNewestRevision,
  findRevisionFor,
  insertAssignment,
  insertEngine,
  insertFirstParts,
  insertJob,
  insertOwner,
  insertRevisionMove,
  lockJob,
  updateEngineOwner,
  updateJob,
} from './queries.ts';

/** "243.5" → 14 610 min; the contract has checked the form. */
function minutesOf(hours: string): number {
  const [whole = '0', tenths = '0'] = hours.split('.');
  return Number(whole) * 60 + Number(tenths) * 6;
}
/** Minutes as the meter shows them: 14 610 → "243.5". */
export const hoursOf = (minutes: number): string => `${Math.floor(minutes / 60)}.${Math.floor((minutes % 60) / 6)}`;

export async function getJob(db: Models, id: string): Promise<Job> {
  const job = found(await findJob(db, id), 'such job');
  return {
    id: job.id,
    number: job.number,
    engineId: job.engineId,
    revisionId: job.revisionId,
    hours: hoursOf(job.runningMinutes),
    complaint: job.complaint,
    wishes: job.wishes,
    takenInAt: job.takenInAt.toISOString(),
    takenInBy: { id: job.takenInBy.id, name: job.takenInBy.name },
    handedBackAt: job.handedBackAt?.toISOString() ?? null,
    version: job.version,
  };
}

/** The engine that came in: one we know, checked and locked, or a new one. */
async function engineOf(act: Act, asked: TakeIn, ownerId: string) {
  if ('id' in asked.engine) {
    await takeEngineLock(act, asked.engine.id);
    const known = found(await findEngine(act.sql, asked.engine.id), 'such engine');
    if (known.minutes !== null && minutesOf(asked.hours) < known.minutes) {
      throw new ProblemError(
        'refused',
        `${asked.hours} h is less than the ${hoursOf(known.minutes)} h of its last visit. Read the meter again.`,
        { errors: [{ pointer: '/hours', detail: 'less than at the last visit' }] },
      );
    }
    await updateEngineOwner(act.sql, known.id, ownerId);
    return known;
  }
  const { serial, familyId } = asked.engine;
  const id = await insertEngine(act.sql, { serial, familyId, ownerId });
  return { id, familyId };
}

/** Takes an engine in: its job begins, bound to the newest published spec sheet, and the bay holds it at rest. */
export async function takeIn(act: Act, asked: TakeIn): Promise<{ id: string; number: number; engineId: string }> {
  const bay = found(await findBay(act.sql, asked.bayId), 'such bay');
  const ownerId = 'id' in asked.owner ? asked.owner.id : await insertOwner(act.sql, asked.owner);
  const engine = await engineOf(act, asked, ownerId);
  const revision = await findNewestRevision(act.sql, engine.familyId);
  if (revision === undefined) {
    throw new ProblemError(
      'refused',
      'This engine family has no published spec sheet yet. A lead publishes one first.',
    );
  }
  const job = found(
    await insertJob(act.sql, {
      engineId: engine.id,
      revisionId: revision.id,
      runningMinutes: minutesOf(asked.hours),
      complaint: asked.complaint.trim(),
      wishes: asked.wishes?.trim() ?? '',
      takenInById: act.actor.id,
    }),
    'job',
  );
  await insertFirstParts(act.sql, { engineId: engine.id, revisionId: revision.id });
  await moveTo(act, { engineId: engine.id }, { to: { restBayId: bay.id }, reason: 'taken in' });
  await act.event('engine.taken-in', {
    engineId: engine.id,
    jobId: job.id,
    data: { number: job.number, hours: asked.hours, bay: bay.name, complaint: asked.complaint.trim() },
  });
  return { id: job.id, number: job.number, engineId: engine.id };
}

/** Locks engine, then job, and refuses when the job has been handed back: nothing about it changes any more. */
export async function openJob(act: Pick<Act, 'sql'>, jobId: string) {
  await takeEngineLock(act, found(await findEngineOfJob(act.sql, jobId), 'such job'));
  const job = found(await lockJob(act.sql, jobId), 'such job');
  if (job.handedBackAt !== null)
    throw new ProblemError('conflict', `Job ${job.number} was handed back. It changes no more.`);
  return job;
}

export async function amendJob(act: Act, asked: { id: string; version: number; change: AmendJob }): Promise<number> {
  const job = await openJob(act, asked.id);
  if (job.version !== asked.version) {
    throw new ProblemError(
      'changed-meanwhile',
      'Somebody changed this job after you read it. Read it again, then change it.',
    );
  }
  await updateJob(act.sql, job.id, asked.change);
  await act.event('job.amended', { engineId: job.engineId, jobId: job.id, data: { ...asked.change } });
  return job.version + 1;
}

/** Plans where the job goes next. The plan moves nothing: custody does. */
export async function assignBay(act: Act, asked: { id: string } & AssignBay): Promise<void> {
  const job = await openJob(act, asked.id);
  const bay = asked.bayId === null ? undefined : found(await findBay(act.sql, asked.bayId), 'such bay');
  await insertAssignment(act.sql, { jobId: job.id, bayId: bay?.id ?? null, byId: act.actor.id });
  await act.event('bay.assigned', { engineId: job.engineId, jobId: job.id, data: { bay: bay?.name ?? null } });
}

type OpenJob = Awaited<ReturnType<typeof openJob>>;

/**
 * Binds an open job to a newer published revision of its family's sheet, with what sits in the places that are new on it
 * taken as standard. The caller tells of it.
 */
export async function bindToRevision(
  act: Act,
  job: OpenJob,
  to: { readonly revisionId: string; readonly reason: string },
): Promise<{ readonly from: number; readonly to: number }> {
  const { revisionId, reason } = to;
  const revision = found(await findRevisionFor(act.sql, { revisionId, boundTo: job.revisionId }), 'such spec revision');
  const refuse = (detail: string): never => {
    throw new ProblemError('refused', detail, { errors: [{ pointer: '/revisionId', detail }] });
  };
  if (!revision.sameFamily) refuse('That is the sheet of another engine family.');
  if (!revision.published) refuse('That revision is a draft still. Publish it first.');
  if (revision.number === revision.boundNumber) {
    throw new ProblemError('already-done', `Job ${job.number} is bound to revision ${revision.number} already.`);
  }
  if (revision.number < revision.boundNumber) {
    refuse(`Job ${job.number} is bound to revision ${revision.boundNumber}, which is newer. A job never goes back.`);
  }
  await insertRevisionMove(act.sql, {
    jobId: job.id,
    from: job.revisionId,
    to: revisionId,
    reason,
    byId: act.actor.id,
  });
  await insertFirstParts(act.sql, { engineId: job.engineId, revisionId });
  return { from: revision.boundNumber, to: revision.number };
}
