import { parseQuantity } from '#domain/units/parse-quantity.ts';
import type { CheckedLimits } from './checked.ts';
import type { Figure, PrintedDimension, PrintedLimits } from './document.ts';
import { type Faults, readPrinted, tellTwice } from './faults.ts';

type Reading = { readonly faults: Faults; readonly pointer: string };

/** What may lie below nothing: a difference (an interference fit), an angle, and a temperature on its own scale. */
const mayBeNegative = ({ method, kind }: PrintedDimension): boolean =>
  method === 'difference' || kind === 'angle' || kind === 'temperature';

/** One figure of a dimension in base units; null: none there; undefined: there, and wrong, which was told. */
export function readFigure(figure: Figure | null, dimension: PrintedDimension, { faults, pointer }: Reading) {
  if (figure === null) return null;
  const base = readPrinted(figure, { kind: dimension.kind, pointer, faults });
  if (base === undefined || base >= 0 || mayBeNegative(dimension)) return base;
  faults.add(`${pointer}/value`, `${figure.value} ${figure.unit} is negative: no ${dimension.kind} is.`);
  return undefined;
}

type Bounds = Readonly<
  Record<'standardLow' | 'standardHigh' | 'serviceLow' | 'serviceHigh', number | null | undefined>
>;
type Side = keyof Bounds;

/** Pairs that must stand in this order, and what is wrong where they don't. Told at the first of the pair. */
const inOrder: readonly (readonly [Side, Side, at: string, detail: string])[] = [
  ['standardLow', 'standardHigh', 'standard/low', 'The standard limits cross: the lower one lies above the upper one.'],
  ['serviceLow', 'serviceHigh', 'service/low', 'The service limits cross: the lower one lies above the upper one.'],
  ['serviceLow', 'standardLow', 'service/low', 'The lower service limit lies inside the standard range.'],
  ['standardHigh', 'serviceHigh', 'service/high', 'The upper service limit lies inside the standard range.'],
  ['standardLow', 'serviceHigh', 'service/high', 'The upper service limit lies below the standard range.'],
  ['serviceLow', 'standardHigh', 'service/low', 'The lower service limit lies above the standard range.'],
];

function tellCrossed(bounds: Bounds, { faults, pointer }: Reading): void {
  for (const [lower, upper, at, detail] of inOrder) {
    const [low, high] = [bounds[lower], bounds[upper]];
    if (typeof low === 'number' && typeof high === 'number' && low > high) {
      faults.add(`${pointer}/${at}`, detail);
      return;
    }
  }
}

function readLimits(printed: PrintedLimits, dimension: PrintedDimension, at: Reading): CheckedLimits {
  const figure = (where: string, of: Figure | null) =>
    readFigure(of, dimension, { faults: at.faults, pointer: `${at.pointer}/${where}` });
  const bounds = {
    standardLow: figure('standard/low', printed.standard.low),
    standardHigh: figure('standard/high', printed.standard.high),
    serviceLow: figure('service/low', printed.service.low),
    serviceHigh: figure('service/high', printed.service.high),
  };
  if (Object.values(bounds).every((bound) => bound === null)) {
    at.faults.add(
      at.pointer,
      `The size class "${printed.sizeClass}" has no limit at all. Give it one, or leave it out.`,
    );
  }
  tellCrossed(bounds, at);
  return {
    sizeClass: printed.sizeClass,
    standardLow: bounds.standardLow ?? null,
    standardHigh: bounds.standardHigh ?? null,
    serviceLow: bounds.serviceLow ?? null,
    serviceHigh: bounds.serviceHigh ?? null,
  };
}

/** The limits of a dimension by size class, in base units. Tells what can't be read, is negative, or crosses. */
export function checkLimits(dimension: PrintedDimension, { faults, pointer }: Reading): readonly CheckedLimits[] {
  tellTwice(
    dimension.limits.map(({ sizeClass }) => sizeClass),
    faults,
    (index) => `${pointer}/limits/${index}/sizeClass`,
  );
  return dimension.limits.map((limits, index) =>
    readLimits(limits, dimension, { faults, pointer: `${pointer}/limits/${index}` }),
  );
}

/** A span is a difference: on a temperature scale its offset is left out. */
function readSpan(figure: Figure, dimension: PrintedDimension, { faults, pointer }: Reading): number | undefined {
  const base = readPrinted(figure, { kind: dimension.kind, pointer, faults });
  if (base === undefined) return undefined;
  const nothing = parseQuantity('0', figure.unit, dimension.kind);
  const span = base - (nothing.ok ? nothing.value : 0);
  if (span > 0) return span;
  faults.add(`${pointer}/value`, 'The span of what is possible must be above nothing.');
  return undefined;
}

/** What a reading can possibly be: nominal ± span, base units; the span stands only beside a nominal. */
export function checkPlausible(dimension: PrintedDimension, { faults, pointer }: Reading) {
  const nominal = readFigure(dimension.nominal, dimension, { faults, pointer: `${pointer}/nominal` }) ?? null;
  const { plausibleSpan } = dimension;
  if (plausibleSpan === null) return { nominal, plausibleSpan: null };
  const at = `${pointer}/plausibleSpan`;
  const span = readSpan(plausibleSpan, dimension, { faults, pointer: at }) ?? null;
  if (dimension.nominal === null) faults.add(at, 'A span of what is possible needs a nominal figure to lie about.');
  return { nominal, plausibleSpan: span };
}
