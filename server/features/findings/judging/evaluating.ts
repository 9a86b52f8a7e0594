import type { CrossCheck, MissingPositions } from '#contracts/findings.ts';
import { evaluateDimension } from '#domain/metrology/evaluate.ts';
import type { Evaluation, Finding, Refusal } from '#domain/metrology/finding.ts';
import { refusalText } from '#domain/metrology/wording.ts';
import { type Round, rounds } from '#domain/obligations/disposition.ts';
import type { DimensionOnSheet, Sheet } from '#features/specs/service.ts';
import { crossChecksOf } from './cross-checks.ts';
import { type Material, type Measured, materialOf, type PartOfPlace, sourcesOf } from './material.ts';
import type { InstrumentRow } from './queries.ts';

export interface RoundRead<Row extends Measured> {
  readonly sheet: Sheet;
  /** Standing readings of one round. */
  readonly rows: readonly Row[];
  readonly register: readonly InstrumentRow[];
  readonly partOf: PartOfPlace;
  /** Codes of the dimensions whose readings changed. */
  readonly touched: ReadonlySet<string>;
  /** Standing readings of the rounds before it, the newest round last. */
  readonly earlier: readonly (readonly Measured[])[];
}

/** The readings of the rounds that come before one. */
export function roundsBefore<Row extends { readonly round: Round }>(
  round: Round,
  rows: readonly Row[],
): readonly (readonly Row[])[] {
  return rounds.slice(0, rounds.indexOf(round)).map((before) => rows.filter((row) => row.round === before));
}

export interface WorkedOut<Row extends Measured> {
  readonly dimension: DimensionOnSheet;
  readonly finding: Finding;
  /** The readings it rests on. */
  readonly rows: readonly Row[];
}

export interface Evaluated<Row extends Measured> {
  readonly workedOut: readonly WorkedOut<Row>[];
  readonly missing: readonly MissingPositions[];
  readonly crossChecks: readonly CrossCheck[];
}

const missingOf = (dimension: DimensionOnSheet, refusal: Refusal): MissingPositions => ({
  dimension: dimension.code,
  name: dimension.name,
  positions: refusal.reason === 'missing-positions' ? [...refusal.positions] : [],
  words: refusalText(refusal),
});

/** The day whose calibration counts: that on which the latest of the readings was taken. */
const dayOf = (rows: readonly Measured[]): string =>
  rows
    .map(({ readOn }) => readOn)
    .toSorted()
    .at(-1) ?? '0000-01-01';

const evaluated = (dimension: DimensionOnSheet, material: Material, rows: readonly Measured[]): Evaluation =>
  evaluateDimension({
    dimension: dimension.code,
    sheet: material.definitions,
    readings: material.readings,
    instruments: material.instruments,
    on: dayOf(rows),
  });

/** Works out every dimension of the sheet that the touched ones have a part in, derived ones too. */
export function evaluateTouched<Row extends Measured>(round: RoundRead<Row>): Evaluated<Row> {
  const { sheet, rows, register, partOf, touched } = round;
  const material = materialOf({ sheet, readings: rows, register, partOf });
  const workedOut: WorkedOut<Row>[] = [];
  const missing: MissingPositions[] = [];
  for (const dimension of sheet.dimensions) {
    const sources = sourcesOf(dimension, sheet);
    if (!sources.some((code) => touched.has(code))) continue;
    const own = rows.filter((row) => sources.includes(row.dimension) && ofThesePartsIn(row, sheet, partOf));
    const evaluation = evaluated(dimension, material, own);
    if (evaluation.ok) workedOut.push({ dimension, finding: evaluation.finding, rows: own });
    else missing.push(missingOf(dimension, evaluation.refusal));
  }
  return { workedOut, missing, crossChecks: crossChecksOf({ ...round, material, on: dayOf(rows) }) };
}

const ofThesePartsIn = (row: Measured, sheet: Sheet, partOf: PartOfPlace): boolean => {
  const place = sheet.dimensions.find(({ code }) => code === row.dimension)?.place.code;
  return row.fittedPartId === null || (place !== undefined && partOf(place)?.id === row.fittedPartId);
};
