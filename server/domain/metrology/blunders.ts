import { type BaseQuantity, baseQuantity, type QuantityKind } from '#domain/units/quantity.ts';
import { type UnitCode, unitOf } from '#domain/units/unit-table.ts';
import type { PlausibleSpan } from './dimension.ts';
import { coverageFactor } from './guard-band.ts';

/** What is asked about at once when a reading is keyed; never silently kept, never silently dropped. */
export type Question =
  /** The figure was keyed in one unit and meant in another. */
  | {
      readonly code: 'unit-slip';
      /** The unit that the same figure makes sense in; that the reading was keyed in, where it was only converted so. */
      readonly meantUnit: UnitCode;
      /** How many times too much was keyed: '25.4', '1/25.4', '1000' …; to three digits where it is no short number. */
      readonly keyedTimes: string;
      readonly suggested: BaseQuantity;
    }
  /** The decimal point stands one or two places off. */
  | {
      readonly code: 'decimal-slip';
      readonly keyedTimes: '10' | '100' | '1/10' | '1/100';
      readonly suggested: BaseQuantity;
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

/** Units that are mistaken for one another at a bench, the likelier first. A temperature scale is shifted, not slipped. */
const mistaken: Partial<Record<QuantityKind, readonly UnitCode[]>> = {
  length: ['mm', 'in', 'um', 'thou'],
  torque: ['N.m', 'lbf.ft', 'lbf.in', 'kgf.m', 'kgf.cm', 'N.cm'],
  pressure: ['kPa', 'bar', 'psi', 'kgf/cm2', 'MPa', 'Pa'],
  force: ['N', 'kgf', 'lbf', 'kN'],
  volume: ['cm3', 'mL', 'L', 'in3', 'mm3'],
};

const perUnit = (unit: UnitCode): number => Number(unitOf(unit).numerator) / Number(unitOf(unit).denominator);

/** '25.4', '1/25.4', '1000', '6.89': a factor as it is said. */
const asTimes = (factor: number): string => {
  const short = (value: number): string => String(Number(value.toPrecision(3)));
  return factor >= 1 ? short(factor) : `1/${short(1 / factor)}`;
};

/** What was keyed, taken `times` times smaller, in whole base units; undefined: that can't be either. */
const shrunk = (keyed: KeyedReading, times: number, plausible: PlausibleSpan): BaseQuantity | undefined => {
  const value = Math.round(keyed.value / times);
  return value !== 0 && Number.isSafeInteger(value) && isPlausible(value, plausible)
    ? baseQuantity(keyed.kind, value)
    : undefined;
};

type Slip = Extract<Question, { readonly code: 'unit-slip' | 'decimal-slip' }>;

/**
 * The same figure in another unit of its kind. Only lengths also the other way about: a gauge that was switched to
 * inches, whose figure was converted, shows a length 25.4 times too small in millimetres.
 */
const slippedUnit = (keyed: KeyedReading, plausible: PlausibleSpan): Slip | undefined => {
  const { kind, unit } = keyed;
  for (const meantUnit of mistaken[kind] ?? []) {
    const times = perUnit(unit) / perUnit(meantUnit);
    const suggested = meantUnit === unit || times === 1 ? undefined : shrunk(keyed, times, plausible);
    if (suggested !== undefined) return { code: 'unit-slip', meantUnit, keyedTimes: asTimes(times), suggested };
  }
  if (kind !== 'length') return undefined;
  const converted = [
    { times: 1 / 25.4, meantUnit: 'in', keyedTimes: '1/25.4' },
    { times: 25.4, meantUnit: 'mm', keyedTimes: '25.4' },
  ] as const;
  for (const { times, meantUnit, keyedTimes } of converted) {
    const suggested = shrunk(keyed, times, plausible);
    if (suggested !== undefined) return { code: 'unit-slip', meantUnit, keyedTimes, suggested };
  }
  return undefined;
};

/** The decimal point one place off, or two: 880.4 or 8.804 for 88.04. */
const slippedPoint = (keyed: KeyedReading, plausible: PlausibleSpan): Slip | undefined => {
  const places = [
    ['10', 10],
    ['1/10', 0.1],
    ['100', 100],
    ['1/100', 0.01],
  ] as const;
  for (const [keyedTimes, times] of places) {
    const suggested = shrunk(keyed, times, plausible);
    if (suggested !== undefined) return { code: 'decimal-slip', keyedTimes, suggested };
  }
  return undefined;
};

/**
 * Looks for what an implausible figure was perhaps meant to be: the same figure in another unit (mm for in, µm for mm,
 * psi for kPa, lbf·ft for N·m …), then with its decimal point elsewhere. The suggestion is in whole base units; a
 * temperature is never asked about so. Source: NIST SP 811, app. B, by the unit table.
 */
export const slipIn = (keyed: KeyedReading, plausible: PlausibleSpan): Slip | undefined => {
  if (keyed.kind === 'temperature' || isPlausible(keyed.value, plausible)) return undefined;
  return slippedUnit(keyed, plausible) ?? slippedPoint(keyed, plausible);
};

/** What stands before "that can be": "is about 25.4 times more". */
export const timesWords = (keyedTimes: string): string =>
  keyedTimes.startsWith('1/') ? `about ${keyedTimes.slice(2)} times less` : `about ${keyedTimes} times more`;

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
    questions.push(slipIn(keyed, plausible) ?? { code: 'implausible', low: nominal - span, high: nominal + span });
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
