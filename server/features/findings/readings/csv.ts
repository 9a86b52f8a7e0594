import { type Round, rounds } from '#domain/obligations/disposition.ts';
import { csvFileOf, type RowFault, readCsvFile } from '#platform/csv-file.ts';
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

type Cells = ReadonlyMap<Column, string>;
export interface FileRow {
  /** As a spreadsheet counts: the header is row 1. */
  readonly row: number;
  readonly draft: Draft;
}
type Read =
  | { readonly ok: true; readonly rows: readonly FileRow[] }
  | { readonly ok: false; readonly faults: readonly RowFault[] };

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

/**
 * Reads a file of readings as a technician may have typed it: parted by ; , or tabs, with a decimal comma or point, with
 * or without a byte order mark, columns in any order and case, empty rows passed over.
 */
export function readCsv(text: string): Read {
  const file = readCsvFile(text, { columns, required: ['round', 'dimension', 'position'], mostRows });
  if (!file.ok) return file;
  const rows: FileRow[] = [];
  const faults: RowFault[] = [...file.faults];
  for (const { row, cells } of file.rows) {
    const read = draftOf(cells);
    if ('draft' in read) rows.push({ row, draft: read.draft });
    else faults.push(...read.faults.map((fault) => ({ row, ...fault })));
  }
  faults.sort((a, b) => a.row - b.row);
  return faults.length > 0 ? { ok: false, faults } : { ok: true, rows };
}

/** Rows as a file with the header above. */
export const csvOf = (rows: readonly Partial<Readonly<Record<Column, string>>>[]): string => csvFileOf(columns, rows);
