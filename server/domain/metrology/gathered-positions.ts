import type { QuantityKind } from '#domain/units/quantity.ts';
import type { DimensionDefinition, PartMaterial, Position } from './dimension.ts';
import { gapInterval } from './feeler.ts';
import type { Refusal, Refused } from './finding.ts';
import type { Instrument } from './instrument.ts';
import { hull, type Interval, pointInterval } from './interval.ts';
import type { Reading } from './reading.ts';
import { mean } from './sample-statistics.ts';
import { type ThermalCorrection, type ThermalMissing, type ThermalOutcome, thermalCorrection } from './thermal.ts';

/** What a gauge's figure rests on; a feeler's interval has none, since its uncertainty is in its width. */
export type ValueSource = {
  readonly instrument: Instrument;
  /** Readings that share it share the gauge's zero and setting error. */
  readonly settingKey: string;
  /** Each repeat, less the zero error, before any thermal correction. */
  readonly repeats: readonly number[];
  readonly uncorrected: number;
  readonly thermal: ThermalCorrection | undefined;
  readonly thermalMissing: ThermalMissing | undefined;
  readonly material: PartMaterial | undefined;
};

/** All readings at one position, brought together. */
export type PositionValue = {
  readonly dimension: string;
  readonly position: Position;
  readonly interval: Interval;
  readonly instrument: Instrument;
  readonly outsideRange: boolean;
  readonly source: ValueSource | undefined;
};

export type Gathered = { readonly ok: true; readonly positions: readonly PositionValue[] } | Refused;

const refused = (refusal: Refusal): Refused => ({ ok: false, refusal });

const instrumentOf = (
  readings: readonly Reading[],
  instruments: readonly Instrument[],
  expected: { readonly kind: QuantityKind; readonly position: string },
): { readonly ok: true; readonly instrument: Instrument } | Refused => {
  const code = readings[0]?.instrument;
  if (readings.some(({ instrument }) => instrument !== code)) {
    return refused({ reason: 'instruments-mixed', position: expected.position });
  }
  if (code === undefined) return refused({ reason: 'instrument-not-named', position: expected.position });
  const instrument = instruments.find((candidate) => candidate.code === code);
  if (instrument === undefined) return refused({ reason: 'unknown-instrument', instrument: code });
  const { kindOfQuantity } = instrument;
  return kindOfQuantity === expected.kind
    ? { ok: true, instrument }
    : refused({ reason: 'mixed-kinds', what: code, expected: expected.kind, found: kindOfQuantity });
};

/** Mean over the readings of a correction's figures; undefined unless every reading has one. */
const meanCorrection = (outcomes: readonly ThermalOutcome[]): ThermalCorrection | undefined => {
  const corrections: ThermalCorrection[] = [];
  for (const outcome of outcomes) {
    if (!outcome.ok) return undefined;
    corrections.push(outcome.correction);
  }
  const first = corrections[0];
  if (first === undefined || corrections.length === 1) return first;
  return {
    factor: mean(corrections.map(({ factor }) => factor)),
    partAlphaSensitivity: mean(corrections.map(({ partAlphaSensitivity }) => partAlphaSensitivity)),
    instrumentAlphaSensitivity: mean(corrections.map(({ instrumentAlphaSensitivity }) => instrumentAlphaSensitivity)),
    relativePerKelvin: mean(corrections.map(({ relativePerKelvin }) => relativePerKelvin)),
    uncertaintyKelvin: mean(corrections.map(({ uncertaintyKelvin }) => uncertaintyKelvin)),
  };
};

const settingKeyOf = (readings: readonly Reading[], { code }: Instrument): string => {
  const first = readings[0]?.setting ?? '';
  if (readings.every(({ setting }) => (setting ?? '') === first)) return `${code}|${first}`;
  return [code, ...new Set(readings.map(({ setting }) => setting ?? ''))].join('|');
};

const sourceOf = (
  readings: readonly Reading[],
  instrument: Instrument,
  definition: DimensionDefinition,
): { readonly value: number; readonly source: ValueSource } => {
  const { material } = definition;
  const repeats: number[] = [];
  const outcomes: ThermalOutcome[] = [];
  let warmed = material !== undefined;
  for (const { observation, temperature } of readings) {
    if (observation.type !== 'value') continue;
    repeats.push(observation.value - instrument.zeroError);
    outcomes.push(thermalCorrection(temperature, material, instrument));
    warmed ||= temperature !== undefined;
  }
  const isLength = definition.kind === 'length';
  const thermal = isLength ? meanCorrection(outcomes) : undefined;
  const missing = outcomes.find((outcome) => !outcome.ok);
  const uncorrected = mean(repeats);
  const corrected = (value: number, index: number): number => {
    const outcome = outcomes[index];
    return outcome?.ok ? value * outcome.correction.factor : value;
  };
  return {
    value: thermal === undefined ? uncorrected : mean(repeats.map(corrected)),
    source: {
      instrument,
      settingKey: settingKeyOf(readings, instrument),
      repeats,
      uncorrected,
      thermal,
      thermalMissing: isLength && warmed && missing !== undefined && !missing.ok ? missing.missing : undefined,
      material,
    },
  };
};

