import type { MoveStock, StockMoved } from '#contracts/stock.ts';
import type { Money } from '#contracts/wire.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findCurrency, recordStock } from '../ledger/queries.ts';
import { transfer } from './carrying.ts';
import { changeLot, lockLotsAndHolders, numbersOf, refuseClosedBin } from './correction.ts';
import { findSheetOfLot, type LotToMove, lockLot } from './queries.ts';

/** A movement on a lot, for no job. Less than was promised releases promises, latest first, into named shortages. */
export async function moveStock(act: Act, asked: MoveStock): Promise<StockMoved> {
  switch (asked.act) {
    case 'transfer':
      return transfer(act, asked);
    case 'receive':
      return receiveIntoLot(act, asked);
    case 'scrap': {
      const lot = await lotToCorrect(act, asked.lotId);
      return changeLot(act, lot, { act: 'scrap', change: -asked.quantity, reason: asked.reason.trim() });
    }
    case 'adjust': {
      const lot = await lotToCorrect(act, asked.lotId);
      await refuseWhileCounted(act, lot);
      refuseMoreInClosed(lot, asked.quantity);
      return changeLot(act, lot, { act: 'adjust', change: asked.quantity, reason: asked.reason.trim() });
    }
    case 'count': {
      const lot = await lotToCorrect(act, asked.lotId);
      await refuseWhileCounted(act, lot);
      refuseMoreInClosed(lot, asked.counted - lot.onHand);
      return changeLot(act, lot, { act: 'adjust', change: asked.counted - lot.onHand, reason: asked.reason.trim() });
    }
  }
}

const lotToCorrect = async (act: Act, id: string): Promise<LotToMove> =>
  found((await lockLotsAndHolders(act, [id]))[0], 'such lot');

/** What is being counted blind is put right by its sheet, not past it. */
async function refuseWhileCounted(act: Act, lot: LotToMove): Promise<void> {
  const sheet = await findSheetOfLot(act.sql, lot.id);
  if (sheet === undefined) return;
  throw new ProblemError(
    'conflict',
    `Bin ${lot.bin} is being counted on sheet ${sheet.number} by ${sheet.counter}. Count it there, or give that sheet up first.`,
  );
}

const lotOf = async (act: Act, id: string): Promise<LotToMove> => found(await lockLot(act.sql, id), 'such lot');

/** A count or a correction that finds more in a closed bin than the books say. */
function refuseMoreInClosed(lot: LotToMove, change: number): void {
  if (change <= 0 || !lot.binClosed) return;
  throw new ProblemError(
    'conflict',
    `Bin ${lot.bin} is closed and takes nothing in. Open it again first, or receive the pieces into another bin.`,
    { errors: [{ pointer: '/lotId', detail: `lies in ${lot.bin}, which is closed` }] },
  );
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
  refuseClosedBin({ code: lot.bin, closed: lot.binClosed }, '/lotId');
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
  return { lotId: lot.id, ...after, toLotId: null, shortages: [], carried: [] };
}
