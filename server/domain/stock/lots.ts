import type { Nanometres } from '#domain/units/quantity.ts';

/** Pieces of one part that came in together. Counts whole and ≥ 0; `receivedAt` ISO 8601, of one kind for all lots. */
export interface Lot {
  readonly id: string;
  readonly partId: string;
  readonly receivedAt: string;
  readonly onHand: number;
  readonly reserved: number;
  /** Thickness by which the lot is told from others of its part (shims), null where that says nothing. */
  readonly thickness: Nanometres | null;
  /** Mark of its grade; left out or empty: it bears none. */
  readonly grade?: string;
}

/** Pieces to take from one lot. */
export interface LotShare {
  readonly lotId: string;
  readonly count: number;
}

export interface LotChoice {
  readonly shares: readonly LotShare[];
  /** How many the lots can't give. */
  readonly missing: number;
}

export interface LotWish {
  readonly partId: string;
  /** Parts that serve the wish, in the order in which they are used up; left out: `partId` alone. */
  readonly servedBy?: readonly string[];
  readonly count: number;
  /** Only lots of exactly this thickness will do; null: any lot of the part. */
  readonly thickness: Nanometres | null;
  /** Only lots of this grade will do, in small or large letters; null or left out: any. */
  readonly grade?: string | null;
}

/** What a lot can still promise: on hand less reserved, never below zero. */
export function availableIn(lot: Lot): number {
  return Math.max(0, lot.onHand - lot.reserved);
}

/**
 * Which lots give the wished pieces: of the parts that serve it one after the other, of each the oldest lot first, of lots
 * that came in together the one with the lower id. A wish for a thickness takes that thickness exactly, one for a grade
 * what bears its mark. Never takes more than is available; the rest is `missing`.
 */
export function chooseLots(lots: readonly Lot[], wish: LotWish): LotChoice {
  let missing = wish.count;
  const shares: LotShare[] = [];
  const rank = new Map((wish.servedBy ?? [wish.partId]).map((partId, at) => [partId, at]));
  const rankOf = (lot: Lot): number => rank.get(lot.partId) ?? rank.size;
  const fitting = lots.filter((lot) => rank.has(lot.partId) && isOfThickness(lot, wish) && isOfGrade(lot, wish));
  for (const lot of fitting.toSorted((a, b) => rankOf(a) - rankOf(b) || oldestFirst(a, b))) {
    const count = Math.min(missing, availableIn(lot));
    if (count === 0) continue;
    shares.push({ lotId: lot.id, count });
    missing -= count;
  }
  return { shares, missing };
}

function isOfThickness(lot: Lot, wish: LotWish): boolean {
  return wish.thickness === null || lot.thickness === wish.thickness;
}

function isOfGrade(lot: Lot, { grade = null }: LotWish): boolean {
  return grade === null || sameGrade(lot.grade ?? '', grade);
}

/** Two marks are one grade, in small or large letters. */
export const sameGrade = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

function oldestFirst(a: Lot, b: Lot): number {
  if (a.receivedAt !== b.receivedAt) return a.receivedAt < b.receivedAt ? -1 : 1;
  if (a.id === b.id) return 0;
  return a.id < b.id ? -1 : 1;
}
