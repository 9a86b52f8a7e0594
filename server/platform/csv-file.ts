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
  | { readonly ok: true; readonly rows: readonly CsvRow<Column>[]; readonly faults: readonly RowFault[] }
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

function headerOf<Column extends string>(record: readonly string[], form: CsvForm<Column>): Header<Column> {
  const { columns: known, required } = form;
  const refused = (column: string, detail: string): Header<Column> => ({
    ok: false,
    faults: [{ row: 1, column, detail }],
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
  return missing === undefined ? { ok: true, columns } : refused(missing, 'is missing from the first row.');
}

/**
 * Reads a file as somebody may have typed it: parted by ; , or tabs, with or without a byte order mark, columns in any
 * order and case, empty rows passed over.
 */
export function readCsvFile<Column extends string>(text: string, form: CsvForm<Column>): CsvRead<Column> {
  const whole = (detail: string): CsvRead<Column> => ({
    ok: false,
    faults: [{ row: 1, column: form.required[0] ?? '', detail }],
  });
  const records = recordsOf(text);
  if (typeof records === 'string') return whole(`The file can't be read: ${records}.`);
  const [first, ...others] = records.filter(({ record }) => !isEmpty(record));
  if (first === undefined) return whole('The file is empty.');
  const header = headerOf(first.record, form);
  if (!header.ok) return header;
  const { columns } = header;
  if (others.length === 0) return whole('The file has no rows below its first.');
  if (others.length > form.mostRows) return whole(`The file has more than ${form.mostRows} rows. Send it in parts.`);
  const rows: CsvRow<Column>[] = [];
  const faults: RowFault[] = [];
  for (const { record, info } of others) {
    if (record.slice(columns.length).some((cell) => cell !== '')) {
      const detail =
        'has more cells than the first row. A figure with a decimal comma needs quotes, or ; between cells.';
      faults.push({ row: info.lines, column: columns.at(-1) ?? '', detail });
      continue;
    }
    const cells = columns.flatMap((column, at) => {
      const cell = record[at] ?? '';
      return cell === '' ? [] : [[column, cell] as const];
    });
    rows.push({ row: info.lines, cells: new Map(cells) });
  }
  return { ok: true, rows, faults };
}

const celled = (text: string): string => (/[",;\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Rows as a file with the header above (RFC 4180). */
export const csvFileOf = <Column extends string>(
  columns: readonly Column[],
  rows: readonly Partial<Readonly<Record<Column, string>>>[],
): string =>
  [columns.join(','), ...rows.map((row) => columns.map((column) => celled(row[column] ?? '')).join(','))]
    .join('\r\n')
    .concat('\r\n');
