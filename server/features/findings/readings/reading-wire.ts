import { figure, type Print, quantity } from '#contracts/figures.ts';
import type { Reading } from '#contracts/readings.ts';
import type { Quantity, QuantityInterval } from '#contracts/wire.ts';
import { unitCodeOf } from '#domain/units/unit-table.ts';
import type { ReadingRow } from '../judging/queries.ts';

type Seen = Pick<ReadingRow, 'observation' | 'low' | 'high' | 'unit' | 'text'>;

/** Shown back in the unit and with the decimals in which it was keyed. */
const printAsKeyed = ({ unit, text }: Seen): Print => ({
  unit: unitCodeOf(unit),
  decimals: Math.min(9, Math.max(...text.split(/[+/]/).map((part) => /[.,](\d+)/.exec(part)?.[1]?.length ?? 0))),
});

export const valueSeenOnWire = (row: Seen): Quantity | null =>
  row.observation === 'value' ? quantity(row.low, printAsKeyed(row)) : null;

export function intervalSeenOnWire(row: Seen): QuantityInterval | null {
  if (row.observation !== 'interval') return null;
  const print = printAsKeyed(row);
  return {
    low: figure(row.low, print),
    high: row.high === null ? null : figure(row.high, print),
    unit: print.unit,
  };
}

const celsius: Print = { unit: 'degC', decimals: 1 };

export const readingOnWire = (row: ReadingRow): Reading => ({
  id: row.id,
  round: row.round,
  dimension: row.dimension,
  position: row.position,
  repeat: row.repeat,
  text: row.text,
  unit: row.unit,
  observation: row.observation,
  value: valueSeenOnWire(row),
  interval: intervalSeenOnWire(row),
  play: row.observation === 'felt' ? row.low === 1 : null,
  rounded: row.rounded,
  instrument:
    row.instrumentId === null || row.instrumentCode === null
      ? null
      : { id: row.instrumentId, name: row.instrumentCode },
  partTemperature: row.partMk === null ? null : quantity(row.partMk, celsius),
  instrumentTemperature: row.instrumentMk === null ? null : quantity(row.instrumentMk, celsius),
  confirmReason: row.confirmReason,
  fittedPartId: row.fittedPartId,
  readBy: { id: row.readById, name: row.readByName },
  readAt: row.readAt,
});
