import { openJob } from '#features/intake/service.ts';
import type { OwnAct } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { lockLinesOfJob } from '../ledger/queries.ts';
import { inOwnAct } from './own-act.ts';
import { openCount, planFor, replyOf, standingAfter } from './plan.ts';
import { lockLotsForJob } from './queries.ts';
import { findServable, type WaitingLines } from './round-queries.ts';
import { recordPlan, tellPlan } from './service.ts';

/**
 * Serves who waits with what is free, the earliest promise first, each job in a transaction of its own. What is free is
 * read from the stock itself, not from a message that could be missed: whatever made it free, the next round finds it.
 */
export async function serveWaiting(sql: SqlPool): Promise<void> {
  for (const waiting of await findServable(sql)) await inOwnAct(sql, (act) => serve(act, waiting));
}

async function serve(act: OwnAct, { jobId, whole, until, lineIds }: WaitingLines): Promise<void> {
  const job = await openJob(act, jobId);
  const of = { jobId: job.id, lineIds };
  const lots = await lockLotsForJob(act.sql, of);
  const lines = (await lockLinesOfJob(act.sql, of)).filter(
    (line) => openCount(line) > 0 && line.askedWhole === whole && line.askedUntil === until,
  );
  // Piece by piece, only what was asked for is served: what was added to the line since waits to be asked for.
  const asked = lines.map((line) => (whole ? line : { ...line, notAsked: 0 }));
  const plan = planFor(asked, lots, whole);
  const toldShort = lines.some(({ short }) => short > 0);
  if (plan.reservations.length === 0 && (toldShort || plan.shortages.length === 0)) return;
  const expiresAt = until ?? undefined;
  const asking = { allOrNothing: whole, expiresAt };
  const standings = asked.map((line, at) => {
    const after = standingAfter(line, plan, asking);
    return { ...after, notAsked: after.notAsked + (whole ? 0 : (lines[at]?.notAsked ?? 0)) };
  });
  await recordPlan(act, { plan, standings, jobId: job.id, expiresAt });
  await tellPlan(act, { job, allOrNothing: whole, reply: replyOf(plan, asked) });
}
