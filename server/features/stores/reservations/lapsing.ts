import { openJob } from '#features/intake/service.ts';
import type { OwnAct } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { type LineToServe, lockLinesOfJob, lockLotsOfJob, recordStock, type Standing } from '../ledger/queries.ts';
import { moveOnLine } from '../ledger/service.ts';
import { inOwnAct } from './own-act.ts';
import { findLapsedAskings, findLapsedHolds, findLapsedJobs, type LapsedHold } from './round-queries.ts';
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

/** Pieces that were held count as not asked for again, and so does what was short only for as long as the hold. */
async function lapse(act: OwnAct, jobId: string): Promise<void> {
  const job = await openJob(act, jobId);
  await lockLotsOfJob(act.sql, job.id);
  const lines = await lockLinesOfJob(act.sql, { jobId: job.id, lineIds: undefined });
  const holds = await findLapsedHolds(act.sql, job.id);
  const askings = new Set((await findLapsedAskings(act.sql, job.id)).map(({ id }) => id));
  if (holds.length + askings.size === 0) return;
  const countOf = (line: LineToServe): number => sumOf(holds.filter(({ demandLineId }) => demandLineId === line.id));
  const touched = lines.filter((line) => countOf(line) > 0 || askings.has(line.id));
  await recordStock(act.sql, {
    moves: holds.map(({ lotId, demandLineId, count }) => ({
      act: 'release',
      lotId,
      reserved: -count,
      demandLineId,
      jobId: job.id,
      reason: 'the time it was held for ran out',
    })),
    holds: holds.map(({ lotId, demandLineId, count }) => ({ lotId, demandLineId, count: -count })),
    standings: touched.map((line) => lapsed(line, { held: countOf(line), asking: askings.has(line.id) })),
    byId: null,
  });
  await act.event('hold.lapsed', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      released: touched.flatMap((line) => {
        const quantity = countOf(line);
        return quantity === 0 ? [] : [{ part: line.number, name: line.name, quantity }];
      }),
      noLongerAsked: touched.filter(({ id }) => askings.has(id)).map(({ number }) => number),
    },
  });
}

const sumOf = (holds: readonly LapsedHold[]): number => holds.reduce((sum, { count }) => sum + count, 0);

function lapsed(line: LineToServe, what: { readonly held: number; readonly asking: boolean }): Standing {
  let standing: LineToServe = line;
  if (what.held > 0) standing = { ...line, ...moveOnLine(standing, 'reserved', { to: 'notAsked', count: what.held }) };
  if (what.asking && standing.short > 0)
    standing = { ...line, ...moveOnLine(standing, 'short', { to: 'notAsked', count: standing.short }) };
  return { ...standing, asking: { whole: false, until: null } };
}
