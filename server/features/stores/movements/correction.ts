import type { StockMoved, TakenBack } from '#contracts/stock.ts';
import { releasesAfterCount } from '#domain/stock/release.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import { lockLines, recordStock } from '../ledger/queries.ts';
import { partOf, shortAgain } from '../ledger/service.ts';
import { lockUntilItStands } from './locking.ts';
import {
  findPromisesOfLot,
  findPromisesOfLots,
  type LotToMove,
  lockEnginesWithPromises,
  lockLots,
  type PromiseOfLot,
} from './queries.ts';

/**
 * Locks lots, by id, and before them the engines that have pieces of them promised, since the loss of a promise is told
 * on the engine's own line of events. Who reserves holds its engine and waits for the lot: an engine that got a promise
 * between the two is not waited for, everything is let go and locked anew.
 */
export async function lockLotsAndHolders(act: Act, lotIds: readonly string[]): Promise<readonly LotToMove[]> {
  const { sql } = act;
  return lockUntilItStands(
    sql,
    { name: 'holders', busy: 'These pieces are being reserved right now. Try again in a moment.' },
    async () => {
      const engines = new Set(await lockEnginesWithPromises(sql, lotIds));
      const lots = await lockLots(sql, lotIds);
      const promises = await findPromisesOfLots(sql, lotIds);
      if (promises.some(({ job }) => !engines.has(job.engineId))) return undefined;
      // Lines before any of them is changed, all at once and by id: several lots may have pieces of one.
      await lockLines(
        sql,
        promises.map(({ demandLineId }) => demandLineId),
      );
      return lots;
    },
  );
}

export const numbersOf = ({ onHand, reserved }: { onHand: number; reserved: number }) => ({
  onHand,
  reserved,
  available: onHand - reserved,
});

/** What would come into a closed bin is refused, at the field that names the bin or the lot in it. */
export function refuseClosedBin(bin: { readonly code: string; readonly closed: boolean }, pointer: string): void {
  if (!bin.closed) return;
  throw new ProblemError('conflict', `Bin ${bin.code} is closed and takes nothing in. Choose another bin.`, {
    errors: [{ pointer, detail: `${bin.code} is closed` }],
  });
}

export function refuseMoreThanThere(lot: LotToMove, there: number, asked: number): void {
  if (asked <= there) return;
  const { onHand, reserved, available } = numbersOf(lot);
  throw new ProblemError(
    'stock-short',
    `Bin ${lot.bin} holds ${onHand} of ${lot.name} (${lot.number}) in that lot: ${reserved} reserved, ${available} available. ${asked} cannot be taken.`,
    {
      onHand,
      reserved,
      available,
      asked,
      errors: [{ pointer: '/quantity', detail: there > 0 ? `at most ${there}` : 'there is nothing to take' }],
    },
  );
}

export interface Change {
  readonly act: 'adjust' | 'scrap';
  readonly change: number;
  readonly reason: string;
}

export async function changeLot(act: Act, lot: LotToMove, { act: kind, change, reason }: Change): Promise<StockMoved> {
  refuseMoreThanThere(lot, lot.onHand, -change);
  const left = lot.onHand + change;
  const promises = left < lot.reserved ? await findPromisesOfLot(act.sql, lot.id) : [];
  const { releases } = releasesAfterCount(lot.onHand, left, promises);
  const given = releases.flatMap(({ reservationId, count }) => {
    const promise = promises.find(({ id }) => id === reservationId);
    return promise === undefined ? [] : [{ ...promise, count }];
  });
  const shortages = await takeBackOf(act, lot, { given, reason });
  if (change !== 0) {
    const move = { lotId: lot.id, act: kind, onHand: change, reason };
    await recordStock(act.sql, { moves: [move], holds: [], standings: [], byId: act.actor.id });
  }
  const after = numbersOf({
    onHand: left,
    reserved: lot.reserved - given.reduce((sum, { count }) => sum + count, 0),
  });
  await tellThoseWhoLost(act, shortages, reason);
  await act.event('stock.moved', {
    data: {
      act: kind,
      part: lot.number,
      name: lot.name,
      bin: lot.bin,
      change,
      left,
      reason,
      short: shortages.map(({ job, missing }) => ({ job: job.number, jobId: job.id, missing })),
    },
  });
  return { lotId: lot.id, ...after, toLotId: null, shortages, carried: [] };
}

/** Takes promises of a locked lot back: the pieces become short, by name, in the jobs that had them. */
export async function takeBackOf(
  act: Act,
  lot: LotToMove,
  { given, reason }: { readonly given: readonly PromiseOfLot[]; readonly reason: string },
): Promise<TakenBack[]> {
  if (given.length === 0) return [];
  const lines = await lockLines(
    act.sql,
    given.map(({ demandLineId }) => demandLineId),
  );
  await recordStock(act.sql, {
    moves: given.map(({ demandLineId, jobId, count }) => ({
      lotId: lot.id,
      act: 'release',
      reserved: -count,
      demandLineId,
      jobId,
      reason,
    })),
    holds: given.map(({ demandLineId, count }) => ({ demandLineId, lotId: lot.id, count: -count })),
    standings: lines.map((line) =>
      shortAgain(
        line,
        given.flatMap(({ demandLineId, count, until }) =>
          demandLineId === line.id ? [{ quantity: count, until }] : [],
        ),
      ),
    ),
    byId: act.actor.id,
  });
  return given.flatMap(({ demandLineId, job, count }) => {
    const line = lines.find(({ id }) => id === demandLineId);
    return line === undefined ? [] : [{ job, demandLineId, part: partOf(line), missing: count }];
  });
}

/** Each job that lost a promise is told so on its engine's own line of events; their engines are locked. */
export async function tellThoseWhoLost(act: Act, shortages: readonly TakenBack[], reason: string): Promise<void> {
  for (const { job, part, missing } of shortages) {
    await act.event('part.taken-back', {
      engineId: job.engineId,
      jobId: job.id,
      data: { part: part.number, name: part.name, quantity: missing, reason },
    });
  }
}
