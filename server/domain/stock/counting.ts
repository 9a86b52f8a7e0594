/** What a count may be off by and still be put right at once. Pieces whole and ≥ 0; permille of what the books say. */
export interface CountTolerance {
  readonly pieces: number;
  readonly permille: number;
}

/** The larger of the pieces and the share of the books, in whole pieces, rounded down. */
export function allowedDifference(books: number, { pieces, permille }: CountTolerance): number {
  return Math.max(pieces, Math.floor((books * permille) / 1000));
}

export interface CountedLine {
  readonly round: number;
  readonly counted: number;
  /** What the ledger said at the moment of counting. */
  readonly books: number;
  /** Pieces came or went while the round was counted. */
  readonly moved: boolean;
}

export type CountVerdict = 'right' | 'within tolerance' | 'count again' | 'decide';

/**
 * What follows from a line that was handed in. What agrees with the books is right, whatever moved before or after it.
 * A difference within tolerance is put right at once, unless pieces of the lot moved during the round: somebody may have
 * taken them before the count and booked them after it, so the difference proves nothing. Everything else is counted
 * again, blind, and after a recount it is somebody's decision.
 */
export function judgeCount({ round, counted, books, moved }: CountedLine, tolerance: CountTolerance): CountVerdict {
  const difference = counted - books;
  if (difference === 0) return 'right';
  if (!moved && Math.abs(difference) <= allowedDifference(books, tolerance)) return 'within tolerance';
  return round === 1 ? 'count again' : 'decide';
}

export interface LineHistory {
  readonly settled: boolean;
  /** The last round in which it was counted and handed in; null: none yet. */
  readonly lastRound: number | null;
  /** After that round somebody wanted another count. */
  readonly wantedAgain: boolean;
}

export type LineStanding = 'to count' | 'to count again' | 'to decide' | 'settled';

export function lineStanding({ settled, lastRound, wantedAgain }: LineHistory): LineStanding {
  if (settled) return 'settled';
  if (lastRound === null) return 'to count';
  return lastRound === 1 || wantedAgain ? 'to count again' : 'to decide';
}

/** Blind until then: what the books say, and what others counted, may be told of these lines alone. */
export const mayBeTold = (standing: LineStanding): boolean => standing === 'settled' || standing === 'to decide';
