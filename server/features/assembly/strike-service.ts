import type { StrikePull } from '#contracts/assembly.ts';
import { isTorqueToYield } from '#domain/fasteners/reuse.ts';
import { refuseUnlessInHand } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { fastenerSetOf } from './fastener-sets.ts';
import { findJob } from './queries.ts';
import { pastYield } from './reuse-service.ts';
import { findPullJob, findPulls, findSets, insertStrike } from './torque-queries.ts';

/**
 * Strikes a pull with a reason; it may then be pulled again. A fastener turned past yield is not: it comes out, all its
 * pulls are struck, and a new one is asked for.
 */
export async function strikePull(act: Act, pullId: string, asked: StrikePull): Promise<void> {
  const pull = found(await findPullJob(act.sql, pullId), 'such pull');
  const job = await openJob(act, pull.jobId);
  await refuseUnlessInHand(act, job.engineId);
  if (pull.struck) throw new ProblemError('already-done', 'That pull was struck already.');
  const renewed = pull.isAngle && asked.boltTurned !== false ? await takenOut(act, pull) : undefined;
  const struck = renewed === undefined ? [pullId] : renewed.pullIds;
  for (const id of struck) await insertStrike(act.sql, { pullId: id, reason: asked.reason, byId: act.actor.id });
  await act.event('torque.struck', {
    engineId: job.engineId,
    jobId: pull.jobId,
    data: {
      set: pull.setCode,
      fastener: pull.fastener,
      stage: pull.stage,
      reason: asked.reason,
      ...(renewed === undefined ? {} : { renewed: renewed.words }),
    },
  });
}

/** Asks for a new fastener where the struck pull took one past yield; undefined: it may be pulled again. */
async function takenOut(
  act: Act,
  pull: { readonly jobId: string; readonly setCode: string; readonly fastener: number; readonly stage: number },
): Promise<{ readonly pullIds: readonly string[]; readonly words: string } | undefined> {
  const job = found(await findJob(act.sql, pull.jobId), 'such job');
  const row = (await findSets(act.sql, job.revisionId)).find(({ code }) => code === pull.setCode);
  if (row === undefined || !isTorqueToYield(fastenerSetOf(row))) return undefined;
  const pulls = await findPulls(act.sql, pull.jobId, job.openedAt);
  const pullIds = pulls
    .filter(({ setCode, fastener }) => setCode === pull.setCode && fastener === pull.fastener)
    .map(({ id }) => id);
  return { pullIds, words: await pastYield(act, job, { row, fastener: pull.fastener }) };
}
