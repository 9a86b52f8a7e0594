import type { Printed, SheetDocument } from '#domain/spec-sheet/document.ts';
import { type CsvTable, type RowFault, readCsvTable } from '#platform/csv-file.ts';
import { pointed } from './cell-text.ts';
import { type Origins, type SheetRow, sheetRowOf, wanted } from './sheet-csv-cells.ts';
import { type ColumnOf, type TableName, tableColumns } from './sheet-tables.ts';

export type NamedTables = Partial<Readonly<Record<TableName, CsvTable>>>;

/** Of which a row can't be without. */
const required = {
  sheet: [],
  'fastener sets': ['set'],
  fasteners: ['set', 'x', 'y'],
  stages: ['set'],
  rings: ['ring'],
  'ring zones': ['from', 'to'],
  valves: ['valve', 'dimension', 'wanted', 'adjuster'],
  proofs: ['proof'],
} as const satisfies { readonly [Table in TableName]: readonly ColumnOf<Table>[] };

const mostRows = 3600;
const lengths = {
  name: 80,
  mark: 20,
  tool: 80,
  source: 120,
  note: 500,
  dimension: 60,
  words: 500,
  caution: 300,
  reason: 200,
} as const;

export type Row<Table extends TableName> = SheetRow<ColumnOf<Table>>;

export interface Reading {
  readonly tables: NamedTables;
  readonly before: SheetDocument;
  readonly keep: boolean;
  readonly faults: RowFault[];
  readonly origins: Origins;
}

/** The rows of a table, and which columns it has; undefined: the file has no such table, or its head can't be read. */
export function rowsOf<Table extends TableName>({ tables, faults }: Reading, name: Table) {
  const table = tables[name];
  if (table === undefined) return undefined;
  const columns: readonly ColumnOf<Table>[] = tableColumns[name];
  const must: readonly ColumnOf<Table>[] = required[name];
  const read = readCsvTable(table, { columns, required: must, mostRows });
  faults.push(...read.faults);
  if (!read.ok) return undefined;
  return { columns: read.columns, rows: read.rows.map((row) => sheetRowOf(row, faults, lengths)) };
}

/** As it is named; by its code where the cell is empty. */
export const nameIn = (row: SheetRow<'name'>, code: string): string =>
  row.text('name') || (row.saysNothing('name') ? '' : code);

/** "0.005 in": a figure with a unit of its own; otherwise in the unit that its row names, or the usual one. */
export function figureIn<Column extends string>(row: SheetRow<Column>, column: Column, unit: string): Printed {
  const text = row.text(column);
  const [, value = text, own = unit] = /^(.*\S)\s+([A-Za-z%][\w./-]*)$/.exec(text) ?? [];
  return { value: pointed(value), unit: own };
}

export const figureOrNone = <Column extends string>(
  row: SheetRow<Column>,
  column: Column,
  unit: string,
): Printed | null => (row.text(column) === '' ? null : figureIn(row, column, unit));

type Coded = { readonly code: string };

/** Entries of a table by code: after those that stay, or each in the place of the one that it changes. */
export function entriesOf<Table extends TableName, Entry extends Coded>(
  reading: Reading,
  of: {
    readonly table: Table;
    readonly code: ColumnOf<Table>;
    readonly before: readonly Entry[];
    readonly from: (row: Row<Table>, code: string) => Entry;
  },
): { readonly entries: readonly Entry[]; readonly rows: ReadonlyMap<string, number> } {
  const rows = new Map<string, number>();
  const read = rowsOf(reading, of.table);
  if (read === undefined) return { entries: of.before, rows };
  const entries = new Map(reading.keep ? of.before.map((entry) => [entry.code, entry]) : []);
  for (const row of read.rows) {
    const code = wanted(row, of.code);
    const entry = of.from(row, code);
    const first = rows.get(code);
    if (first !== undefined) row.fault(of.code, `Row ${first} has said this already.`);
    else {
      rows.set(code, row.row);
      entries.set(code, entry);
    }
  }
  return { entries: [...entries.values()], rows };
}

export const noteEntries = (
  { origins }: Reading,
  list: string,
  { entries, rows }: { readonly entries: readonly Coded[]; readonly rows: ReadonlyMap<string, number> },
  columns: Readonly<Record<string, string>>,
): void => {
  for (const [index, { code }] of entries.entries()) {
    const row = rows.get(code);
    if (row !== undefined) origins.note(`/${list}/${index}`, row, columns);
  }
};
