import type { Brand } from './brand.ts';

/** What a number measures. Each kind has one base unit in which values are held as whole numbers. */
export type QuantityKind = 'length' | 'torque' | 'pressure' | 'force' | 'angle' | 'volume' | 'ratio' | 'temperature';

export type Nanometres = Brand<number, 'Nanometres'>;
export type MicronewtonMetres = Brand<number, 'MicronewtonMetres'>;
export type Pascals = Brand<number, 'Pascals'>;
export type Millinewtons = Brand<number, 'Millinewtons'>;
export type MicroDegrees = Brand<number, 'MicroDegrees'>;
export type CubicMillimetres = Brand<number, 'CubicMillimetres'>;
export type PartsPerMillion = Brand<number, 'PartsPerMillion'>;
export type Millikelvin = Brand<number, 'Millikelvin'>;

/** The base quantity of each kind. */
export type QuantityOf = {
  readonly length: Nanometres;
  readonly torque: MicronewtonMetres;
  readonly pressure: Pascals;
  readonly force: Millinewtons;
  readonly angle: MicroDegrees;
  readonly volume: CubicMillimetres;
  readonly ratio: PartsPerMillion;
  readonly temperature: Millikelvin;
};

/** A whole number of the base unit of some kind; which kind is said beside it. */
export type BaseQuantity = QuantityOf[QuantityKind];

export const quantityKinds = [
  'length',
  'torque',
  'pressure',
  'force',
  'angle',
  'volume',
  'ratio',
  'temperature',
] as const satisfies readonly QuantityKind[];

/** The kind that a stored text names. @throws RangeError when it is none: a fault of the books, never of a request. */
export const quantityKindOf = (text: string): QuantityKind => {
  const kind = quantityKinds.find((known) => known === text);
  if (kind === undefined) throw new RangeError(`${text} is no kind of quantity`);
  return kind;
};

/**
 * A whole number of base units of a kind (nm, µN·m, Pa, mN, µ°, mm³, ppm, mK).
 * @throws RangeError when the number is not a safe integer, or is a temperature below absolute zero: a fault of the
 * caller, since keyed text goes through parseQuantity.
 */
export const baseQuantity = <K extends QuantityKind>(kind: K, value: number): QuantityOf[K] => {
  if (!Number.isSafeInteger(value)) throw new RangeError(`A ${kind} must be a safe whole number, not ${value}`);
  if (kind === 'temperature' && value < 0) throw new RangeError(`${value} mK is below absolute zero`);
  return (value === 0 ? 0 : value) as QuantityOf[K];
};

/** A length of so many whole nanometres. @throws RangeError when not a safe integer. */
export const nanometres = (value: number): Nanometres => baseQuantity('length', value);
/** A torque of so many whole micronewton metres. @throws RangeError when not a safe integer. */
export const micronewtonMetres = (value: number): MicronewtonMetres => baseQuantity('torque', value);
/** An angle of so many whole millionths of a degree. @throws RangeError when not a safe integer. */
export const microDegrees = (value: number): MicroDegrees => baseQuantity('angle', value);
/** A volume of so many whole cubic millimetres. @throws RangeError when not a safe integer. */
export const cubicMillimetres = (value: number): CubicMillimetres => baseQuantity('volume', value);
/** A ratio of so many whole millionths. @throws RangeError when not a safe integer. */
export const partsPerMillion = (value: number): PartsPerMillion => baseQuantity('ratio', value);
/** A temperature of so many whole millikelvins. @throws RangeError when not a safe integer, or below zero. */
export const millikelvin = (value: number): Millikelvin => baseQuantity('temperature', value);
