import { figure } from '#contracts/figures.ts';
import type { CrossCheck } from '#contracts/findings.ts';
import { benchChecksOf } from '#domain/metrology/bench-checks.ts';
import { benchCheckWords } from '#domain/metrology/cross-check-words.ts';
import { unitOf } from '#domain/units/unit-table.ts';
import type { Sheet } from '#features/specs/service.ts';
import { type Material, type Measured, materialOf, type PartOfPlace } from './material.ts';
import type { InstrumentRow } from './queries.ts';

interface ToCheck {
  readonly sheet: Sheet;
  readonly rows: readonly Measured[];
  readonly register: readonly InstrumentRow[];
  readonly partOf: PartOfPlace;
  readonly material: Material;
  /** Codes of the dimensions whose readings changed: only what they have a part in is told. */
  readonly touched: ReadonlySet<string>;
  /** Readings of the rounds before, the newest round last. */
  readonly earlier: readonly (readonly Measured[])[];
  readonly on: string;
}

/** Each check that what changed has a part in, said in words. */
export function crossChecksOf(round: ToCheck): readonly CrossCheck[] {
  const { sheet, rows, register, partOf, material, earlier, touched, on } = round;
  const of = (readings: readonly Measured[]) => materialOf({ sheet, readings, register, partOf });
  const people = new Map(rows.map(({ readById, readByName }) => [readById, readByName]));
  const checks = benchChecksOf({
    sheet: material.definitions,
    readings: material.readings,
    instruments: material.instruments,
    on,
    earlier: earlier.map(of),
    people: [...people].map(([id, name]) => ({ name, ...of(rows.filter(({ readById }) => readById === id)) })),
  });
  return checks
    .filter(({ about }) => about.some((code) => touched.has(code)))
    .map(({ check, name, printedAs, about }) => {
      const print = sheet.dimensions.find(({ code }) => code === printedAs) ?? { unit: 'mm' as const, decimals: 3 };
      const printed = (value: number) => `${figure(value, print)} ${unitOf(print.unit).symbol}`;
      return { agrees: check.agrees, words: benchCheckWords(check, { name, printed }), about: [...about] };
    });
}
