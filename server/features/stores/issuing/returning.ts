import type { ReturnParts } from '#contracts/demands.ts';
import { type StockValue, takeAtAverage } from '#domain/stock/value.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { callOff } from '../demands/calling-off.ts';
import { companionsGone } from '../demands/companions-gone.ts';
import { trimReasons } from '../demands/reason-queries.ts';
import {
  findJobOfLine,
  findLikesOfLine,
  type LotsOfLine,
  lockLinesOfJob,
  lockLotsOfJob,
  type Move,
  recordStock,
} from '../ledger/queries.ts';
import { moveOnLine } from '../ledger/service.ts';
import { refuseClosedBin } from '../movements/correction.ts';
import { lockUntilItStands } from '../movements/locking.ts';
import { findLike, insertLot, lockBin, lockLots } from '../movements/queries.ts';
import { findClosedBins, findOut, type OutOfLot } from './queries.ts';

/** Pieces that go back into the lot they came out of, at what they are worth. */
interface ShareOfReturn {
  readonly lotId: string;
  readonly count: number;
  readonly worth: number;
}

/** What `count` of the pieces are worth; the caller has seen that there are so many. */
function worthOf(stock: StockValue, count: number): number {
  const step = takeAtAverage(stock, count);
  if (!step.ok) throw new Error(`${count} pieces cannot be taken from ${stock.onHand}`);
  return Number(step.moved);
}

/** Of what is out, which lots the pieces go back to: those handed out last first. */
function sharesOfReturn(out: readonly OutOfLot[], quantity: number): readonly ShareOfReturn[] {
  let left = quantity;
  return out.flatMap(({ lotId, quantity: outOfLot, valueMinor }) => {
    const count = Math.min(left, outOfLot);
    left -= count;
    return count === 0
      ? []
      : [{ lotId, count, worth: worthOf({ onHand: outOfLot, value: BigInt(valueMinor) }, count) }];
  });
}

/**
 * Takes unused pieces back into the lots they came from, at the value they went out with. Where another bin is named, they
 * are carried there in the same movement, so that they may come back from a job although their own bin is closed by now.
 * With pieces that are not needed any more goes what goes with them, as far as it was not handed out.
 */
export async function takeBackUnused(
  act: Act,
  asked: ReturnParts & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const job = await openJob(act, found(await findJobOfLine(act.sql, asked.demandLineId), 'such demand line'));
  const lots = await lockLotsToReturn(act, job.id, { lineId: asked.demandLineId, toBinId: asked.binId });
  const lines = await lockLinesOfJob(act.sql, { jobId: job.id, lineIds: undefined });
  const line = found(
    lines.find(({ id }) => id === asked.demandLineId),
    'such demand line',
  );
  const standing = moveOnLine(line, 'issued', {
    to: asked.stillNeeded === true ? 'notAsked' : 'cancelled',
    count: asked.quantity,
  });
  const shares = sharesOfReturn(await findOut(act.sql, line.id), asked.quantity);
  const reason = asked.reason?.trim() ?? '';
  if (asked.binId === undefined) await refuseClosedBins(act, shares);
  const carried = asked.binId === undefined ? undefined : await carry(act, shares, { binId: asked.binId, reason });
  await recordStock(act.sql, {
    moves: [
      ...shares.map(({ lotId, count, worth }) => ({
        act: 'return' as const,
        lotId,
        onHand: count,
        value: worth,
        demandLineId: line.id,
        jobId: job.id,
        reason,
      })),
      ...(carried?.moves ?? []),
    ],
    holds: [],
    standings: [standing],
    byId: act.actor.id,
  });
  const cuts =
    asked.stillNeeded === true
      ? []
      : await companionsGone(act, { jobId: job.id, lines, line, quantity: asked.quantity });
  const calledOff = await callOff(act, { jobId: job.id, lots, cuts, reason: goesAlong(line.name) });
  await trimReasons(act.sql, [line.id]);
  await act.event('part.returned', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      part: line.number,
      name: line.name,
      quantity: asked.quantity,
      reason,
      ...(carried === undefined ? {} : { bin: carried.bin }),
      ...(calledOff.length === 0 ? {} : { calledOff }),
    },
  });
  return { jobId: job.id };
}

/** What the pieces came out of, and where they are carried into another bin, what they join there: all of it in one order. */
async function lockLotsToReturn({ sql }: Act, jobId: string, of: LotsOfLine) {
  return lockUntilItStands(
    sql,
    { name: 'way_back', busy: 'These pieces are being carried right now. Try again in a moment.' },
    async () => {
      const lots = await lockLotsOfJob(sql, jobId, of);
      const likes = of.toBinId === undefined ? [] : await findLikesOfLine(sql, of);
      return likes.every((like) => lots.some(({ id }) => id === like)) ? lots : undefined;
    },
  );
}

const goesAlong = (name: string): string => `${name} was returned, not needed`;

async function refuseClosedBins(act: Act, shares: readonly ShareOfReturn[]): Promise<void> {
  const closed = await findClosedBins(
    act.sql,
    shares.map(({ lotId }) => lotId),
  );
  if (closed.length === 0) return;
  throw new ProblemError(
    'conflict',
    `Bin ${closed.join(', ')} is closed and takes nothing in. Say which other bin the pieces go into, or open it again first.`,
    { errors: [{ pointer: '/binId', detail: 'name an open bin' }] },
  );
}

/** Carries what comes back from the lots it belongs to into their like in another bin. */
async function carry(
  act: Act,
  shares: readonly ShareOfReturn[],
  to: { readonly binId: string; readonly reason: string },
): Promise<{ readonly bin: string; readonly moves: readonly Move[] }> {
  const bin = found(await lockBin(act.sql, to.binId), 'such bin');
  refuseClosedBin(bin, '/binId');
  // They are locked by now, and so are their like in the bin.
  const lots = await lockLots(
    act.sql,
    shares.map(({ lotId }) => lotId),
  );
  const moves: Move[] = [];
  for (const { lotId, count } of shares) {
    const lot = found(
      lots.find(({ id }) => id === lotId),
      'such lot',
    );
    if (lot.binId === bin.id) continue;
    const likeId = await findLike(act.sql, lotId, bin.id);
    const toLotId = likeId ?? (await insertLot(act.sql, { ...lot, binId: bin.id }));
    moves.push(
      { lotId, act: 'transfer out', onHand: -count, reason: to.reason },
      { lotId: toLotId, act: 'transfer in', onHand: count, reason: to.reason },
    );
  }
  return { bin: bin.code, moves };
}
