import type { DimensionDefinition } from '#domain/metrology/dimension.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { Observation, Reading } from '#domain/metrology/reading.ts';
import { readDimensionsOf } from '#domain/metrology/resolving.ts';
import { baseQuantity, millikelvin, quantityKindOf } from '#domain/units/quantity.ts';
import { type DimensionOnSheet, definitionOf, type Sheet, standardClass } from '#features/specs/service.ts';
import type { FittedPartRow, InstrumentRow, ReadingRow } from './queries.ts';

/** An instrument of the register as the metrology takes it, in the state of one check. */
export function instrumentOf(
  row: InstrumentRow,
  state: { readonly zeroError: number; readonly masterU: number },
): Instrument {
  const kind = quantityKindOf(row.kind);
  return {
    code: row.code,
    kind: row.instrumentKind,
    kindOfQuantity: kind,
    range: { low: baseQuantity(kind, row.rangeLow), high: baseQuantity(kind, row.rangeHigh) },
    resolution: row.resolution,
    mpe: row.mpe,
    zeroError: state.zeroError,
    masterUncertainty: state.masterU,
    ...(row.repeatability === null
      ? {}
      : {
          repeatability: {
            sd: row.repeatability,
            ...(row.repeatabilityDof === null ? {} : { degreesOfFreedom: row.repeatabilityDof }),
          },
        }),
    ...(row.localU === null ? {} : { localUncertainty: row.localU }),
    ...(row.alphaPpb === 0
      ? {}
      : { alphaPerKelvin: row.alphaPpb / 1e9, alphaUncertaintyPerKelvin: row.alphaUPpb / 1e9 }),
    ...(row.calibrationDueOn === null ? {} : { calibrationDue: row.calibrationDueOn }),
    ...(row.blades.length === 0 ? {} : { blades: row.blades }),
  };
}

/** What the metrology needs of a reading, kept or just typed. */
export type Measured = Pick<
  ReadingRow,
  | 'dimension'
  | 'position'
  | 'repeat'
  | 'kind'
  | 'observation'
  | 'low'
  | 'high'
  | 'goStack'
  | 'noGoStack'
  | 'instrumentCode'
  | 'checkId'
  | 'zeroError'
  | 'masterU'
  | 'partMk'
  | 'instrumentMk'
  | 'temperatureUMk'
  | 'fittedPartId'
  | 'readById'
  | 'readByName'
  | 'readOn'
>;

function observationOf(row: Measured, instrumentZero: number): Observation {
  const kind = quantityKindOf(row.kind);
  switch (row.observation) {
    case 'felt':
      return { type: 'felt', present: row.low === 1 };
    case 'value':
      // A gauge checked again between two readings has two zero errors; the metrology takes one, so the difference goes
      // into the figure.
      return { type: 'value', value: baseQuantity(kind, row.low - row.zeroError + instrumentZero) };
    case 'interval': {
      const stack = (blades: readonly number[]) => blades.map((blade) => baseQuantity(kind, blade));
      return {
        type: 'interval',
        low: baseQuantity(kind, row.low),
        high: row.high === null ? null : baseQuantity(kind, row.high),
        ...(row.goStack.length === 0 ? {} : { goStack: stack(row.goStack) }),
        ...(row.noGoStack.length === 0 ? {} : { noGoStack: stack(row.noGoStack) }),
      };
    }
  }
}

function readingOf(row: Measured, instrumentZero: number): Reading {
  return {
    dimension: row.dimension,
    position: row.position,
    repeat: row.repeat,
    observation: observationOf(row, instrumentZero),
    ...(row.instrumentCode === null ? {} : { instrument: row.instrumentCode }),
    setting: row.checkId ?? 'unchecked',
    ...(row.partMk === null || row.instrumentMk === null || row.temperatureUMk === null
      ? {}
      : {
          temperature: {
            part: millikelvin(row.partMk),
            instrument: millikelvin(row.instrumentMk),
            uncertaintyKelvin: row.temperatureUMk / 1000,
          },
        }),
  };
}

/** Everything a dimension of one round is worked out from. */
export interface Material {
  readonly definitions: readonly DimensionDefinition[];
  readonly readings: readonly Reading[];
  readonly instruments: readonly Instrument[];
}

/** Codes of the dimensions whose readings a dimension is worked out from. */
export function sourcesOf(dimension: DimensionOnSheet, sheet: Sheet): readonly string[] {
  return readDimensionsOf(dimension.code, sheet.dimensions);
}

/** The parts a round's readings were taken of, by place: what is fitted now, else what the newest reading was of. */
export type PartOfPlace = (placeCode: string) => FittedPartRow | undefined;

export function partsOfRound(
  parts: readonly FittedPartRow[],
  readings: readonly Measured[],
  held: { readonly sheet: Sheet; readonly subject?: string | null },
): PartOfPlace {
  const measured = new Set(readings.map(({ fittedPartId }) => fittedPartId));
  return (placeCode) => {
    const here = parts.filter((part) => part.placeCode === placeCode);
    const subject = here.find(({ id }) => id === held.subject);
    const present = here.find(({ removed }) => !removed);
    if (subject !== undefined) return subject;
    if (present !== undefined && measured.has(present.id)) return present;
    return here.find(({ id }) => measured.has(id)) ?? present;
  };
}

/** Readings, sheet and register brought into the words of the metrology, for the parts of one round. */
export function materialOf(of: {
  readonly sheet: Sheet;
  readonly readings: readonly Measured[];
  readonly register: readonly InstrumentRow[];
  readonly partOf: PartOfPlace;
}): Material {
  const { sheet, register, partOf } = of;
  const readings = of.readings.filter((row) => {
    const place = sheet.dimensions.find(({ code }) => code === row.dimension)?.place.code;
    return place !== undefined && (row.fittedPartId === null || row.fittedPartId === partOf(place)?.id);
  });
  const states = new Map(readings.map((row) => [row.instrumentCode, row]));
  const instruments = register.flatMap((row) => {
    const state = states.get(row.code);
    return state === undefined ? [] : [instrumentOf(row, state)];
  });
  return {
    definitions: sheet.dimensions.map((dimension) =>
      definitionOf(dimension, (place) => partOf(place)?.sizeClass ?? standardClass),
    ),
    readings: readings.map((row) => readingOf(row, states.get(row.instrumentCode)?.zeroError ?? 0)),
    instruments,
  };
}
