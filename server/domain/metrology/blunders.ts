import { type BaseQuantity, baseQuantity, type QuantityKind } from '#domain/units/quantity.ts';
import { type UnitCode, unitOf } from '#domain/units/unit-table.ts';
import type { PlausibleSpan } from './dimension.ts';
import { coverageFactor } from './guard-band.ts';

/** What is asked about at once when a reading is keyed; never silently kept, never silently dropped. */
export type Question =
  /** The figure was keyed in one unit and meant in the other: 25.4 times off. */
  | {
      readonly code: 'unit-slip';
      readonly keyedTimes: '25.4' | '1/25.4';
      readonly suggested: BaseQuantity;
      readonly meantUnit: 'in' | 'mm';
    }
  | { readonly code: 'implausible'; readonly low: number; readonly high: number }
  | { readonly code: 'too-many-decimals'; readonly keyed: number; readonly meaningful: number };

/** A reading as keyed, base units of its kind. A feeler interval is asked about by its bounds, one at a time. */
export type KeyedReading = {
  readonly kind: QuantityKind;
  readonly value: BaseQuantity;
  readonly unit: UnitCode;
  readonly decimals: number;
};

const isPlausible = (value: number, { nominal, span }: PlausibleSpan): boolean => Math.abs(value - nominal) <= span;

/**
 * Looks for a unit slip: an implausible length that becomes plausible 25.4 times larger (keyed in millimetres, meant in
 * inches) or smaller (the other way). The suggestion is in whole nanometres. Source: 1 in = 25.4 mm exactly.
 */
export const unitSlip = (keyed: KeyedReading, plausible: PlausibleSpan): Question | undefined => {
  if (keyed.kind !== 'length' || isPlausible(keyed.value, plausible)) return undefined;
  const larger = Math.round((keyed.value * 254) / 10);
  if (Number.isSafeInteger(keyed.value * 254) && isPlausible(larger, plausible)) {
    return { code: 'unit-slip', keyedTimes: '1/25.4', suggested: baseQuantity('length', larger), meantUnit: 'in' };
  }
  const smaller = Math.round((keyed.value * 10) / 254);
  if (isPlausible(smaller, plausible)) {
    return { code: 'unit-slip', keyedTimes: '25.4', suggested: baseQuantity('length', smaller), meantUnit: 'mm' };
  }
  return undefined;
};

/**
 * How many decimals of a unit an instrument's resolution (base units, > 0) can fill: those that write the resolution
 * out where it is a decimal of the unit (0.005 mm: 3; 0.0005 in: 4), else up to its first digit.
 */
export const meaningfulDecimals = (resolution: number, unit: UnitCode): number => {
  const { numerator, denominator } = unitOf(unit);
  const steps = (decimals: number): number => (resolution * 10 ** decimals * Number(denominator)) / Number(numerator);
  const isWhole = (value: number): boolean => Math.abs(value - Math.round(value)) < 1e-9 * value;
  for (let decimals = 0; decimals < 15; decimals += 1) {
    if (steps(decimals) < 1 - 1e-9) continue;
    return !isWhole(steps(decimals)) && isWhole(steps(decimals + 1)) ? decimals + 1 : decimals;
  }
  return 15;
};

/** Everything to ask about a reading as it is keyed; nothing to ask: empty. */
export const questionsAbout = (
  keyed: KeyedReading,
  known: { readonly plausible?: PlausibleSpan; readonly resolution?: number },
): readonly Question[] => {
  const questions: Question[] = [];
  const { plausible, resolution } = known;
  if (plausible !== undefined && !isPlausible(keyed.value, plausible)) {
    const { nominal, span } = plausible;
    questions.push(unitSlip(keyed, plausible) ?? { code: 'implausible', low: nominal - span, high: nominal + span });
  }
  if (resolution !== undefined && resolution > 0) {
    const meaningful = meaningfulDecimals(resolution, keyed.unit);
    if (keyed.decimals > meaningful) {
      questions.push({ code: 'too-many-decimals', keyed: keyed.decimals, meaningful });
    }
  }
  return questions;
};

/** One person's result, its standard uncertainty and that's effective degrees of freedom (left out: unlimited), base units. */
export type OwnResult = {
  readonly value: number;
  readonly standard: number;
  readonly degreesOfFreedom?: number | null;
};

export type Agreement = {
  readonly agree: boolean;
  readonly difference: number;
  /** |difference| / √(U₁² + U₂²), U = k·u; above 1 they disagree. null: both claim to be exact. */
  readonly normalisedError: number | null;
};

/**
 * Whether two people's (or benches') results of one dimension agree within both uncertainties: Eₙ = |a − b| /
 * √(Uₐ² + U_b²) ≤ 1 with U = k·u (k = 2, or Student's t where u rests on few readings). Source: ISO/IEC 17043 and ISO 13528, Eₙ number [from memory].
 */
export const agreementOf = (a: OwnResult, b: OwnResult): Agreement => {
  const difference = a.value - b.value;
  const expandedOf = ({ standard, degreesOfFreedom }: OwnResult) => coverageFactor(degreesOfFreedom ?? null) * standard;
  const expanded = Math.hypot(expandedOf(a), expandedOf(b));
  if (expanded === 0) return { agree: difference === 0, difference, normalisedError: null };
  const normalisedError = Math.abs(difference) / expanded;
  return { agree: normalisedError <= 1, difference, normalisedError };
};
