import { parse } from 'csv-parse/sync';
import { ProblemError } from './problem.ts';

const mostFaultsTold = 100;

/** What is wrong in a file: rows as a spreadsheet counts them, the header is row 1. */
export interface RowFault {
  readonly row: number;
  readonly column: string;
  readonly detail: string;
}

/** Every bad row is named; nothing of the file was kept. */
export function rowRefusal(faults: readonly RowFault[]): ProblemError {
  const [first] = faults;
  const rows = new Set(faults.map(({ row }) => row)).size;
  const where = first === undefined ? '' : `Row ${first.row}, column ${first.column}: ${first.detail} `;
  const count = rows === 1 ? 'One row is wrong' : `${rows} rows are wrong`;
  return new ProblemError('csv-row', `${where}${count}; nothing of the file was kept.`, {
    errors: faults.slice(0, mostFaultsTold).map(({ row, column, detail }) => ({
      pointer: `row ${row}, column ${column}`,
      detail,
    })),
  });
}

/** The cells of one row that are not empty, by column. */
export interface CsvRow<Column extends string> {
  readonly row: number;
  readonly cells: ReadonlyMap<Column, string>;
}

export type CsvRead<Column extends string> =
  | {
      readonly ok: true;
      /** Those that the header names. */
      readonly columns: readonly Column[];
      readonly rows: readonly CsvRow<Column>[];
      readonly faults: readonly RowFault[];
    }
  /** The file as a whole can't be read. */
  | { readonly ok: false; readonly faults: readonly RowFault[] };

export interface CsvForm<Column extends string> {
  readonly columns: readonly Column[];
  readonly required: readonly Column[];
  readonly mostRows: number;
}

/** Which of ; , and tab parts the header: the one there is most of. */
function delimiterOf(text: string): string {
  const header = text.split(/\r?\n/).find((line) => line.trim() !== '') ?? '';
  const count = (sign: string) => header.split(sign).length;
  return [';', ',', '\t'].toSorted((a, b) => count(b) - count(a))[0] ?? ',';
}

const plainName = (name: string): string =>
  name
    .trim()
    .toLowerCase()
    .replace(/[\s-]+/g, '_');

interface Record_ {
  readonly record: readonly string[];
  readonly info: { readonly lines: number };
}

