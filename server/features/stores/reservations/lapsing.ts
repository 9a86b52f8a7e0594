import { openJob } from '#features/intake/service.ts';
import type { OwnAct } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { lockLinesOfJob, lockLotsOfJob } from '../ledger/queries.ts';
import { letGo } from './letting-go.ts';
import { inOwnAct } from './own-act.ts';
import { findLapsedAskings, findLapsedHolds, findLapsedJobs } from './round-queries.ts';
import { HoldsRanOut } from './service.ts';

const mostTries = 3;

/** Does a write again after what ran out meanwhile was let go; at last it takes the holds as they stand. */
export async function afterWhatRanOut<Reply>(
  sql: SqlPool,
  asking: (asTheyStand: boolean) => Promise<Reply>,
): Promise<Reply> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await asking(tries === mostTries);
    } catch (error) {
      if (!(error instanceof HoldsRanOut)) throw error;
      await letGoLapsed(sql);
    }
  }
}

/**
 * Lets go what was held for a yes that has not come in time, job by job, each in a transaction of its own under the
 * locks of its own engine, so that the engine's line of events tells of it. Done twice at once it is done once: what a
 * job holds is looked at again under its locks.
 */
export async function letGoLapsed(sql: SqlPool): Promise<void> {
  for (const { jobId } of await findLapsedJobs(sql)) await inOwnAct(sql, (act) => lapse(act, jobId));
}

async function lapse(act: OwnAct, jobId: string): Promise<void> {
  const job = await openJob(act, jobId);
  await lockLotsOfJob(act.sql, job.id);
  const lines = await lockLinesOfJob(act.sql, { jobId: job.id, lineIds: undefined });
  const holds = await findLapsedHolds(act.sql, job.id);
  const askings = new Set((await findLapsedAskings(act.sql, job.id)).map(({ id }) => id));
  if (holds.length + askings.size === 0) return;
  const gone = await letGo(act, { jobId: job.id, lines, holds, askings, reason: 'the time it was held for ran out' });
  await act.event('hold.lapsed', { engineId: job.engineId, jobId: job.id, data: { ...gone } });
}
