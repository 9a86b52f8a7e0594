import { formatQuantity } from '#domain/units/format-quantity.ts';
import type { QuantityKind, QuantityOf } from '#domain/units/quantity.ts';
import type { UnitCode } from '#domain/units/unit-table.ts';
import type { BoreSize } from '../bore-comparison.ts';
import type { LiftPoint } from '../valve-lift.ts';
import type { CautionCode } from './cautions.ts';
import type { InputFault } from './faults.ts';

/** What one input is: a quantity with its unit, a plain number, whole pieces, or a table. */
export interface InputSorts {
  readonly length: QuantityOf['length'];
  readonly angle: QuantityOf['angle'];
  readonly volume: QuantityOf['volume'];
  readonly number: number;
  readonly count: number;
  readonly 'lift-table': readonly LiftPoint[];
  readonly bores: readonly BoreSize[];
}
export type InputSort = keyof InputSorts;

/** One input of a calculation. Bounds are in base units (a number as it is) and belong to it, unless `above` says else. */
export interface Input<Sort extends InputSort = InputSort, Optional extends boolean = boolean> {
  readonly sort: Sort;
  readonly optional: Optional;
  readonly least: number;
  readonly most: number;
  /** The least itself is refused: it must be more. */
  readonly above: boolean;
  /** Taken where nothing is given, as it would be typed; it stands in the form from the start. */
  readonly usual?: string;
  /** The unit of a plain number. */
  readonly unit?: string;
}
export type Inputs = Readonly<Record<string, Input>>;

/** The read inputs of a calculation, in whole base units. */
export type ValuesOf<I extends Inputs> = {
  readonly [K in keyof I]: I[K] extends Input<infer Sort, infer Optional>
    ? InputSorts[Sort] | (Optional extends true ? undefined : never)
    : never;
};

/** How a result is written: a quantity held in base units of its unit, or a plain number with a unit of its own. */
export interface Figure {
  readonly unit: UnitCode | 'm/s' | 'm/s2' | 'gn' | 'g';
  readonly decimals: number;
  readonly plain: boolean;
}
export type Figures = Readonly<Record<string, Figure>>;
export type FiguresOf<F extends Figures> = { readonly [K in keyof F]: number | undefined };

/** What came out: results (undefined where an input that they need was left out), lines of a comparison, cautions. */
export interface WorkedOut<F extends Figures, R extends Figures> {
  readonly ok: true;
  readonly figures: FiguresOf<F>;
  readonly rows: readonly { readonly name: string; readonly figures: FiguresOf<R> }[];
  readonly cautions: readonly CautionCode[];
}
export type Refused = { readonly ok: false; readonly faults: readonly InputFault[] };

/** One calculation of a build: its inputs, its results and the one function that gets from these to those. */
export interface Calculation<
  I extends Inputs = Inputs,
  F extends Figures = Figures,
  R extends Figures = Record<never, never>,
> {
  readonly inputs: I;
  readonly figures: F;
  /** The results of each line, where several sizes are compared. */
  readonly rows: R;
  readonly work: (values: ValuesOf<I>) => WorkedOut<F, R> | Refused;
}

/** States a calculation, so that the compiler holds its function against its inputs and results. */
export const calculation = <I extends Inputs, F extends Figures, R extends Figures>(
  stated: Calculation<I, F, R>,
): Calculation<I, F, R> => stated;

type Bounds = { readonly least?: number; readonly most?: number; readonly above?: boolean; readonly usual?: string };

const tenMetres = 10_000_000_000;
const limits = {
  length: { least: 0, most: tenMetres },
  angle: { least: -360_000_000, most: 360_000_000 },
  volume: { least: 0, most: 1_000_000_000 },
  number: { least: 0, most: 1_000_000 },
  count: { least: 1, most: 100 },
} as const;

/** An input that has to be given. */
export const needed = <Sort extends keyof typeof limits>(
  sort: Sort,
  bounds: Bounds & { readonly unit?: string } = {},
): Input<Sort, false> => ({ sort, optional: false, ...limits[sort], above: false, ...bounds });

/** An input that may be left out. */
export const optional = <Sort extends keyof typeof limits>(
  sort: Sort,
  bounds: Bounds & { readonly unit?: string } = {},
): Input<Sort, true> => ({ sort, optional: true, ...limits[sort], above: false, ...bounds });

/** A table that has to be given. */
export const table = <Sort extends 'lift-table' | 'bores'>(sort: Sort): Input<Sort, false> => ({
  sort,
  optional: false,
  least: 0,
  most: 0,
  above: false,
});

/** A result in a unit of the table of units; it is held in base units. */
export const figureIn = (unit: UnitCode, decimals: number): Figure => ({ unit, decimals, plain: false });
/** A result that is a plain number in the unit. */
export const plainFigure = (unit: Figure['unit'], decimals: number): Figure => ({ unit, decimals, plain: true });

/** Writes one result: figure and unit, rounded to its decimals. */
export function writeFigure(figure: Figure, value: number): { readonly value: string; readonly unit: string } {
  const { unit, decimals, plain } = figure;
  const asRatio = formatQuantity(plain ? Math.round(value * 1e9) / 1e3 : 0, '1', decimals);
  return { value: plain ? asRatio : formatQuantity(value, unit as UnitCode, decimals), unit };
}

/** All results of a calculation, written; null where one was not asked for. */
export function writeFigures<F extends Figures>(
  figures: F,
  values: FiguresOf<F>,
): Readonly<Record<string, { readonly value: string; readonly unit: string } | null>> {
  return Object.fromEntries(
    Object.entries(figures).map(([code, figure]) => {
      const value = values[code];
      return [code, value === undefined ? null : writeFigure(figure, value)];
    }),
  );
}

/** The kind of quantity of an input's sort, where it is one. */
export const kindOfSort = (sort: InputSort): QuantityKind | undefined =>
  sort === 'length' || sort === 'angle' || sort === 'volume' ? sort : undefined;
