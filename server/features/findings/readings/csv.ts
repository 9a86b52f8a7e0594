import { parse } from 'csv-parse/sync';
import { type Round, rounds } from '#domain/obligations/disposition.ts';
import { ProblemError } from '#platform/problem.ts';
import type { Field } from './faults.ts';
import type { Draft } from './keying.ts';

const columns = [
  'round',
  'dimension',
  'position',
  'repeat',
  'value',
  'unit',
  'instrument',
  'part_temp_c',
  'instrument_temp_c',
  'go',
  'no_go',
  'reason',
] as const;
type Column = (typeof columns)[number];

const mostRows = 5000;
const mostFaultsTold = 100;

/** What a file calls the things a person keyed. */
export const columnOf: Readonly<Record<Field, Column>> = {
  round: 'round',
  dimension: 'dimension',
  position: 'position',
  repeat: 'repeat',
  text: 'value',
  unit: 'unit',
  instrumentCode: 'instrument',
  partTemperature: 'part_temp_c',
  instrumentTemperature: 'instrument_temp_c',
  'interval/go': 'go',
  'interval/noGo': 'no_go',
  felt: 'value',
  confirmReason: 'reason',
};

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

type Cells = ReadonlyMap<Column, string>;
export interface FileRow {
  /** As a spreadsheet counts: the header is row 1. */
  readonly row: number;
  readonly draft: Draft;
}
type Read =
  | { readonly ok: true; readonly rows: readonly FileRow[] }
  | { readonly ok: false; readonly faults: readonly RowFault[] };

const wholeFile = (detail: string, column = 'round'): Read => ({ ok: false, faults: [{ row: 1, column, detail }] });

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

const whenKnown = <Name extends string, Value>(name: Name, value: Value | undefined) =>
  (value === undefined ? {} : { [name]: value }) as { readonly [key in Name]?: Value };

const celsius = (text: string | undefined) => (text === undefined ? undefined : { value: text, unit: 'degC' });

const feltWords: Readonly<Record<string, boolean>> = { play: true, yes: true, none: false, no: false };

/** A blade's cell: empty, a dash or "none" says that there was none. */
const blade = (text: string | undefined): string | null =>
  text === undefined || /^(-|–|none)$/i.test(text) ? null : text;

function draftOf(cells: Cells): { readonly draft: Draft } | { readonly faults: readonly Omit<RowFault, 'row'>[] } {
  const faults: Omit<RowFault, 'row'>[] = [];
  const cell = (column: Column): string | undefined => cells.get(column);
  const wanted = (column: Column): string => {
    const value = cell(column);
    if (value === undefined) faults.push({ column, detail: 'is empty' });
    return value ?? '';
  };
  const round: Round | undefined = rounds.find((known) => known === cell('round')?.toLowerCase());
  if (round === undefined) {
    faults.push({ column: 'round', detail: `"${cell('round') ?? ''}" is none of ${rounds.join(', ')}.` });
  }
  const repeat = cell('repeat') ?? '1';
  if (!/^[1-9]\d?$/.test(repeat) || Number(repeat) > 50) {
    faults.push({ column: 'repeat', detail: `"${repeat}" is no whole number from 1 to 50.` });
  }
  const value = cell('value');
  const felt = value === undefined ? undefined : feltWords[value.toLowerCase()];
  const hasBlades = cell('go') !== undefined || cell('no_go') !== undefined;
  for (const [column, text] of cells) {
    const most = column === 'reason' ? 300 : column === 'dimension' ? 60 : 40;
    if (text.length > most) faults.push({ column, detail: `is longer than ${most} characters` });
  }
  const draft = {
    dimension: wanted('dimension'),
    position: wanted('position'),
    repeat: Number(repeat),
    confirmReason: cell('reason') ?? '',
    ...whenKnown('unit', cell('unit')),
    ...whenKnown('instrumentCode', cell('instrument')),
    ...whenKnown('partTemperature', celsius(cell('part_temp_c'))),
    ...whenKnown('instrumentTemperature', celsius(cell('instrument_temp_c'))),
    ...(felt === undefined ? whenKnown('text', value) : { felt }),
    ...(hasBlades ? { interval: { go: blade(cell('go')), noGo: blade(cell('no_go')) } } : {}),
  };
  return round === undefined || faults.length > 0 ? { faults } : { draft: { ...draft, round } };
}

function headerOf(record: readonly string[]): readonly Column[] | Read {
  const names = record.map(plainName);
  const unknown = names.find((name) => !columns.some((column) => column === name));
  if (unknown !== undefined) {
    return wholeFile(`There is no column "${unknown}". The columns are ${columns.join(', ')}.`, unknown || '(empty)');
  }
  const twice = names.find((name, at) => names.indexOf(name) !== at);
  if (twice !== undefined) return wholeFile('is there twice.', twice);
  const missing = ['round', 'dimension', 'position'].find((name) => !names.includes(name));
  if (missing !== undefined) return wholeFile('is missing from the first row.', missing);
  return names as readonly string[] as readonly Column[];
}

/**
 * Reads a file of readings as a technician may have typed it: parted by ; , or tabs, with a decimal comma or point, with
 * or without a byte order mark, columns in any order and case, empty rows passed over.
 */
export function readCsv(text: string): Read {
  const records = recordsOf(text);
  if (typeof records === 'string') return wholeFile(`The file can't be read: ${records}.`);
  const [first, ...others] = records.filter(({ record }) => !isEmpty(record));
  if (first === undefined) return wholeFile('The file is empty.');
  const header = headerOf(first.record);
  if ('ok' in header) return header;
  if (others.length === 0) return wholeFile('The file has no rows below its first.');
  if (others.length > mostRows) return wholeFile(`The file has more than ${mostRows} rows. Send it in parts.`);
  const rows: FileRow[] = [];
  const faults: RowFault[] = [];
  for (const { record, info } of others) {
    const row = info.lines;
    if (record.length > header.length) {
      const detail =
        'has more cells than the first row. A figure with a decimal comma needs quotes, or ; between cells.';
      faults.push({ row, column: header.at(-1) ?? 'reason', detail });
      continue;
    }
    const cells = new Map(
      header.flatMap((column, at) => {
        const cell = record[at] ?? '';
        return cell === '' ? [] : [[column, cell] as const];
      }),
    );
    const read = draftOf(cells);
    if ('draft' in read) rows.push({ row, draft: read.draft });
    else faults.push(...read.faults.map((fault) => ({ row, ...fault })));
  }
  return faults.length > 0 ? { ok: false, faults } : { ok: true, rows };
}

const celled = (text: string): string => (/[",;\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** Rows as a file with the header above. */
export const csvOf = (rows: readonly Partial<Readonly<Record<Column, string>>>[]): string =>
  [columns.join(','), ...rows.map((row) => columns.map((column) => celled(row[column] ?? '')).join(','))]
    .join('\r\n')
    .concat('\r\n');
