import type { MoveStock, StockMoved } from '#contracts/stock.ts';
import { releasesAfterCount } from '#domain/stock/release.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockLines, type Move, recordStock } from '../ledger/queries.ts';
import { partOf } from '../ledger/service.ts';
import { carryReasons, setCarrying } from './carrying-queries.ts';
import { lockLotsAndHolders, numbersOf, refuseClosedBin, refuseMoreThanThere } from './correction.ts';
import { lockUntilItStands } from './locking.ts';
import { findLike, findPromisesOfLot, insertLot, type LotToMove, lockBin, type PromiseOfLot } from './queries.ts';

type Transfer = Extract<MoveStock, { act: 'transfer' }>;

interface Way {
  readonly lot: LotToMove;
  /** The like of it in the other bin, where one lies there. */
  readonly like: LotToMove | undefined;
}

/** The lot, and its like in the other bin, locked by id after the engines that have pieces of them promised. */
async function lockWay(act: Act, { lotId, toBinId }: Transfer): Promise<Way> {
  const { sql } = act;
  return lockUntilItStands(
    sql,
    { name: 'way', busy: 'These pieces are being carried right now. Try again in a moment.' },
    async () => {
      const likeId = await findLike(sql, lotId, toBinId);
      const lots = await lockLotsAndHolders(act, likeId === undefined ? [lotId] : [lotId, likeId]);
      const lot = found(
        lots.find(({ id }) => id === lotId),
        'such lot',
      );
      // Somebody else carried some of it there before the lot was ours.
      if ((await findLike(sql, lotId, toBinId)) !== likeId) return undefined;
      return { lot, like: lots.find(({ id }) => id === likeId) };
    },
  );
}

/**
 * Carries pieces to another bin: those that nobody has reserved first, then reserved ones, of the job that is promised
 * latest first. Their promise goes with them, as long as it was held, in the same transaction; each job is told.
 */
export async function transfer(act: Act, asked: Transfer): Promise<StockMoved> {
  const { lot, like } = await lockWay(act, asked);
  const bin = found(await lockBin(act.sql, asked.toBinId), 'such bin');
  refuseClosedBin(bin, '/toBinId');
  if (lot.binId === bin.id) throw new ProblemError('refused', `It lies in ${bin.code} already.`);
  refuseMoreThanThere(lot, lot.onHand, asked.quantity);
  const toLotId = like?.id ?? (await insertLot(act.sql, { ...lot, binId: bin.id }));
  const reason = asked.reason?.trim() ?? '';
  const left = lot.onHand - asked.quantity;
  const along = left < lot.reserved ? await promisesAlong(act, lot, left) : [];
  await recordCarried(act, { lot, toLotId, quantity: asked.quantity, reason, along });
  const carried = await named(act, along);
  const gone = along.reduce((sum, { count }) => sum + count, 0);
  const after = numbersOf({ onHand: left, reserved: lot.reserved - gone });
  for (const { job, part, quantity } of carried) {
    await act.event('reservation.carried', {
      engineId: job.engineId,
      jobId: job.id,
      data: { part: part.number, name: part.name, quantity, bin: lot.bin, toBin: bin.code, reason },
    });
  }
  await act.event('stock.moved', {
    data: {
      act: 'transfer',
      part: lot.number,
      name: lot.name,
      bin: lot.bin,
      toBin: bin.code,
      change: asked.quantity,
      left,
      reason,
      carried: carried.map(({ job, quantity }) => ({ job: job.number, jobId: job.id, quantity })),
    },
  });
  return { lotId: lot.id, ...after, toLotId, shortages: [], carried };
}

/** Promises that go along when no more than so many pieces are left. */
async function promisesAlong(act: Act, lot: LotToMove, left: number): Promise<readonly PromiseOfLot[]> {
  const promises = await findPromisesOfLot(act.sql, lot.id);
  return releasesAfterCount(lot.onHand, left, promises).releases.flatMap(({ reservationId, count }) => {
    const promise = promises.find(({ id }) => id === reservationId);
    return promise === undefined ? [] : [{ ...promise, count }];
  });
}

interface ToCarry {
  readonly lot: LotToMove;
  readonly toLotId: string;
  readonly quantity: number;
  readonly reason: string;
  readonly along: readonly PromiseOfLot[];
}

/** The promises are let go where they were and given anew where the pieces lie; no line stands otherwise for it. */
async function recordCarried(act: Act, { lot, toLotId, quantity, reason, along }: ToCarry): Promise<void> {
  const byId = act.actor.id;
  const promised = (lotId: string, kind: 'release' | 'reserve'): readonly Move[] =>
    along.map(({ demandLineId, jobId, count }) => ({
      lotId,
      act: kind,
      reserved: kind === 'release' ? -count : count,
      demandLineId,
      jobId,
      reason,
    }));
  if (along.length > 0) {
    const holds = along.map(({ demandLineId, count }) => ({ demandLineId, lotId: lot.id, count: -count }));
    await recordStock(act.sql, { moves: promised(lot.id, 'release'), holds, standings: [], byId });
    await setCarrying(act.sql, true);
    await carryReasons(act.sql, { lotId: lot.id, toLotId, holds: along });
  }
  await recordStock(act.sql, {
    moves: [
      { lotId: lot.id, act: 'transfer out', onHand: -quantity, reason },
      { lotId: toLotId, act: 'transfer in', onHand: quantity, reason },
      ...promised(toLotId, 'reserve'),
    ],
    holds: along.map(({ demandLineId, count, until }) => ({ demandLineId, lotId: toLotId, count, until })),
    standings: [],
    byId,
  });
  if (along.length > 0) await setCarrying(act.sql, false);
}

async function named(act: Act, along: readonly PromiseOfLot[]): Promise<StockMoved['carried']> {
  if (along.length === 0) return [];
  const lines = await lockLines(
    act.sql,
    along.map(({ demandLineId }) => demandLineId),
  );
  return along.flatMap(({ demandLineId, job, count }) => {
    const line = lines.find(({ id }) => id === demandLineId);
    return line === undefined ? [] : [{ job, demandLineId, part: partOf(line), quantity: count }];
  });
}
