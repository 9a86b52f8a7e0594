import { figure } from '#contracts/figures.ts';
import type { CrossCheck } from '#contracts/findings.ts';
import { benchCheckWords } from '#domain/metrology/cross-check-words.ts';
import { type BenchCheck, peopleCheck, taperCheck } from '#domain/metrology/cross-checks.ts';
import { isMeasured } from '#domain/metrology/dimension.ts';
import { evaluateDimension } from '#domain/metrology/evaluate.ts';
import type { Finding } from '#domain/metrology/finding.ts';
import { gatherPositions, type PositionValue } from '#domain/metrology/gathered-positions.ts';
import { mean } from '#domain/metrology/sample-statistics.ts';
import { unitOf } from '#domain/units/unit-table.ts';
import type { DimensionOnSheet, Sheet } from '#features/specs/service.ts';
import { type Material, type Measured, materialOf, type PartOfPlace, sourcesOf } from './material.ts';
import type { InstrumentRow } from './queries.ts';

interface ToCheck {
  readonly sheet: Sheet;
  readonly rows: readonly Measured[];
  readonly register: readonly InstrumentRow[];
  readonly partOf: PartOfPlace;
  readonly material: Material;
  readonly workedOut: readonly { readonly dimension: DimensionOnSheet; readonly finding: Finding }[];
}

const printed = ({ unit, decimals }: DimensionOnSheet, value: number): string =>
  `${figure(value, { unit, decimals })} ${unitOf(unit).symbol}`;

const told = (check: BenchCheck, name: string, dimension: DimensionOnSheet): CrossCheck => ({
  agrees: check.agrees,
  words: benchCheckWords(check, { name, printed: (value) => printed(dimension, value) }),
});

function positionsOf(code: string, { definitions, readings, instruments }: Material): readonly PositionValue[] {
  const definition = definitions.find((known) => known.code === code);
  if (definition === undefined) return [];
  const gathered = gatherPositions(definition, readings, instruments);
  return gathered.ok ? gathered.positions : [];
}

/** Positions at the highest and at the lowest level that was measured; undefined when all are at one. */
function endsOf(positions: readonly PositionValue[]) {
  const levels = positions.flatMap(({ position }) => (position.level === undefined ? [] : [position.level]));
  const at = (level: number) => positions.filter(({ position }) => position.level === level);
  const [top, bottom] = [Math.min(...levels), Math.max(...levels)];
  return levels.length > 0 && top < bottom ? { top: at(top), bottom: at(bottom) } : undefined;
}

const middle = (positions: readonly PositionValue[]): number =>
  mean(positions.map(({ interval }) => (interval.low + interval.high) / 2));

const gapOf = ([position]: readonly PositionValue[]) => ({
  low: position?.interval.low ?? 0,
  high: position !== undefined && Number.isFinite(position.interval.high) ? position.interval.high : null,
});

/** A ring's end gap, squared at two heights of the bore, tells its taper too. */
function gapChecks({ sheet, material, workedOut }: ToCheck): readonly CrossCheck[] {
  const tapers = sheet.dimensions.filter(({ method }) => method.type === 'taper');
  const [taperDimension] = tapers;
  const taper = workedOut.find(({ dimension }) => dimension === taperDimension)?.finding ?? undefined;
  if (tapers.length !== 1 || taperDimension === undefined) return [];
  const bore = endsOf(positionsOf(taperDimension.readingsOf ?? taperDimension.code, material));
  if (bore === undefined) return [];
  const found = taper ?? evaluatedAgain(taperDimension.code, material);
  if (found?.value.type !== 'point') return [];
  const wider = middle(bore.top) >= middle(bore.bottom) ? 1 : -1;
  const signed = {
    value: wider * found.value.value,
    standard: found.uncertainty.standard,
    degreesOfFreedom: found.uncertainty.effectiveDegreesOfFreedom,
  };
  return sheet.dimensions.flatMap((dimension): readonly CrossCheck[] => {
    if (dimension.method.type !== 'interval') return [];
    const ends = endsOf(positionsOf(dimension.code, material));
    if (ends === undefined) return [];
    const check = taperCheck({ top: gapOf(ends.top), bottom: gapOf(ends.bottom) }, signed);
    return [told(check, dimension.name, taperDimension)];
  });
}

const evaluatedAgain = (code: string, material: Material): Finding | undefined => {
  const evaluation = evaluateDimension({
    dimension: code,
    sheet: material.definitions,
    readings: material.readings,
    instruments: material.instruments,
    on: '0000-01-01',
  });
  return evaluation.ok ? evaluation.finding : undefined;
};

/** Where two people measured the whole of a dimension, their results must agree within both uncertainties. */
function agreementChecks(check: ToCheck): readonly CrossCheck[] {
  const { sheet, rows, register, partOf } = check;
  return check.workedOut.flatMap(({ dimension }): readonly CrossCheck[] => {
    if (dimension.readingsOf !== undefined || !isMeasured(dimension.method)) return [];
    const own = rows.filter((row) => sourcesOf(dimension, sheet).includes(row.dimension));
    const people = new Map(own.map(({ readById, readByName }) => [readById, readByName]));
    if (people.size < 2) return [];
    const results = [...people].flatMap(([id, name]) => {
      const readings = own.filter(({ readById }) => readById === id);
      const finding = evaluatedAgain(dimension.code, materialOf({ sheet, readings, register, partOf }));
      return finding?.value.type === 'point'
        ? [
            {
              name,
              value: finding.value.value,
              standard: finding.uncertainty.standard,
              degreesOfFreedom: finding.uncertainty.effectiveDegreesOfFreedom,
            },
          ]
        : [];
    });
    const [first, ...others] = results;
    if (first === undefined) return [];
    return others.flatMap((other) => {
      const check = peopleCheck(first, other);
      return check.agrees ? [] : [told(check, dimension.name, dimension)];
    });
  });
}

export const crossChecksOf = (check: ToCheck): readonly CrossCheck[] => [
  ...gapChecks(check),
  ...agreementChecks(check),
];
