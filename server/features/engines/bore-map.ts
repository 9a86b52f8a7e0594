import type { BoreMap } from '#contracts/engines.ts';
import { rounded, roundedOrNull } from '#contracts/figures.ts';
import type { PartMaterial } from '#domain/metrology/dimension.ts';
import { mean } from '#domain/metrology/sample-statistics.ts';
import { thermalCorrection } from '#domain/metrology/thermal.ts';
import { millikelvin } from '#domain/units/quantity.ts';
import { lengthOf, measuredValue } from '#features/floor/service.ts';
import type { DimensionOnSheet, Sheet } from '#features/specs/service.ts';
import type { BoreReadingRow, FindingRow } from './finding-queries.ts';

interface Corrected {
  readonly value: number;
  readonly at20Degrees: boolean;
}

function materialOf({ place }: DimensionOnSheet): PartMaterial | undefined {
  const { alphaPerKelvin, alphaUncertaintyPerKelvin } = place;
  return alphaPerKelvin === undefined ? undefined : { alphaPerKelvin, alphaUncertaintyPerKelvin };
}

/** The factor to 20 °C, or undefined where a temperature or an expansion isn't known. */
function factorOf(row: BoreReadingRow, material: PartMaterial | undefined): number | undefined {
  const { partMk, instrumentMk, temperatureUMk } = row;
  const temperature =
    partMk === null || instrumentMk === null
      ? undefined
      : {
          part: millikelvin(partMk),
          instrument: millikelvin(instrumentMk),
          uncertaintyKelvin: (temperatureUMk ?? 0) / 1000,
        };
  const outcome = thermalCorrection(temperature, material, {
    code: row.instrument,
    kind: '',
    kindOfQuantity: 'length',
    resolution: 0,
    mpe: 0,
    zeroError: row.zeroError,
    masterUncertainty: 0,
    alphaPerKelvin: row.alphaPpb / 1e9,
  });
  return outcome.ok ? outcome.correction.factor : undefined;
}

/** The repeats at one position as its finding takes them: zero error off, to 20 °C if all of them can be. */
function correctedMean(rows: readonly BoreReadingRow[], material: PartMaterial | undefined): Corrected {
  const factors = rows.map((row) => factorOf(row, material));
  const at20Degrees = factors.every((factor) => factor !== undefined);
  const values = rows.map(
    ({ value, zeroError }, index) => (value - zeroError) * (at20Degrees ? (factors[index] ?? 1) : 1),
  );
  return { value: mean(values), at20Degrees };
}

/** Dimensions read at heights and along axes, which can be drawn as a map. */
export const mappedDimensions = (sheet: Sheet): readonly DimensionOnSheet[] =>
  sheet.dimensions.filter(
    ({ method, positions }) =>
      method.type === 'size' && positions.some(({ level, axis }) => level !== undefined && axis !== undefined),
  );

export interface BoreFound {
  readonly finding: FindingRow;
  readonly readings: readonly BoreReadingRow[];
  /** Findings of the same visit and round. */
  readonly beside: readonly FindingRow[];
}

export function boreMapOf(
  dimension: DimensionOnSheet,
  sheet: Sheet,
  { finding, readings, beside }: BoreFound,
): BoreMap {
  const material = materialOf(dimension);
  const placed = dimension.positions.flatMap(({ code, level, axis, heightNm }) => {
    const here = readings.filter(({ position }) => position === code);
    if (level === undefined || axis === undefined || here.length === 0) return [];
    return [{ level, axis, heightNm, ...correctedMean(here, material) }];
  });
  const byMethod = (method: 'out-of-round' | 'taper') => {
    const sister = sheet.dimensions.find(
      (other) => other.readingsOf === dimension.code && other.method.type === method,
    );
    const row = beside.find((other) => other.dimension === sister?.code);
    return row === undefined ? null : measuredValue(row);
  };
  const levels = [...new Set(placed.map(({ level }) => level))].toSorted((a, b) => a - b);
  return {
    dimension: dimension.code,
    name: dimension.name,
    findingId: finding.id,
    round: finding.round,
    nominal: roundedOrNull(dimension.nominal, dimension),
    axes: [...new Set(placed.map(({ axis }) => axis))],
    levels: levels.map((level) => {
      const here = placed.filter((position) => position.level === level);
      const height = here.find(({ heightNm }) => heightNm !== null)?.heightNm;
      return {
        level,
        height: height === undefined || height === null ? null : lengthOf(height),
        values: here.map(({ axis, value }) => ({ axis, value: rounded(value, dimension) })),
      };
    }),
    outOfRound: byMethod('out-of-round'),
    taper: byMethod('taper'),
    correctedTo20Degrees: placed.every(({ at20Degrees }) => at20Degrees),
  };
}
