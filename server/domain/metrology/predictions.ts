import { compressionRatio, discVolume } from '#domain/build/cylinder.ts';
import { type CubicMillimetres, cubicMillimetres, type Nanometres } from '#domain/units/quantity.ts';
import { type GapInterval, gapAfterGrowth } from './cross-checks.ts';
import type { Bounds } from './dimension.ts';

/** How something foreseen lies against the standard range: all of it inside, some of it, or none. */
export type Outlook = 'inside' | 'partly' | 'outside';

const outlookOf = ({ low, high }: GapInterval, range: Bounds): Outlook => {
  const top = high ?? Number.POSITIVE_INFINITY;
  const least = range.low ?? Number.NEGATIVE_INFINITY;
  const most = range.high ?? Number.POSITIVE_INFINITY;
  if (low >= least && top <= most) return 'inside';
  return top < least || low > most ? 'outside' : 'partly';
};

export type GapForeseen = { readonly gap: GapInterval; readonly outlook: Outlook };

/**
 * End gap of the same ring once the bore is opened from one size to another: each end moves by π × growth. Nanometres.
 * Source: plain geometry.
 */
export const gapAfterBoring = (
  gap: GapInterval,
  bore: { readonly now: number; readonly opened: number },
  standard: Bounds,
): GapForeseen => {
  const after = gapAfterGrowth(gap, bore.opened - bore.now);
  return { gap: after, outlook: outlookOf(after, standard) };
};

/** A piston that could be fitted: its measured or marked size, least and greatest, nanometres. */
export type PistonAtHand = {
  readonly code: string;
  readonly sizeClass: string;
  readonly low: number;
  readonly high: number;
  readonly available: number;
};

export type PistonForeseen = {
  readonly piston: PistonAtHand;
  /** Clearance in the bore as it is now. */
  readonly clearance: GapInterval;
  readonly outlook: Outlook;
  /** Bore sizes that give this piston a standard clearance, whichever of its sizes it has; null: none does. */
  readonly boreTo: { readonly low: number; readonly high: number } | null;
  /** Metal to take off the diameter so that the widest place is reached and boreTo met; null: it can't be. */
  readonly remove: { readonly least: number; readonly most: number } | null;
};

export type BoreNow = {
  /** Narrowest and widest diameter as measured. */
  readonly low: number;
  readonly high: number;
  /** Expanded uncertainty of it. */
  readonly expanded: number;
  /** Largest diameter that the cylinder may be opened to; left out: the sheet names none. */
  readonly largest?: number;
  /** A plated bore is not opened at all. */
  readonly plated?: boolean;
};

const boreFor = ({ low, high }: PistonAtHand, { low: least, high: most }: Bounds): PistonForeseen['boreTo'] => {
  if (least === undefined || most === undefined) return null;
  const to = { low: high + least, high: low + most };
  return to.low <= to.high ? to : null;
};

/**
 * Clearance with each piston at hand in the bore as it is, and the bore that each asks for: with every piston size
 * it may have, the clearance lies in the standard range. A bore is only ever opened: its widest place (with its
 * uncertainty) must be cleaned up. Nanometres, smallest removal first. Source: plain geometry.
 */
export const pistonsForeseen = (
  bore: BoreNow,
  pistons: readonly PistonAtHand[],
  standard: Bounds,
): readonly PistonForeseen[] =>
  pistons
    .map((piston): PistonForeseen => {
      const clearance = { low: bore.low - bore.expanded - piston.high, high: bore.high + bore.expanded - piston.low };
      const boreTo = boreFor(piston, standard);
      const cleaned = bore.high + bore.expanded;
      const least = Math.max(cleaned, boreTo?.low ?? cleaned);
      const most = Math.min(boreTo?.high ?? Number.NEGATIVE_INFINITY, bore.largest ?? Number.POSITIVE_INFINITY);
      const possible = boreTo !== null && bore.plated !== true && least <= most;
      return {
        piston,
        clearance,
        outlook: outlookOf(clearance, standard),
        boreTo,
        remove: possible ? { least: least - bore.low, most: most - bore.low } : null,
      };
    })
    .toSorted(
      (a, b) =>
        (a.remove?.least ?? Number.POSITIVE_INFINITY) - (b.remove?.least ?? Number.POSITIVE_INFINITY) ||
        a.piston.code.localeCompare(b.piston.code),
    );

export type ResurfacingForeseen =
  | {
      readonly ok: true;
      readonly before: number;
      readonly after: number;
      readonly clearanceVolume: CubicMillimetres;
      /** What may still be taken off after this, nanometres; null: the sheet names no limit. Below zero: too much. */
      readonly left: number | null;
    }
  | { readonly ok: false; readonly reason: 'nothing-left-above-the-piston' };

/**
 * Compression ratio before and after so much is taken off head or cylinder: the clearance volume loses
 * π/4·D²·removed, D the opening of the chamber (the bore, where the sheet names none). mm³ and nanometres.
 * Source: plain geometry; the ratio as compressionRatio.
 */
export const resurfacingForeseen = (facts: {
  readonly swept: CubicMillimetres;
  readonly clearance: CubicMillimetres;
  readonly opening: Nanometres;
  readonly remove: Nanometres;
  /** Taken off before, and how much may be taken off in all. */
  readonly removedBefore?: number;
  readonly allowed?: number;
}): ResurfacingForeseen => {
  const { swept, clearance, opening, remove, removedBefore = 0, allowed } = facts;
  const clearanceVolume = cubicMillimetres(clearance - discVolume(opening, remove));
  const before = compressionRatio(swept, clearance);
  const after = compressionRatio(swept, clearanceVolume);
  if (before === undefined || after === undefined) return { ok: false, reason: 'nothing-left-above-the-piston' };
  const left = allowed === undefined ? null : allowed - removedBefore - remove;
  return { ok: true, before, after, clearanceVolume, left };
};

/**
 * Metal left in a bore: from its widest place to the largest diameter it may be opened to, over the diameter and per
 * side, nanometres; below zero: it is past it already.
 */
export const metalLeft = (
  widest: number,
  largest: number,
): { readonly onDiameter: number; readonly perSide: number } => ({
  onDiameter: largest - widest,
  perSide: (largest - widest) / 2,
});
