import type { DimensionDefinition, Limits, Method, Position } from '#domain/metrology/dimension.ts';
import { evaluateDimension } from '#domain/metrology/evaluate.ts';
import type { Finding, Refusal } from '#domain/metrology/finding.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { Observation, Reading } from '#domain/metrology/reading.ts';
import { type Nanometres, nanometres } from '#domain/units/quantity.ts';

/** Millimetres as the nanometres they are, to the nearest. */
export const mm = (millimetres: number): Nanometres => nanometres(Math.round(millimetres * 1e6));

/** The instrument of the trade notes' check value: resolution 0.001, MPE 0.003, s 0.0012 mm. */
export const boreGauge: Instrument = {
  code: 'bore gauge 1',
  kind: 'dial bore gauge',
  kindOfQuantity: 'length',
  resolution: mm(0.001),
  mpe: mm(0.003),
  repeatability: { sd: mm(0.0012) },
  zeroError: 0,
  masterUncertainty: 0,
  alphaPerKelvin: 11.5e-6,
  calibrationDue: '2030-01-01',
};

export const micrometer: Instrument = { ...boreGauge, code: 'micrometer 1', kind: 'micrometer' };

export const feelers: Instrument = {
  ...boreGauge,
  code: 'feelers 1',
  kind: 'feeler set',
  blades: [0.05, 0.08, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5].map((thickness) => ({
    thickness: mm(thickness),
    tolerance: mm(0.002),
  })),
};

export const upTo = (standard: number | undefined, service: number | undefined): Limits => ({
  standard: standard === undefined ? {} : { high: mm(standard) },
  service: service === undefined ? {} : { high: mm(service) },
});

export const boreLimits: Limits = {
  standard: { low: mm(96), high: mm(96.02) },
  service: { high: mm(96.1) },
};

/** Three levels by two axes: 'x1' … 'y3', level 1 on top. */
export const borePositions: readonly Position[] = ['x', 'y'].flatMap((axis) =>
  [1, 2, 3].map((level) => ({ code: `${axis}${level}`, level, axis })),
);

export const dimension = (
  code: string,
  method: Method,
  parts: Partial<DimensionDefinition> & { readonly limits: Limits },
): DimensionDefinition => ({
  code,
  name: code,
  kind: 'length',
  method,
  positions: [{ code: 'p1' }],
  rule: 'iso-14253-1-2017',
  ...parts,
});

export const bore = dimension(
  'bore',
  { type: 'size', rule: 'per-level' },
  { positions: borePositions, limits: boreLimits },
);

export const shown = (value: number): Observation => ({ type: 'value', value: nanometres(value) });

export const gap = (low: number, high: number | null): Observation => ({
  type: 'interval',
  low: mm(low),
  high: high === null ? null : mm(high),
});

export const readingOf = (
  of: string,
  position: string,
  observation: Observation,
  parts: Partial<Reading> = {},
): Reading => ({ dimension: of, position, repeat: 1, observation, instrument: boreGauge.code, ...parts });

/** Readings of the bore in millimetres by axis, top to bottom. */
export const boreReadings = (x: readonly number[], y: readonly number[]): readonly Reading[] =>
  [x, y].flatMap((values, axis) =>
    values.map((value, index) => readingOf('bore', `${axis === 0 ? 'x' : 'y'}${index + 1}`, shown(mm(value)))),
  );

/** Repeats of one position, base units. */
export const repeated = (of: string, values: readonly number[], parts: Partial<Reading> = {}): readonly Reading[] =>
  values.map((value, index) => readingOf(of, 'p1', shown(value), { repeat: index + 1, ...parts }));

const evaluateOn = (
  code: string,
  sheet: readonly DimensionDefinition[],
  readings: readonly Reading[],
  more: readonly Instrument[],
) =>
  evaluateDimension({
    dimension: code,
    sheet,
    readings,
    instruments: [...more, boreGauge, micrometer, feelers],
    on: '2026-03-02',
  });

/** The finding, where there must be one. Instruments given here stand before the bench's own of the same code. */
export const findingOf = (
  code: string,
  sheet: readonly DimensionDefinition[],
  readings: readonly Reading[],
  more: readonly Instrument[] = [],
): Finding => {
  const evaluation = evaluateOn(code, sheet, readings, more);
  if (!evaluation.ok) throw new Error(JSON.stringify(evaluation.refusal));
  return evaluation.finding;
};

export const refusalOf = (
  code: string,
  sheet: readonly DimensionDefinition[],
  readings: readonly Reading[],
  more: readonly Instrument[] = [],
): Refusal => {
  const evaluation = evaluateOn(code, sheet, readings, more);
  if (evaluation.ok) throw new Error(`Not refused: ${evaluation.finding.verdict}`);
  return evaluation.refusal;
};
