import type { BaseQuantity, QuantityKind } from '#domain/units/quantity.ts';

/** How a manual works out a bore; the spec sheet names it. */
export type BoreRule = 'per-level' | 'extremes';

/** How a dimension is worked out from readings. A dimension that only a spec sheet knows picks one of these. */
export type Method =
  | { readonly type: 'single' }
  | { readonly type: 'maximum' }
  | { readonly type: 'minimum' }
  | { readonly type: 'range' }
  | { readonly type: 'mean' }
  | { readonly type: 'size'; readonly rule: BoreRule }
  | { readonly type: 'out-of-round'; readonly rule: BoreRule }
  | { readonly type: 'taper'; readonly rule: BoreRule }
  /** Of two other dimensions: clearance = bore − piston, lift = height − base, pressure lost = in − out. */
  | { readonly type: 'difference'; readonly minuend: string; readonly subtrahend: string }
  /**
   * numerator / denominator of two other dimensions. Without a scale a ratio (leak-down = lost / in, stretch = longer /
   * length when new); with one the numerator at that much of the denominator, in the numerator's kind: spring rate =
   * load at 1 mm of travel, compression at 101.325 kPa of air pressure.
   */
  | {
      readonly type: 'ratio';
      readonly numerator: string;
      readonly denominator: string;
      /** Base units of the denominator's kind. */
      readonly scale?: BaseQuantity;
    }
  /** Not measured: a figure that the sheet itself gives, taken as exact (a chain's length when new). */
  | { readonly type: 'stated'; readonly value: BaseQuantity }
  | { readonly type: 'interval' }
  | { readonly type: 'felt' };

export type MethodType = Method['type'];

export type OperandField = 'minuend' | 'subtrahend' | 'numerator' | 'denominator';

/** The dimensions that a method works on, by the field that names them; none: it works on readings, or on nothing. */
export const operandsOf = (method: Method): readonly (readonly [OperandField, string])[] => {
  switch (method.type) {
    case 'difference':
      return [
        ['minuend', method.minuend],
        ['subtrahend', method.subtrahend],
      ];
    case 'ratio':
      return [
        ['numerator', method.numerator],
        ['denominator', method.denominator],
      ];
    default:
      return [];
  }
};

/** True when readings are taken for it: it works neither on other dimensions nor on a stated figure. */
export const isMeasured = ({ type }: Method): boolean => type !== 'difference' && type !== 'ratio' && type !== 'stated';

/** One place to measure. Levels count from the top (1); axes are named, as 'along' and 'across' the pin. */
export type Position = { readonly code: string; readonly level?: number; readonly axis?: string };

/** Bounds in base units; a side left out has no bound. */
export type Bounds = { readonly low?: BaseQuantity; readonly high?: BaseQuantity };

/** As new, and worn out. On a side without a service limit the standard bound is the limit. */
export type Limits = { readonly standard: Bounds; readonly service: Bounds };

/**
 * How a value is held against a limit: guard band 1.65 u (the 2017 edition, 95 % conformance probability), 2 u (the
 * 1998 and 2013 editions), none (simple acceptance, by the shop's choice), or a stated multiple of u
 * ('guard-factor-1.3').
 */
export type DecisionRule = 'iso-14253-1-2017' | 'iso-14253-1-1998' | 'simple' | `guard-factor-${number}`;

/** A stated multiple of u lies above nothing and does not pass this. */
export const largestGuardFactor = 6;

const statedForm = /^guard-factor-(\d(?:\.\d{1,3})?)$/;

/** The multiple of u that a rule states itself; undefined for the named rules and for text that is no rule. */
export const statedGuardFactor = (rule: string): number | undefined => {
  const factor = Number(statedForm.exec(rule)?.[1]);
  return factor > 0 && factor <= largestGuardFactor ? factor : undefined;
};

/** The rule that keeps so many u off a limit. @throws RangeError when it is not above 0 and at most 6. */
export const guardFactorRule = (factor: number): DecisionRule => {
  const rule = `guard-factor-${Math.round(factor * 1000) / 1000}` as const;
  if (statedGuardFactor(rule) === undefined) throw new RangeError(`${factor} u can't be kept off a limit`);
  return rule;
};

const namesRule = (text: string): text is DecisionRule =>
  text === 'iso-14253-1-2017' ||
  text === 'iso-14253-1-1998' ||
  text === 'simple' ||
  statedGuardFactor(text) !== undefined;

/** The rule that a stored text names; what names none is judged by the newest, ISO 14253-1:2017. */
export const decisionRuleOf = (text: string): DecisionRule => (namesRule(text) ? text : 'iso-14253-1-2017');

/** Expansion of the part, per kelvin, and the standard uncertainty of that figure. */
export type PartMaterial = { readonly alphaPerKelvin: number; readonly alphaUncertaintyPerKelvin: number };

/** What is physically possible: nominal ± span, base units. */
export type PlausibleSpan = { readonly nominal: BaseQuantity; readonly span: BaseQuantity };

/** A dimension as the spec sheet defines it. */
export type DimensionDefinition = {
  readonly code: string;
  readonly name: string;
  readonly kind: QuantityKind;
  readonly method: Method;
  /** Empty when the readings are another dimension's. */
  readonly positions: readonly Position[];
  /** Code of the dimension whose positions and readings are used (taper uses the bore's); left out: its own. */
  readonly readingsOf?: string;
  readonly limits: Limits;
  readonly rule: DecisionRule;
  readonly material?: PartMaterial;
  readonly plausible?: PlausibleSpan;
  /** A plated surface is never bored or stone-honed to size. */
  readonly plated?: boolean;
};
