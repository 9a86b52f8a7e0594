import type { Act } from '#platform/act.ts';
import { findHeld, type LineToServe, type LockedLot, recordStock } from '../ledger/queries.ts';
import { sharesOf } from '../ledger/service.ts';
import { cancelled } from './cancelled.ts';
import type { Reason } from './reason-queries.ts';

export interface CalledOff {
  readonly part: string;
  readonly name: string;
  readonly quantity: number;
}

/** A line, and how many of its pieces are not wanted any more. */
export interface LineCut {
  readonly line: LineToServe;
  readonly quantity: number;
}

/** Of these reasons so many pieces, the first ones first. */
export function cutOf<One extends Reason>(reasons: readonly One[], pieces: number): readonly One[] {
  let left = pieces;
  return reasons.flatMap((reason) => {
    const quantity = Math.min(left, reason.quantity);
    left -= quantity;
    return quantity <= 0 ? [] : [{ ...reason, quantity }];
  });
}

export const piecesOf = (of: readonly { readonly quantity: number }[]): number =>
  of.reduce((sum, { quantity }) => sum + quantity, 0);

export const stillWanted = ({ notAsked, short, reserved }: LineToServe): number => notAsked + short + reserved;

/** How many pieces of a line go with its reasons: never what other reasons ask for, nor what was handed out. */
export function goneOf(line: LineToServe, of: { readonly gone: number; readonly stillAsked: number }): number {
  const needed = Math.max(0, of.stillAsked - line.issued);
  return Math.max(0, Math.min(of.gone, stillWanted(line) - needed));
}

/** Takes pieces off a job's lines, which are locked with its lots; what was reserved of them goes back to stock. */
export async function callOff(
  act: Act,
  of: {
    readonly jobId: string;
    readonly lots: readonly LockedLot[];
    readonly cuts: readonly LineCut[];
    readonly reason: string;
  },
): Promise<readonly CalledOff[]> {
  const cuts = of.cuts
    .filter(({ quantity }) => quantity > 0)
    .map(({ line, quantity }) => ({ line, quantity, ...cancelled(line, quantity) }));
  if (cuts.length === 0) return [];
  const shares = [];
  for (const { line, reserved } of cuts) {
    const held = await findHeld(act.sql, line.id);
    shares.push(...sharesOf(held, of.lots, reserved).map((share) => ({ ...share, demandLineId: line.id })));
  }
  await recordStock(act.sql, {
    moves: shares.map(({ lotId, count, demandLineId }) => ({
      act: 'release',
      lotId,
      reserved: -count,
      demandLineId,
      jobId: of.jobId,
      reason: of.reason,
    })),
    holds: shares.map(({ lotId, count, demandLineId }) => ({ demandLineId, lotId, count: -count })),
    standings: cuts.map(({ standing }) => standing),
    byId: act.actor.id,
  });
  return cuts.map(({ line, quantity }) => ({ part: line.number, name: line.name, quantity }));
}
