import type { KeyedReading } from '#contracts/readings.ts';
import type { Quantity } from '#contracts/wire.ts';
import { isMeasured, operandsOf } from '#domain/metrology/dimension.ts';
import type { Round } from '#domain/obligations/disposition.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { findUnitCode, type UnitCode } from '#domain/units/unit-table.ts';
import type { DimensionOnSheet } from '#features/specs/service.ts';
import type { Measured } from '../judging/material.ts';
import type { InstrumentRow } from '../judging/queries.ts';
import type { Fault, Field } from './faults.ts';
import { fault, observationSeen, parseFault } from './observing.ts';

/** A thermometer at the bench is good to half a kelvin (standard uncertainty; common practice, no source). */
const thermometerMk = 500;

/** One reading as a person sent it, with the dimension it names. */
export interface Draft extends KeyedReading {
  readonly round: Round;
  readonly dimension: string;
  readonly confirmReason: string;
}

/** A reading that was understood, not kept yet. */
export interface Understood extends Measured {
  readonly round: Round;
  readonly text: string;
  readonly unit: UnitCode;
  readonly rounded: boolean;
  readonly instrumentId: string | null;
  readonly confirmReason: string;
}

export type Keyed =
  | {
      readonly ok: true;
      readonly reading: Understood;
      /** Asked about; a reason settles them. */
      readonly questions: readonly Fault[];
      /** Said, and kept all the same. */
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly faults: readonly Fault[] };

function temperatureOf(given: Quantity | undefined, field: Field) {
  if (given === undefined) return { ok: true, mk: null } as const;
  const parsed = parseQuantity(given.value, given.unit, 'temperature');
  if (!parsed.ok) return { ok: false, fault: { ...parseFault(parsed, field, 'temperature'), field } } as const;
  if (parsed.value < 200_000 || parsed.value > 450_000) {
    return { ok: false, fault: fault(field, 'refused', 'A part on a bench is between −73 and 177 °C.') } as const;
  }
  return { ok: true, mk: parsed.value } as const;
}

function instrumentFor(draft: Draft, dimension: DimensionOnSheet, register: readonly InstrumentRow[]) {
  const field = 'instrumentCode';
  if (dimension.method.type === 'felt') return { ok: true, instrument: undefined } as const;
  const refuse = (code: Fault['code'], detail: string) => ({ ok: false, fault: fault(field, code, detail) }) as const;
  if (draft.instrumentCode === undefined) {
    return refuse('refused', `Say which instrument the reading at ${draft.position} was taken with.`);
  }
  const instrument = register.find(({ code }) => code === draft.instrumentCode);
  if (instrument === undefined) return refuse('not-found', `There is no instrument ${draft.instrumentCode}.`);
  if (instrument.retired) return refuse('refused', `${instrument.code} is out of use. Take another.`);
  if (instrument.kind !== dimension.kind) {
    return refuse(
      'refused',
      `${instrument.code} measures a ${instrument.kind}, but ${dimension.name} is a ${dimension.kind}.`,
    );
  }
  return { ok: true, instrument } as const;
}

const uncheckedWords = (row: InstrumentRow): readonly string[] => {
  if (row.checkId === null) return [`${row.code} was never checked against a master: its zero error is not known.`];
  return row.checkedToday ? [] : [`${row.code} was not checked today; the zero error of its last check is used.`];
};

/**
 * Understands one reading of a known dimension of the sheet: parsed digit by digit, its instrument found, the blunder
 * guards asked. Whether the place is free is for the caller to see.
 */
export function understand(
  draft: Draft,
  { dimension, register }: { readonly dimension: DimensionOnSheet; readonly register: readonly InstrumentRow[] },
  by: {
    readonly fittedPartId: string | null;
    readonly readById: string;
    readonly readByName: string;
    readonly readOn: string;
  },
): Keyed {
  const faults: Fault[] = [];
  if (dimension.readingsOf !== undefined || !isMeasured(dimension.method)) {
    const operands = operandsOf(dimension.method).map(([, code]) => code);
    const from = dimension.readingsOf ?? operands.join(' and ');
    const words =
      from === ''
        ? `${dimension.name} is stated by the spec sheet: there is nothing to key.`
        : `${dimension.name} is worked out from ${from}: key those.`;
    return { ok: false, faults: [fault('dimension', 'refused', words)] };
  }
  if (!dimension.positions.some(({ code }) => code === draft.position)) {
    const known = dimension.positions.map(({ code }) => code).join(', ');
    faults.push(
      fault('position', 'not-found', `${dimension.name} has no position ${draft.position}. It has ${known}.`),
    );
  }
  const tool = instrumentFor(draft, dimension, register);
  if (!tool.ok) faults.push(tool.fault);
  const instrument = tool.ok ? tool.instrument : undefined;
  const unit = draft.unit ?? dimension.unit;
  const seen = observationSeen(draft, { dimension, unit, instrument });
  if (!seen.ok) faults.push(seen.fault);
  const part = temperatureOf(draft.partTemperature, 'partTemperature');
  const gauge = temperatureOf(draft.instrumentTemperature, 'instrumentTemperature');
  for (const temperature of [part, gauge]) if (!temperature.ok) faults.push(temperature.fault);
  if (!seen.ok || !part.ok || !gauge.ok || faults.length > 0) return { ok: false, faults };
  const { questions, warnings, ...facts } = seen.seen;
  const warm = part.mk ?? gauge.mk;
  return {
    ok: true,
    questions,
    warnings: [...warnings, ...(instrument === undefined ? [] : uncheckedWords(instrument))],
    reading: {
      ...facts,
      ...by,
      round: draft.round,
      dimension: dimension.code,
      position: draft.position,
      repeat: draft.repeat,
      unit: findUnitCode(unit) ?? dimension.unit,
      kind: dimension.kind,
      instrumentId: instrument?.id ?? null,
      instrumentCode: instrument?.code ?? null,
      checkId: instrument?.checkId ?? null,
      zeroError: instrument?.zeroError ?? 0,
      masterU: instrument?.masterU ?? 0,
      partMk: warm === null ? null : (part.mk ?? warm),
      instrumentMk: warm === null ? null : (gauge.mk ?? warm),
      temperatureUMk: warm === null ? null : thermometerMk,
      confirmReason: questions.length > 0 ? draft.confirmReason : '',
    },
  };
}
