import { Kind, MethodName, Rule } from '#contracts/specs.ts';
import type { DecisionRule } from '#domain/metrology/dimension.ts';
import type { SheetFault } from '#domain/spec-sheet/faults.ts';
import { findUnitCode, unitOf } from '#domain/units/unit-table.ts';
import type { CsvRow, RowFault } from '#platform/csv-file.ts';
import { nothingSaid, unkept } from './cell-text.ts';
import type { SheetColumn } from './sheet-csv.ts';

/** One row of the file, with what is told of it. */
export interface SheetRow<Column extends string = SheetColumn> {
  readonly row: number;
  /** The cell's text; empty when there is none. */
  readonly text: (column: Column) => string;
  /** It says that there is nothing, where an empty cell would say something else. */
  readonly saysNothing: (column: Column) => boolean;
  readonly fault: (column: Column, detail: string) => void;
}

const most: Partial<Readonly<Record<SheetColumn, number>>> = {
  dimension: 60,
  name: 80,
  label: 80,
  source: 120,
  caution: 300,
  material: 60,
  readings_of: 60,
  minuend: 60,
  subtrahend: 60,
  numerator: 60,
  denominator: 60,
  unit: 12,
  axis: 20,
};

// biome-ignore lint/suspicious/noControlCharactersInRegex: refusing them is the point
const controls = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/;

/** A row whose faults go to one list; texts that are too long or hold control characters are told at once. */
export function sheetRowOf<Column extends string = SheetColumn>(
  { row, cells }: CsvRow<Column>,
  faults: RowFault[],
  lengths: Partial<Readonly<Record<string, number>>> = most,
): SheetRow<Column> {
  const fault = (column: Column, detail: string) => faults.push({ row, column, detail });
  for (const [column, text] of cells) {
    const longest = lengths[column] ?? 40;
    if (text.length > longest) fault(column, `is longer than ${longest} characters.`);
    if (controls.test(text)) fault(column, 'has control characters.');
  }
  const saysNothing = (column: Column) => cells.get(column) === nothingSaid;
  return { row, fault, saysNothing, text: (column) => (saysNothing(column) ? '' : unkept(cells.get(column) ?? '')) };
}

/** The cell's text; told when it is empty. */
export function wanted<Column extends string>(row: SheetRow<Column>, column: Column): string {
  const text = row.text(column);
  if (text === '') row.fault(column, 'is empty.');
  return text;
}

export const orNull = <Column extends string>(row: SheetRow<Column>, column: Column): string | null =>
  row.text(column) || null;

/** One of a few words, whatever their case; told when it is none of them. */
export function oneOf<Word extends string, Column extends string>(
  row: SheetRow<Column>,
  column: Column,
  of: { readonly words: readonly Word[]; readonly otherwise: Word },
): Word {
  const text = row.text(column).toLowerCase();
  if (text === '') return of.otherwise;
  const word = of.words.find((one) => one.toLowerCase() === text);
  if (word === undefined) row.fault(column, `"${row.text(column)}" is none of ${of.words.join(', ')}.`);
  return word ?? of.otherwise;
}

export const yesOrNo = <Column extends string>(row: SheetRow<Column>, column: Column, otherwise: boolean): boolean =>
  oneOf(row, column, { words: ['yes', 'no'], otherwise: otherwise ? 'yes' : 'no' }) === 'yes';

/** A whole number from 0 (or 1) on; null when the cell is empty. */
export function wholeNumber<Column extends string>(
  row: SheetRow<Column>,
  column: Column,
  [least, largest]: readonly [number, number],
) {
  const text = row.text(column);
  if (text === '') return null;
  const value = /^\d{1,3}$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= largest) return value;
  row.fault(column, `"${text}" is no whole number from ${least} to ${largest}.`);
  return null;
}

export function methodIn(row: SheetRow) {
  if (row.text('method') === '') row.fault('method', 'is empty.');
  return oneOf(row, 'method', { words: MethodName.options, otherwise: 'single' });
}

/** The kind as it is named, else that of the unit. */
export function kindIn(row: SheetRow) {
  const code = findUnitCode(row.text('unit'));
  return oneOf(row, 'kind', { words: Kind.options, otherwise: code === undefined ? 'length' : unitOf(code).kind });
}

export function ruleIn(row: SheetRow): DecisionRule {
  const text = row.text('rule');
  const parsed = Rule.safeParse(text === '' ? 'iso-14253-1-2017' : text.toLowerCase());
  if (parsed.success) return parsed.data;
  row.fault('rule', `"${text}" is no decision rule: iso-14253-1-2017, iso-14253-1-1998, simple or guard-factor-1.3.`);
  return 'iso-14253-1-2017';
}

/** Where in the file the entries of a document came from: pointers to them, or to one field of them. */
export interface Origins {
  /** `columns`: what of the entry stands in which column, by the rest of its pointer; '' where nothing closer does. */
  readonly note: (pointer: string, row: number, columns?: Readonly<Record<string, string>>) => void;
  readonly placeOf: (fault: SheetFault) => RowFault | undefined;
}

/** What the document calls a field, and the file a column. */
const columnOf: Readonly<Record<string, SheetColumn>> = {
  code: 'dimension',
  name: 'name',
  place: 'place',
  kind: 'kind',
  unit: 'unit',
  value: 'value',
  method: 'method',
  boreRule: 'bore_rule',
  readingsOf: 'readings_of',
  minuend: 'minuend',
  subtrahend: 'subtrahend',
  numerator: 'numerator',
  denominator: 'denominator',
  rule: 'rule',
  sizeClass: 'size_class',
  uncertainty: 'expansion_uncertainty',
  positions: 'what',
};

type Noted = { readonly row: number; readonly columns: Readonly<Record<string, string>> | undefined };

/** The column of what stands at the rest of a pointer, or of what that is a part of. */
function columnAt(rest: string, columns: Readonly<Record<string, string>>): string {
  for (let at = rest; at !== ''; at = at.slice(0, Math.max(0, at.lastIndexOf('/')))) {
    const column = columns[at];
    if (column !== undefined) return column;
  }
  return columns[''] ?? '';
}

function usualColumn(pointer: string): SheetColumn {
  if (/\/positions\/\d+\/code$/.test(pointer)) return 'position';
  if (/^\/places\/\d+\/code$/.test(pointer)) return 'place';
  return columnOf[pointer.slice(pointer.lastIndexOf('/') + 1)] ?? 'value';
}

export function originsIn(): Origins {
  const rows = new Map<string, Noted>();
  const notedAt = (pointer: string): readonly [string, Noted] | undefined => {
    for (let at = pointer; at !== ''; at = at.slice(0, at.lastIndexOf('/'))) {
      const noted = rows.get(at);
      if (noted !== undefined) return [at, noted];
    }
    return undefined;
  };
  return {
    note: (pointer, row, columns) => rows.set(pointer, { row, columns }),
    placeOf: ({ pointer, detail }) => {
      const found = notedAt(pointer);
      if (found === undefined) return undefined;
      const [at, { row, columns }] = found;
      const column = columns === undefined ? usualColumn(pointer) : columnAt(pointer.slice(at.length + 1), columns);
      return { row, column, detail };
    },
  };
}