/** A dial shows both ways, and a sheet may say of a dimension that it lies on either side of nothing. */
const mayBeNegative = ({ kind, method, limits, plausible }: DimensionDefinition): boolean =>
  kind !== 'length' ||
  method.type === 'range' ||
  [limits.standard.low, limits.standard.high, limits.service.low, limits.service.high].some(
    (limit) => limit !== undefined && limit < 0,
  ) ||
  (plausible !== undefined && plausible.nominal - plausible.span < 0);

type Known = { readonly definition: DimensionDefinition; readonly instruments: readonly Instrument[] };

/** What is wrong with the readings at one position as they are; undefined: they can be used. */
const readingsFault = (
  position: Position,
  readings: readonly Reading[],
  definition: DimensionDefinition,
): Refusal | undefined => {
  const repeats = new Set<number>();
  for (const { repeat, observation } of readings) {
    if (repeats.has(repeat)) return { reason: 'repeated-twice', position: position.code, repeat };
    repeats.add(repeat);
    if (observation.type === 'felt') {
      return { reason: 'wrong-observation', position: position.code, needed: 'a figure or a feeler interval' };
    }
    if (observation.type !== 'value') continue;
    if (!Number.isFinite(observation.value)) return { reason: 'not-a-number', position: position.code };
    if (observation.value < 0 && !mayBeNegative(definition)) {
      return { reason: 'negative-length', position: position.code };
    }
  }
  return undefined;
};

const gatherPosition = (
  position: Position,
  readings: readonly Reading[],
  { definition, instruments }: Known,
): { readonly ok: true; readonly gathered: PositionValue } | Refused => {
  const fault = readingsFault(position, readings, definition);
  if (fault !== undefined) return refused(fault);
  const found = instrumentOf(readings, instruments, { kind: definition.kind, position: position.code });
  if (!found.ok) return found;
  const { instrument } = found;
  const { range } = instrument;
  const dimension = definition.code;
  const intervals: Interval[] = [];
  const figures: Interval[] = [];
  let outsideRange = false;
  for (const { observation } of readings) {
    if (observation.type === 'interval') {
      const gap = gapInterval(observation, instrument, position.code);
      if (!gap.ok) return gap;
      intervals.push(gap.interval);
    } else if (observation.type === 'value') {
      if (range !== undefined && (observation.value < range.low || observation.value > range.high)) outsideRange = true;
      figures.push(pointInterval(observation.value - instrument.zeroError));
    }
  }
  if (intervals.length > 0) {
    const interval = hull([...intervals, ...figures]);
    return { ok: true, gathered: { dimension, position, interval, instrument, outsideRange, source: undefined } };
  }
  const { value, source } = sourceOf(readings, instrument, definition);
  const interval = pointInterval(value);
  return { ok: true, gathered: { dimension, position, interval, instrument, outsideRange, source } };
};

/**
 * Brings the readings of one dimension together by position: zero error taken off, corrected to 20 °C where
 * temperature and expansions are known, repeats averaged; feeler intervals widened by their blades' tolerances and
 * held together by their hull. Base units. Refuses what is missing, unknown, doubled or of another kind.
 */
export const gatherPositions = (
  definition: DimensionDefinition,
  readings: readonly Reading[],
  instruments: readonly Instrument[],
): Gathered => {
  const { code: dimension } = definition;
  const byPosition = new Map<string, Reading[]>(definition.positions.map(({ code }) => [code, []]));
  for (const reading of readings) {
    if (reading.dimension !== dimension) continue;
    const here = byPosition.get(reading.position);
    if (here === undefined) return refused({ reason: 'unknown-position', dimension, position: reading.position });
    here.push(reading);
  }
  const missing = definition.positions.filter(({ code }) => byPosition.get(code)?.length === 0);
  if (missing.length > 0 || definition.positions.length === 0) {
    return refused({ reason: 'missing-positions', dimension, positions: missing.map(({ code }) => code) });
  }
  const positions: PositionValue[] = [];
  const known = { definition, instruments };
  for (const position of definition.positions) {
    const outcome = gatherPosition(position, byPosition.get(position.code) ?? [], known);
    if (!outcome.ok) return outcome;
    positions.push(outcome.gathered);
  }
  return { ok: true, positions };
};
