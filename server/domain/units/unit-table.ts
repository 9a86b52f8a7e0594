import type { QuantityKind } from './quantity.ts';

/**
 * A unit: `numerator / denominator` base units of its kind make one, exactly; a temperature scale also has an offset
 * in base units (`offsetNumerator / offsetDenominator`), added after the factor.
 */
export type Unit = {
  readonly code: string;
  readonly kind: QuantityKind;
  readonly symbol: string;
  readonly numerator: bigint;
  readonly denominator: bigint;
  readonly offsetNumerator: bigint;
  readonly offsetDenominator: bigint;
};

type Factor = readonly [kind: QuantityKind, symbol: string, numerator: bigint, denominator: bigint];

// Exact by definition: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, standard gravity 9.806 65 m/s², 1 US gallon = 231 in³ of
// 128 fluid ounces, 1 imperial gallon = 4.546 09 L of 160 (NIST SP 811, app. B).
const factors = {
  mm: ['length', 'mm', 1_000_000n, 1n],
  um: ['length', 'µm', 1_000n, 1n],
  cm: ['length', 'cm', 10_000_000n, 1n],
  m: ['length', 'm', 1_000_000_000n, 1n],
  in: ['length', 'in', 25_400_000n, 1n],
  thou: ['length', 'thou', 25_400n, 1n],
  'N.m': ['torque', 'N·m', 1_000_000n, 1n],
  'N.cm': ['torque', 'N·cm', 10_000n, 1n],
  'lbf.ft': ['torque', 'lbf·ft', 3_389_544_870_828_501n, 2_500_000_000n],
  'lbf.in': ['torque', 'lbf·in', 1_129_848_290_276_167n, 10_000_000_000n],
  'kgf.m': ['torque', 'kgf·m', 9_806_650n, 1n],
  'kgf.cm': ['torque', 'kgf·cm', 196_133n, 2n],
  Pa: ['pressure', 'Pa', 1n, 1n],
  kPa: ['pressure', 'kPa', 1_000n, 1n],
  MPa: ['pressure', 'MPa', 1_000_000n, 1n],
  bar: ['pressure', 'bar', 100_000n, 1n],
  psi: ['pressure', 'psi', 8_896_443_230_521n, 1_290_320_000n],
  'kgf/cm2': ['pressure', 'kgf/cm²', 196_133n, 2n],
  N: ['force', 'N', 1_000n, 1n],
  kN: ['force', 'kN', 1_000_000n, 1n],
  kgf: ['force', 'kgf', 196_133n, 20n],
  lbf: ['force', 'lbf', 8_896_443_230_521n, 2_000_000_000n],
  deg: ['angle', '°', 1_000_000n, 1n],
  cm3: ['volume', 'cm³', 1_000n, 1n],
  mm3: ['volume', 'mm³', 1n, 1n],
  mL: ['volume', 'mL', 1_000n, 1n],
  L: ['volume', 'L', 1_000_000n, 1n],
  in3: ['volume', 'in³', 2_048_383n, 125n],
  'floz-us': ['volume', 'US fl oz', 473_176_473n, 16_000n],
  'qt-us': ['volume', 'US qt', 473_176_473n, 500n],
  'gal-us': ['volume', 'US gal', 473_176_473n, 125n],
  'floz-imp': ['volume', 'imp fl oz', 454_609n, 16n],
  'pt-imp': ['volume', 'imp pt', 2_273_045n, 4n],
  'gal-imp': ['volume', 'imp gal', 4_546_090n, 1n],
  '%': ['ratio', '%', 10_000n, 1n],
  ppm: ['ratio', 'ppm', 1n, 1n],
  '1': ['ratio', '', 1_000_000n, 1n],
  K: ['temperature', 'K', 1_000n, 1n],
  degC: ['temperature', '°C', 1_000n, 1n],
  degF: ['temperature', '°F', 5_000n, 9n],
} as const satisfies Record<string, Factor>;

/** The ASCII code of a unit this program knows. */
export type UnitCode = keyof typeof factors;

const offsets: Partial<Record<UnitCode, readonly [bigint, bigint]>> = {
  degC: [273_150n, 1n],
  degF: [2_298_350n, 9n],
};

const isUnitCode = (code: string): code is UnitCode => Object.hasOwn(factors, code);

/** Every unit code, in the order in which a choice should show them. */
export const unitCodes: readonly UnitCode[] = Object.keys(factors).filter(isUnitCode);

/** The unit of a code that the compiler has checked. */
export const unitOf = (code: UnitCode): Unit => {
  const [kind, symbol, numerator, denominator] = factors[code];
  const [offsetNumerator, offsetDenominator] = offsets[code] ?? [0n, 1n];
  return { code, kind, symbol, numerator, denominator, offsetNumerator, offsetDenominator };
};

/** The code when `text` is the code of a known unit (ASCII, exact case: 'mm', 'N.m', 'degC'), else undefined. */
export const findUnitCode = (text: string): UnitCode | undefined => (isUnitCode(text) ? text : undefined);

/** The code that a stored text stands for. @throws RangeError when it is none: a fault of the books, never of a request. */
export const unitCodeOf = (text: string): UnitCode => {
  if (!isUnitCode(text)) throw new RangeError(`${text} is no unit known here`);
  return text;
};

/** The codes of the units that measure a kind. */
export const unitsOfKind = (kind: QuantityKind): readonly UnitCode[] =>
  unitCodes.filter((code) => factors[code][0] === kind);
