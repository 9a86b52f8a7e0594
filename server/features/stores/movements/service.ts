import type { MoveStock, StockMoved, TakenBack } from '#contracts/stock.ts';
import type { Money } from '#contracts/wire.ts';
import { releasesAfterCount } from '#domain/stock/release.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findCurrency, lockLines, type Move, recordStock } from '../ledger/queries.ts';
import { moveOnLine, partOf } from '../ledger/service.ts';
import {
  findBin,
  findPromisesOfLot,
  insertLot,
  type LotToMove,
  lockLot,
  lockLotAndLike,
  type PromiseOfLot,
} from './queries.ts';

/** A movement on a lot, for no job. Less than was promised releases promises, latest first, into named shortages. */
export async function moveStock(act: Act, asked: MoveStock): Promise<StockMoved> {
  switch (asked.act) {
    case 'transfer':
      return transfer(act, asked);
    case 'receive':
      return receiveIntoLot(act, asked);
    case 'scrap': {
      const lot = await lotOf(act, asked.lotId);
      return changeLot(act, lot, { act: 'scrap', change: -asked.quantity, reason: asked.reason.trim() });
    }
    case 'adjust': {
      const lot = await lotOf(act, asked.lotId);
      return changeLot(act, lot, { act: 'adjust', change: asked.quantity, reason: asked.reason.trim() });
    }
    case 'count': {
      const lot = await lotOf(act, asked.lotId);
      return changeLot(act, lot, { act: 'adjust', change: asked.counted - lot.onHand, reason: asked.reason.trim() });
    }
  }
}

const lotOf = async (act: Act, id: string): Promise<LotToMove> => found(await lockLot(act.sql, id), 'such lot');

const numbersOf = ({ onHand, reserved }: { onHand: number; reserved: number }) => ({
  onHand,
  reserved,
  available: onHand - reserved,
});

function refuseMoreThanThere(lot: LotToMove, there: number, asked: number): void {
  if (asked <= there) return;
  const { onHand, reserved, available } = numbersOf(lot);
  throw new ProblemError(
    'stock-short',
    `Bin ${lot.bin} holds ${onHand} of ${lot.name} (${lot.number}) in that lot: ${reserved} reserved, ${available} available. ${asked} cannot be taken.`,
    { onHand, reserved, available, asked },
  );
}

interface Change {
  readonly act: 'adjust' | 'scrap';
  readonly change: number;
  readonly reason: string;
}

async function changeLot(act: Act, lot: LotToMove, { act: kind, change, reason }: Change): Promise<StockMoved> {
  refuseMoreThanThere(lot, lot.onHand, -change);
  const left = lot.onHand + change;
  const promises = left < lot.reserved ? await findPromisesOfLot(act.sql, lot.id) : [];
  const { releases } = releasesAfterCount(lot.onHand, left, promises);
  const given = releases.flatMap(({ reservationId, count }) => {
    const promise = promises.find(({ id }) => id === reservationId);
    return promise === undefined ? [] : [{ ...promise, count }];
  });
  const shortages = await takeBack(act, lot, { given, reason });
  if (change !== 0) {
    const move = { lotId: lot.id, act: kind, onHand: change, reason };
    await recordStock(act.sql, { moves: [move], holds: [], standings: [], byId: act.actor.id });
  }
  const after = numbersOf({
    onHand: left,
    reserved: lot.reserved - given.reduce((sum, { count }) => sum + count, 0),
  });
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
  return { lotId: lot.id, ...after, toLotId: null, shortages };
}

/** Takes promises of a locked lot back: the pieces become short, by name, in the jobs that had them. */
async function takeBack(
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
      moveOnLine(line, 'reserved', {
        to: 'short',
        count: given.find(({ demandLineId }) => demandLineId === line.id)?.count ?? 0,
      }),
    ),
    byId: act.actor.id,
  });
  return given.flatMap(({ demandLineId, job, count }) => {
    const line = lines.find(({ id }) => id === demandLineId);
    return line === undefined ? [] : [{ job, demandLineId, part: partOf(line), missing: count }];
  });
}

export function refuseClosedBin(bin: { readonly code: string; readonly closed: boolean }): void {
  if (!bin.closed) return;
  throw new ProblemError('conflict', `Bin ${bin.code} is closed and takes nothing in. Choose another bin.`);
}

/** Money that came in with a request, in the shop's own currency. */
export async function minorOf(act: Act, cost: Money | undefined, pointer = '/cost'): Promise<number> {
  if (cost === undefined) return 0;
  const currency = await findCurrency(act.sql);
  if (cost.currency !== currency || cost.minor.startsWith('-')) {
    throw new ProblemError('refused', `A sum must be in ${currency} and not below zero.`, {
      errors: [{ pointer, detail: `must be ${currency}, zero or more` }],
    });
  }
  return Number(cost.minor);
}

async function receiveIntoLot(act: Act, asked: Extract<MoveStock, { act: 'receive' }>): Promise<StockMoved> {
  const lot = await lotOf(act, asked.lotId);
  refuseClosedBin({ code: lot.bin, closed: lot.binClosed });
  const reason = asked.reason?.trim() ?? '';
  const value = await minorOf(act, asked.cost);
  const move = { lotId: lot.id, act: 'receive' as const, onHand: asked.quantity, value, reason };
  await recordStock(act.sql, { moves: [move], holds: [], standings: [], byId: act.actor.id });
  const after = numbersOf({ onHand: lot.onHand + asked.quantity, reserved: lot.reserved });
  await act.event('stock.moved', {
    data: {
      act: 'receive',
      part: lot.number,
      name: lot.name,
      bin: lot.bin,
      change: asked.quantity,
      left: after.onHand,
      reason,
    },
  });
  return { lotId: lot.id, ...after, toLotId: null, shortages: [] };
}

/** Carries available pieces to another bin; what is reserved stays where its job will look for it. */
async function transfer(act: Act, asked: Extract<MoveStock, { act: 'transfer' }>): Promise<StockMoved> {
  const bin = found(await findBin(act.sql, asked.toBinId), 'such bin');
  refuseClosedBin(bin);
  const lots = await lockLotAndLike(act.sql, asked.lotId, bin.id);
  const lot = found(
    lots.find(({ id }) => id === asked.lotId),
    'such lot',
  );
  if (lot.binId === bin.id) throw new ProblemError('refused', `It lies in ${bin.code} already.`);
  refuseMoreThanThere(lot, lot.onHand - lot.reserved, asked.quantity);
  const toLotId = lots.find(({ id }) => id !== lot.id)?.id ?? (await insertLot(act.sql, { ...lot, binId: bin.id }));
  const reason = asked.reason?.trim() ?? '';
  const moves: readonly Move[] = [
    { lotId: lot.id, act: 'transfer out', onHand: -asked.quantity, reason },
    { lotId: toLotId, act: 'transfer in', onHand: asked.quantity, reason },
  ];
  await recordStock(act.sql, { moves, holds: [], standings: [], byId: act.actor.id });
  const after = numbersOf({ onHand: lot.onHand - asked.quantity, reserved: lot.reserved });
  await act.event('stock.moved', {
    data: {
      act: 'transfer',
      part: lot.number,
      name: lot.name,
      bin: lot.bin,
      toBin: bin.code,
      change: asked.quantity,
      left: after.onHand,
      reason,
    },
  });
  return { lotId: lot.id, ...after, toLotId, shortages: [] };
}
