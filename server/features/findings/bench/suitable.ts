import { isMeasured, type Limits } from '#domain/metrology/dimension.ts';
import type { DimensionOnSheet } from '#features/specs/service.ts';
import type { InstrumentRow } from '../judging/queries.ts';

/** Sizes a reading has to tell apart: the bounds, where readings are of the size itself; else what the sheet expects. */
function sizesOf({ method, nominal }: DimensionOnSheet, { standard, service }: Limits): readonly number[] {
  const bounds = [standard.low, standard.high, service.low, service.high].flatMap((bound) =>
    // That a figure is not below nothing needs no gauge.
    bound === undefined || bound <= 0 ? [] : [bound],
  );
  const spread = method.type === 'range' || method.type === 'out-of-round' || method.type === 'taper';
  return bounds.length === 0 || spread ? (nominal === null ? [] : [nominal]) : bounds;
}

const covers = (row: InstrumentRow, sizes: readonly number[]): boolean =>
  sizes.every((size) => row.rangeLow <= size && size <= row.rangeHigh);

/** Codes of instruments, the best first, and those among them whose range does not cover what is to be told apart. */
export interface Suitable {
  readonly instruments: string[];
  readonly outOfReach: string[];
}

/**
 * Instruments a dimension can be measured with. First those whose range covers its limits; among them the sheet's own kind
 * of instrument, then those whose calibration has not run out, then the finest. Of another kind only those that cover it.
 */
export function suitable(dimension: DimensionOnSheet, limits: Limits, register: readonly InstrumentRow[]): Suitable {
  const { method, readingsOf, kind, instrumentKind } = dimension;
  if (readingsOf !== undefined || method.type === 'felt' || !isMeasured(method))
    return { instruments: [], outOfReach: [] };
  const sizes = sizesOf(dimension, limits);
  const isOwn = (row: InstrumentRow) => row.instrumentKind === instrumentKind;
  const ranks = (row: InstrumentRow) => [!covers(row, sizes), !isOwn(row), row.outOfCalibration].map(Number);
  const offered = register
    .filter((row) => !row.retired && row.kind === kind)
    .filter((row) => method.type !== 'interval' || row.blades.length > 0 || isOwn(row))
    .filter((row) => isOwn(row) || covers(row, sizes))
    .toSorted((a, b) => {
      const [of, against] = [ranks(a), ranks(b)];
      const first = of.findIndex((rank, index) => rank !== against[index]);
      return first < 0 ? a.resolution - b.resolution : (of[first] ?? 0) - (against[first] ?? 0);
    });
  return {
    instruments: offered.map(({ code }) => code),
    outOfReach: offered.filter((row) => !covers(row, sizes)).map(({ code }) => code),
  };
}
