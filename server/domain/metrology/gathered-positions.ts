import type { QuantityKind } from '#domain/units/quantity.ts';
import type { DimensionDefinition, PartMaterial, Position } from './dimension.ts';
import { gapInterval } from './feeler.ts';
import type { Refusal, Refused } from './finding.ts';
import type { Instrument } from './instrument.ts';
import { hull, type Interval, pointInterval } from './interval.ts';
import type { Reading } from './reading.ts';
import { mean } from './sample-statistics.ts';
import { type ThermalCorrection, type ThermalMissing, thermalCorrection } from './thermal.ts';

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
  const codes = new Set(readings.map((reading) => reading.instrument));
  if (codes.size > 1) return refused({ reason: 'instruments-mixed', position: expected.position });
  const [code] = codes;
  if (code === undefined) return refused({ reason: 'instrument-not-named', position: expected.position });
  const instrument = instruments.find((candidate) => candidate.code === code);
  if (instrument === undefined) return refused({ reason: 'unknown-instrument', instrument: code });
  const { kindOfQuantity } = instrument;
  return kindOfQuantity === expected.kind
    ? { ok: true, instrument }
    : refused({ reason: 'mixed-kinds', what: code, expected: expected.kind, found: kindOfQuantity });
};

const sourceOf = (
  readings: readonly Reading[],
  instrument: Instrument,
  definition: DimensionDefinition,
): { readonly value: number; readonly source: ValueSource } => {
  const shown = readings.flatMap(({ observation, temperature }) =>
    observation.type === 'value' ? [{ value: observation.value - instrument.zeroError, temperature }] : [],
  );
  const repeats = shown.map(({ value }) => value);
  const outcomes = shown.map(({ temperature }) => thermalCorrection(temperature, definition.material, instrument));
  const corrections = outcomes.flatMap((outcome) => (outcome.ok ? [outcome.correction] : []));
  const average = (pick: (correction: ThermalCorrection) => number): number => mean(corrections.map(pick));
  const all = definition.kind === 'length' && corrections.length === shown.length;
  const missing = outcomes.find((outcome) => !outcome.ok);
  const concerned = definition.material !== undefined || shown.some(({ temperature }) => temperature !== undefined);
  const thermal = all
    ? {
        factor: average(({ factor }) => factor),
        partAlphaSensitivity: average((correction) => correction.partAlphaSensitivity),
        instrumentAlphaSensitivity: average((correction) => correction.instrumentAlphaSensitivity),
        relativePerKelvin: average((correction) => correction.relativePerKelvin),
        uncertaintyKelvin: average((correction) => correction.uncertaintyKelvin),
      }
    : undefined;
  const corrected = repeats.map((value, index) => value * (all ? (corrections[index]?.factor ?? 1) : 1));
  return {
    value: mean(corrected),
    source: {
      instrument,
      settingKey: [instrument.code, ...new Set(readings.map(({ setting }) => setting ?? ''))].join('|'),
      repeats,
      uncorrected: mean(repeats),
      thermal,
      thermalMissing:
        definition.kind === 'length' && concerned && missing !== undefined && !missing.ok ? missing.missing : undefined,
      material: definition.material,
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

const gatherPosition = (
  position: Position,
  readings: readonly Reading[],
  known: { readonly definition: DimensionDefinition; readonly instruments: readonly Instrument[] },
): { readonly ok: true; readonly gathered: PositionValue } | Refused => {
  const { definition, instruments } = known;
  const repeats = new Set<number>();
  for (const { repeat, observation } of readings) {
    if (repeats.has(repeat)) return refused({ reason: 'repeated-twice', position: position.code, repeat });
    repeats.add(repeat);
    if (observation.type === 'felt') {
      return refused({ reason: 'wrong-observation', position: position.code, needed: 'a figure or a feeler interval' });
    }
    if (observation.type === 'value' && !Number.isFinite(observation.value)) {
      return refused({ reason: 'not-a-number', position: position.code });
    }
    if (observation.type === 'value' && observation.value < 0 && !mayBeNegative(definition)) {
      return refused({ reason: 'negative-length', position: position.code });
    }
  }
  const found = instrumentOf(readings, instruments, { kind: definition.kind, position: position.code });
  if (!found.ok) return found;
  const { instrument } = found;
  const intervals: Interval[] = [];
  let outsideRange = false;
  for (const { observation } of readings) {
    if (observation.type === 'interval') {
      const gap = gapInterval(observation, instrument, position.code);
      if (!gap.ok) return gap;
      intervals.push(gap.interval);
    } else if (observation.type === 'value') {
      const { range } = instrument;
      if (range !== undefined && (observation.value < range.low || observation.value > range.high)) outsideRange = true;
    }
  }
  const common = { dimension: definition.code, position, instrument, outsideRange };
  if (intervals.length > 0) {
    const figures = readings.flatMap(({ observation }) =>
      observation.type === 'value' ? [pointInterval(observation.value - instrument.zeroError)] : [],
    );
    return { ok: true, gathered: { ...common, interval: hull([...intervals, ...figures]), source: undefined } };
  }
  const { value, source } = sourceOf(readings, instrument, definition);
  return { ok: true, gathered: { ...common, interval: pointInterval(value), source } };
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
  const own = readings.filter(({ dimension }) => dimension === definition.code);
  const codes = new Set(definition.positions.map(({ code }) => code));
  const stray = own.find(({ position }) => !codes.has(position));
  if (stray !== undefined) {
    return refused({ reason: 'unknown-position', dimension: definition.code, position: stray.position });
  }
  const measured = new Set(own.map(({ position }) => position));
  const missing = definition.positions.filter(({ code }) => !measured.has(code)).map(({ code }) => code);
  if (missing.length > 0 || definition.positions.length === 0) {
    return refused({ reason: 'missing-positions', dimension: definition.code, positions: missing });
  }
  const positions: PositionValue[] = [];
  for (const position of definition.positions) {
    const here = own.filter((reading) => reading.position === position.code);
    const outcome = gatherPosition(position, here, { definition, instruments });
    if (!outcome.ok) return outcome;
    positions.push(outcome.gathered);
  }
  return { ok: true, positions };
};
