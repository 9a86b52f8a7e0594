import type { Act } from '#platform/act.ts';
import { lockLinesOfJob, lockLotsOfJob } from '../ledger/queries.ts';
import { type CalledOff, callOff, cutOf, goneOf, piecesOf, stillWanted } from './calling-off.ts';
import { findBought, findReasonsGone, findStillAsked, type Unbound, withdraw } from './reason-queries.ts';

/**
 * Takes off a job's lines what an earlier decision asked for, now that another one is made: a line that others want too
 * loses that quantity and no more. The caller holds the job and tells of it in its own event.
 */
export async function callOffDecidedAnew(act: Act, of: Required<Unbound>): Promise<readonly CalledOff[]> {
  if ((await findReasonsGone(act.sql, of)).length === 0) return [];
  const { jobId } = of;
  const lots = await lockLotsOfJob(act.sql, jobId);
  const lines = await lockLinesOfJob(act.sql, { jobId, lineIds: undefined });
  const reasons = await findReasonsGone(act.sql, of);
  await withdraw(act.sql, reasons);
  const stillAsked = await findStillAsked(
    act.sql,
    lines.map(({ id }) => id),
  );
  const cuts = lines.map((line) => ({
    line,
    quantity: goneOf(line, {
      gone: piecesOf(reasons.filter(({ lineId }) => lineId === line.id)),
      stillAsked: stillAsked.get(line.id) ?? 0,
    }),
  }));
  return callOff(act, { jobId, lots, cuts, reason: 'something else was decided' });
}

/**
 * Takes off a job's lines what obligations asked for that turned out to need nothing. A line of which pieces were handed
 * out stays as it is, since the work was done with them, and so do pieces that were bought for the job and have come. The
 * caller holds the job.
 */
export async function callOffDischarged(
  act: Act,
  of: {
    readonly jobId: string;
    readonly engineId: string;
    readonly obligationIds: readonly string[];
    readonly words: string;
  },
): Promise<void> {
  const { jobId, words } = of;
  if ((await findReasonsGone(act.sql, of)).length === 0) return;
  const lots = await lockLotsOfJob(act.sql, jobId);
  const lines = await lockLinesOfJob(act.sql, { jobId, lineIds: undefined });
  const reasons = await findReasonsGone(act.sql, of);
  const ids = lines.map(({ id }) => id);
  const [asked, bought] = [await findStillAsked(act.sql, ids), await findBought(act.sql, ids)];
  const cuts = lines
    .filter(({ issued }) => issued === 0)
    .map((line) => {
      const own = reasons.filter(({ lineId }) => lineId === line.id);
      const gone = piecesOf(own);
      const most = Math.max(0, stillWanted(line) - (bought.get(line.id) ?? 0));
      const quantity = Math.min(most, goneOf(line, { gone, stillAsked: (asked.get(line.id) ?? 0) - gone }));
      return { line, quantity, own };
    });
  await withdraw(
    act.sql,
    cuts.flatMap(({ own, quantity }) => cutOf(own, quantity)),
  );
  for (const data of await callOff(act, { jobId, lots, cuts, reason: words }))
    await act.event('demand.cancelled', { engineId: of.engineId, jobId, data: { ...data, words } });
}