function recordsOf(text: string): readonly Record_[] | string {
  try {
    return parse(text, {
      bom: true,
      delimiter: delimiterOf(text.replace(/^\uFEFF/, '')),
      info: true,
      relax_column_count: true,
      trim: true,
      max_record_size: 10_000,
    }) as unknown as readonly Record_[];
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
}

const isEmpty = (record: readonly string[]): boolean => record.every((cell) => cell === '');

type Header<Column> =
  | { readonly ok: true; readonly columns: readonly Column[] }
  | { readonly ok: false; readonly faults: readonly RowFault[] };

function headerOf<Column extends string>({ record, info }: Record_, form: CsvForm<Column>): Header<Column> {
  const row = info.lines;
  const { columns: known, required } = form;
  const refused = (column: string, detail: string): Header<Column> => ({
    ok: false,
    faults: [{ row, column, detail }],
  });
  // A header that ends in empty cells is a spreadsheet's wide selection.
  const names = record.slice(0, record.findLastIndex((cell) => cell !== '') + 1).map(plainName);
  const columns: Column[] = [];
  for (const name of names) {
    const column = known.find((one) => one === name);
    if (column === undefined)
      return refused(name || '(empty)', `There is no column "${name}". The columns are ${known.join(', ')}.`);
    if (columns.includes(column)) return refused(name, 'is there twice.');
    columns.push(column);
  }
  const missing = required.find((name) => !columns.includes(name));
  return missing === undefined ? { ok: true, columns } : refused(missing, 'is missing from the row of column names.');
}

/** One of the tables that a file holds one below the other; its records begin with the names of its columns. */
export interface CsvTable {
  /** As its title row names it; empty: the file begins with it, without a title. */
  readonly title: string;
  readonly row: number;
  readonly records: readonly Record_[];
}

export type CsvTables =
  | { readonly ok: true; readonly tables: readonly CsvTable[] }
  | { readonly ok: false; readonly faults: readonly RowFault[] };

const unreadable = (detail: string, column = '') => ({ ok: false as const, faults: [{ row: 1, column, detail }] });

/** Parts a file at the rows whose first cell is "table" and whose second names the table that follows. */
export function csvTablesOf(text: string): CsvTables {
  const records = recordsOf(text);
  if (typeof records === 'string') return unreadable(`The file can't be read: ${records}.`);
  const tables: { title: string; row: number; records: Record_[] }[] = [];
  for (const one of records) {
    if (isEmpty(one.record)) continue;
    const [first = '', second = ''] = one.record;
    if (first.toLowerCase() === 'table' && one.record.slice(2).every((cell) => cell === ''))
      tables.push({ title: second.toLowerCase().replace(/[\s_-]+/g, ' '), row: one.info.lines, records: [] });
    else if (tables.length === 0) tables.push({ title: '', row: one.info.lines, records: [one] });
    else tables.at(-1)?.records.push(one);
  }
  return tables.length === 0 ? unreadable('The file is empty.') : { ok: true, tables };
}

/** Reads one table: columns in any order and case, empty rows passed over. It may have no rows below its header. */
export function readCsvTable<Column extends string>(table: CsvTable, form: CsvForm<Column>): CsvRead<Column> {
  const [first, ...others] = table.records;
  if (first === undefined)
    return { ok: false, faults: [{ row: table.row, column: '', detail: 'No column names follow the title.' }] };
  const header = headerOf(first, form);
  if (!header.ok) return header;
  const { columns } = header;
  if (others.length > form.mostRows)
    return { ok: false, faults: [{ row: table.row, column: '', detail: `has more than ${form.mostRows} rows.` }] };
  const rows: CsvRow<Column>[] = [];
  const faults: RowFault[] = [];
  for (const { record, info } of others) {
    if (record.slice(columns.length).some((cell) => cell !== '')) {
      const detail =
        'has more cells than the row of column names. A figure with a decimal comma needs quotes, or ; between cells.';
      faults.push({ row: info.lines, column: columns.at(-1) ?? '', detail });
      continue;
    }
    const cells = columns.flatMap((column, at) => {
      const cell = record[at] ?? '';
      return cell === '' ? [] : [[column, cell] as const];
    });
    rows.push({ row: info.lines, cells: new Map(cells) });
  }
  return { ok: true, columns, rows, faults };
}

/**
 * Reads a file as somebody may have typed it: parted by ; , or tabs, with or without a byte order mark, columns in any
 * order and case, empty rows passed over.
 */
export function readCsvFile<Column extends string>(text: string, form: CsvForm<Column>): CsvRead<Column> {
  const column = form.required[0] ?? '';
  const records = recordsOf(text);
  if (typeof records === 'string') return unreadable(`The file can't be read: ${records}.`, column);
  const filled = records.filter(({ record }) => !isEmpty(record));
  if (filled.length === 0) return unreadable('The file is empty.', column);
  if (filled.length > form.mostRows + 1)
    return unreadable(`The file has more than ${form.mostRows} rows. Send it in parts.`, column);
  const read = readCsvTable({ title: '', row: 1, records: filled }, form);
  return read.ok && filled.length === 1 ? unreadable('The file has no rows below its first.', column) : read;
}

const celled = (text: string): string => (/[",;\t\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

type Cells<Column extends string> = Partial<Readonly<Record<Column, string>>>;

const lineOf = <Column extends string>(columns: readonly Column[], row: Cells<Column>): string =>
  `${columns.map((column) => celled(row[column] ?? '')).join(',')}\r\n`;

/** Rows as a file with the header above (RFC 4180). */
export const csvFileOf = <Column extends string>(columns: readonly Column[], rows: readonly Cells<Column>[]): string =>
  `${columns.join(',')}\r\n${rows.map((row) => lineOf(columns, row)).join('')}`;

/**
 * The same file of what each row becomes, batch by batch as it is asked for, so that however large it is, little of it is
 * in memory.
 */
export async function* csvFileInBatches<Row, Column extends string>(
  columns: readonly Column[],
  batches: AsyncIterable<readonly Row[]>,
  cellsOf: (row: Row) => Cells<Column>,
): AsyncGenerator<string, void, undefined> {
  yield `${columns.join(',')}\r\n`;
  for await (const rows of batches) yield rows.map((row) => lineOf(columns, cellsOf(row))).join('');
}
