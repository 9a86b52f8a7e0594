import type { Nanometres } from '#domain/units/quantity.ts';
import { type AllowedRange, type LengthInterval, middleIn, type RangeStanding, standingIn } from './interval.ts';
import { lashWith, type ShimmedValve, shimsThatCouldDo, type Thickness, wantedShim } from './shim.ts';

/**
 * Where a shim would come from: it stays in this valve, moves over from another valve of the engine, lies in a bin, or
 * has to be bought. `receivedAt` (ISO 8601) tells the older of two lots.
 */
export type ShimSource =
  | { readonly kind: 'stays' }
  | { readonly kind: 'engine'; readonly valve: string }
  | { readonly kind: 'bin'; readonly lotId: string; readonly receivedAt: string }
  | { readonly kind: 'buy'; readonly partId: string };

/** Shims of one thickness from one place: so many (whole, ≥ 0) of a diameter (nm). */
export interface ShimCandidate {
  readonly source: ShimSource;
  readonly thickness: Thickness;
  readonly shimDiameter: Nanometres;
  readonly count: number;
}

export type NoShim =
  /** The maker's sizes reach it, but no candidate does. */
  | { readonly kind: 'not-stocked'; readonly needed: LengthInterval }
  /** Too thin or too thick for the maker: look at the valve and its seat instead. */
  | {
      readonly kind: 'outside-makers-sizes';
      readonly side: 'thinner' | 'thicker';
      readonly needed: LengthInterval;
      readonly makersSizes: AllowedRange;
    };

export type ShimChoice =
  | {
      readonly ok: true;
      readonly chosen: ShimCandidate;
      readonly wanted: LengthInterval;
      /** The lash after fitting it, as far as it can be guaranteed. */
      readonly after: LengthInterval;
      readonly standing: Exclude<RangeStanding, 'out'>;
    }
  | { readonly ok: false; readonly wanted: LengthInterval; readonly reason: NoShim };

/**
 * The shim for one valve, by these aims in this order: lash guaranteed in range; lash possibly in range; its
 * middle in range; nothing
 * bought; nothing from the bins; middle of the lash interval nearest to what is wanted; looser rather than tighter;
 * then the older lot and the lower id, so that the answer is unique. Only shims of the head's diameter count.
 * `makersSizes` are the thinnest and thickest shim the maker has (nm): they tell a size that isn't there from a valve or
 * seat that is worn past shimming.
 */
export function chooseShim(
  valve: ShimmedValve,
  candidates: readonly ShimCandidate[],
  makersSizes: AllowedRange,
): ShimChoice {
  const wanted = wantedShim(valve.fitted.measured, valve.lash, valve.wanted);
  const best = candidates
    .filter((candidate) => candidate.count >= 1 && candidate.shimDiameter === valve.shimDiameter)
    .map((candidate) => tried(valve, candidate))
    .filter((trial) => trial.standing !== 'out')
    .toSorted((a, b) => byAims(a, b, valve.wanted))[0];
  if (best === undefined || best.standing === 'out') return { ok: false, wanted, reason: whyNone(valve, makersSizes) };
  return { ok: true, chosen: best.candidate, wanted, after: best.after, standing: best.standing };
}

/** A candidate tried at a valve: the lash it would leave, and how that stands to the range. */
export interface Trial {
  readonly candidate: ShimCandidate;
  readonly after: LengthInterval;
  readonly standing: RangeStanding;
  /** The middle of the lash is in range: a lash that only touches the range with one end is hardly in it. */
  readonly centred: boolean;
}

/** What the lash would be with a candidate in. */
export function tried(valve: ShimmedValve, candidate: ShimCandidate): Trial {
  // The shim that stays is the one the lash was measured with: its own thickness doesn't matter.
  const after = candidate.source.kind === 'stays' ? valve.lash : lashWith(valve, candidate.thickness);
  return { candidate, after, standing: standingIn(after, valve.range), centred: middleIn(after, valve.range) };
}

/** Which of two trials serves one valve better, by the aims of `chooseShim`: below zero, the first. Never 0 for two sources. */
export function byAims(a: Trial, b: Trial, wanted: Nanometres): number {
  const middleA = twiceTheMiddle(a.after);
  const middleB = twiceTheMiddle(b.after);
  const distanceA = Math.abs(middleA - 2 * wanted);
  const distanceB = Math.abs(middleB - 2 * wanted);
  return (
    Number(b.standing === 'guaranteed') - Number(a.standing === 'guaranteed') ||
    Number(b.centred) - Number(a.centred) ||
    Number(isFrom(a, 'buy')) - Number(isFrom(b, 'buy')) ||
    Number(isFrom(a, 'bin')) - Number(isFrom(b, 'bin')) ||
    compare(distanceA, distanceB) ||
    compare(middleB, middleA) ||
    compare(tieOrder(a.candidate.source), tieOrder(b.candidate.source))
  );
}

function isFrom(trial: Trial, kind: ShimSource['kind']): boolean {
  return trial.candidate.source.kind === kind;
}

function twiceTheMiddle({ low, high }: LengthInterval): number {
  return high === null ? Number.POSITIVE_INFINITY : low + high;
}

function tieOrder(source: ShimSource): string {
  switch (source.kind) {
    case 'stays':
      return '0';
    case 'engine':
      return `1 ${source.valve}`;
    case 'bin':
      return `2 ${source.receivedAt} ${source.lotId}`;
    case 'buy':
      return `3 ${source.partId}`;
  }
}

function compare<T extends number | string>(a: T, b: T): number {
  if (a === b) return 0;
  return a < b ? -1 : 1;
}

/** Why no size at all, or none that is there, brings a valve into range. */
export function whyNone(valve: ShimmedValve, makersSizes: AllowedRange): NoShim {
  const needed = shimsThatCouldDo(valve);
  if (needed.low > makersSizes.high) return { kind: 'outside-makers-sizes', side: 'thicker', needed, makersSizes };
  if (needed.high !== null && needed.high < makersSizes.low) {
    return { kind: 'outside-makers-sizes', side: 'thinner', needed, makersSizes };
  }
  return { kind: 'not-stocked', needed };
}
