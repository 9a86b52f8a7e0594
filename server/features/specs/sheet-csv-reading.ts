import type {
  Figure,
  PrintedDimension,
  PrintedLimits,
  PrintedPlace,
  SheetDocument,
} from '#domain/spec-sheet/document.ts';
import { documentShape } from '#domain/spec-sheet/document.ts';
import { type CsvTable, csvTablesOf, type RowFault, readCsvTable } from '#platform/csv-file.ts';
import { type Bound, bounds, type OwnFigure, ownFigures, type SheetColumn, sheetColumns } from './sheet-csv.ts';
import {
  kindIn,
  methodIn,
  type Origins,
  oneOf,
  originsIn,
  orNull,
  ruleIn,
  type SheetRow,
  sheetRowOf,
  wanted,
  wholeNumber,
  yesOrNo,
} from './sheet-csv-cells.ts';
import type { TableName } from './sheet-tables.ts';
import { readTables, tableNames } from './sheet-tables-reading.ts';
import type { NamedTables } from './table-rows.ts';

const mostRows = 5000;
const whats = ['place', 'dimension', 'position', ...bounds, ...ownFigures] as const;
type What = (typeof whats)[number];

/** A dimension while its rows come in. */
interface Growing {
  readonly of: PrintedDimension;
  /** The row that says what it is; undefined: it was on the sheet before. */
  readonly row: number | undefined;
  readonly decimalsSaid: boolean;
}

/** What a file has said so far. */
interface Reading {
  readonly places: Map<string, PrintedPlace>;
  readonly dimensions: Map<string, Growing>;
  /** Rows by what they give, to tell a second one, and where a fault came from. */
  readonly rows: Map<string, number>;
}

export type SheetFileRead =
  | {
      readonly ok: true;
      readonly document: SheetDocument;
      readonly origins: Origins;
      /** Cells that can't be read: the document goes on without them, so that the rest can be checked too. */
      readonly faults: readonly RowFault[];
    }
  | { readonly ok: false; readonly faults: readonly RowFault[] };

const placeFrom = (row: SheetRow): PrintedPlace => {
  const expansion = row.text('expansion').replace(',', '.');
  const layers = ['cover', 'head', 'cylinder', 'case'] as const;
  const layer = oneOf(row, 'layer', { words: [...layers, ''], otherwise: '' });
  const code = wanted(row, 'place');
  return {
    code,
    name: row.text('name') || code,
    layer: layer === '' ? null : layer,
    material: row.text('material'),
    expansion:
      expansion === ''
        ? null
        : { value: expansion, uncertainty: row.text('expansion_uncertainty').replace(',', '.') || '0' },
    plated: yesOrNo(row, 'plated', false),
  };
};

const dimensionFrom = (row: SheetRow): PrintedDimension => {
  const code = wanted(row, 'dimension');
  return {
    code,
    name: row.text('name') || code,
    place: wanted(row, 'place'),
    kind: kindIn(row),
    unit: wanted(row, 'unit'),
    decimals: wholeNumber(row, 'decimals', [0, 6]) ?? 0,
    method: methodIn(row),
    boreRule:
      row.text('bore_rule') === ''
        ? null
        : oneOf<'per-level' | 'extremes', SheetColumn>(row, 'bore_rule', {
            words: ['per-level', 'extremes'],
            otherwise: 'per-level',
          }),
    readingsOf: orNull(row, 'readings_of'),
    minuend: orNull(row, 'minuend'),
    subtrahend: orNull(row, 'subtrahend'),
    numerator: orNull(row, 'numerator'),
    denominator: orNull(row, 'denominator'),
    scale: null,
    stated: null,
    rule: ruleIn(row),
    inside: yesOrNo(row, 'inside', true),
    nominal: null,
    plausibleSpan: null,
    instrumentKind: row.text('instrument'),
    caution: row.text('caution'),
    source: row.text('source'),
    page: row.text('page'),
    positions: [],
    limits: [],
  };
};

/** A figure with its decimal comma made a point; its unit is the dimension's where none is given. */
const figureFrom = (row: SheetRow, unit: string): Figure => {
  const [source, page] = [row.text('source'), row.text('page')];
  return {
    value: wanted(row, 'value').replace(',', '.'),
    unit: row.text('unit') || unit,
    ...(source === '' ? {} : { source }),
    ...(page === '' ? {} : { page }),
  };
};

const positionFrom = (row: SheetRow): PrintedDimension['positions'][number] => {
  const code = wanted(row, 'position');
  const height = row.text('value').replace(',', '.');
  return {
    code,
    label: row.text('label') || (row.saysNothing('label') ? '' : code),
    level: wholeNumber(row, 'level', [1, 50]),
    axis: orNull(row, 'axis'),
    height: height === '' ? null : { value: height, unit: row.text('unit') || 'mm' },
  };
};

const none = { low: null, high: null };

function withBound(of: PrintedDimension, sizeClass: string, set: (limits: PrintedLimits) => PrintedLimits) {
  const known = of.limits.some((limits) => limits.sizeClass === sizeClass);
  const limits = known ? of.limits : [...of.limits, { sizeClass, standard: none, service: none }];
  return { ...of, limits: limits.map((one) => (one.sizeClass === sizeClass ? set(one) : one)) };
}

function withFigure(of: PrintedDimension, what: Bound | OwnFigure, { row, figure }: { row: SheetRow; figure: Figure }) {
  const sizeClass = row.text('size_class') || 'standard';
  const bound = (set: (limits: PrintedLimits) => PrintedLimits) => withBound(of, sizeClass, set);
  switch (what) {
    case 'standard low':
      return bound((limits) => ({ ...limits, standard: { ...limits.standard, low: figure } }));
    case 'standard high':
      return bound((limits) => ({ ...limits, standard: { ...limits.standard, high: figure } }));
    case 'service low':
      return bound((limits) => ({ ...limits, service: { ...limits.service, low: figure } }));
    case 'service high':
      return bound((limits) => ({ ...limits, service: { ...limits.service, high: figure } }));
    case 'nominal':
      return { ...of, nominal: figure };
    case 'plausible span':
      return { ...of, plausibleSpan: figure };
    case 'stated':
      return { ...of, stated: figure };
    case 'scale':
      return { ...of, scale: figure };
  }
}

/** Tells a second row of one thing. */
function isSecond(reading: Reading, key: string, row: SheetRow): boolean {
  const before = reading.rows.get(key);
  if (before === undefined) {
    reading.rows.set(key, row.row);
    return false;
  }
  row.fault('what', `Row ${before} has said this already.`);
  return true;
}

const keyOf = (...parts: readonly string[]): string => JSON.stringify(parts);

function takePlaceOrDimension(reading: Reading, row: SheetRow, what: 'place' | 'dimension'): void {
  if (what === 'place') {
    const place = placeFrom(row);
    if (!isSecond(reading, keyOf('place', place.code), row)) reading.places.set(place.code, place);
    return;
  }
  const of = dimensionFrom(row);
  if (isSecond(reading, keyOf('dimension', of.code), row)) return;
  // In its old place where the sheet had it before.
  reading.dimensions.set(of.code, { of, row: row.row, decimalsSaid: row.text('decimals') !== '' });
}

function takePart(reading: Reading, row: SheetRow, what: Exclude<What, 'place' | 'dimension'>): void {
  const code = wanted(row, 'dimension');
  const growing = reading.dimensions.get(code);
  if (growing === undefined) {
    if (code !== '') row.fault('dimension', `No row says what "${code}" is: one with "dimension" in the column what.`);
    return;
  }
  const { of } = growing;
  if (what === 'position') {
    const position = positionFrom(row);
    if (isSecond(reading, keyOf('position', code, position.code), row)) return;
    const at = of.positions.findIndex((one) => one.code === position.code);
    const positions = at < 0 ? [...of.positions, position] : of.positions.with(at, position);
    reading.dimensions.set(code, { ...growing, of: { ...of, positions } });
    return;
  }
  const isBound = bounds.some((bound) => bound === what);
  const sizeClass = isBound ? row.text('size_class') || 'standard' : '';
  if (!isBound && row.text('size_class') !== '') row.fault('size_class', `A ${what} is of all size classes.`);
  if (isSecond(reading, keyOf(what, code, sizeClass), row)) return;
  reading.dimensions.set(code, { ...growing, of: withFigure(of, what, { row, figure: figureFrom(row, of.unit) }) });
}

const decimalsOf = ({ value }: Figure): number => /\.(\d+)$/.exec(value)?.[1]?.length ?? 0;

/** Where a dimension doesn't say how many decimals it is told with: as many as its figures are printed with. */
function withDecimals({ of, decimalsSaid }: Growing): PrintedDimension {
  if (decimalsSaid) return of;
  const figures = [
    of.nominal,
    of.stated,
    ...of.limits.flatMap(({ standard, service }) => [standard.low, standard.high, service.low, service.high]),
  ].flatMap((figure) => (figure === null || figure.unit !== of.unit ? [] : [decimalsOf(figure)]));
  return { ...of, decimals: Math.min(6, Math.max(0, ...figures)) };
}

function noteMeasured(origins: Origins, rows: ReadonlyMap<string, number>, document: SheetDocument): void {
  const note = (pointer: string, ...key: readonly string[]) => {
    const row = rows.get(keyOf(...key));
    if (row !== undefined) origins.note(pointer, row);
  };
  for (const [index, { code }] of document.places.entries()) note(`/places/${index}`, 'place', code);
  for (const [index, { code, positions, limits }] of document.dimensions.entries()) {
    const at = `/dimensions/${index}`;
    note(at, 'dimension', code);
    for (const [place, position] of positions.entries())
      note(`${at}/positions/${place}`, 'position', code, position.code);
    note(`${at}/nominal`, 'nominal', code, '');
    note(`${at}/plausibleSpan`, 'plausible span', code, '');
    note(`${at}/stated`, 'stated', code, '');
    note(`${at}/scale`, 'scale', code, '');
    for (const [place, { sizeClass }] of limits.entries()) {
      for (const bound of bounds) note(`${at}/limits/${place}/${bound.replace(' ', '/')}`, bound, code, sizeClass);
    }
  }
}

interface MeasuredRead {
  readonly places: readonly PrintedPlace[];
  readonly dimensions: readonly PrintedDimension[];
  readonly rows: ReadonlyMap<string, number>;
}

/** The table of places and dimensions. `keep`: what the sheet has besides stays, and a row changes what it names. */
function readMeasured(
  table: CsvTable,
  { before, keep }: { readonly before: SheetDocument; readonly keep: boolean },
  faults: RowFault[],
): MeasuredRead | undefined {
  const read = readCsvTable(table, { columns: sheetColumns, required: ['dimension', 'what'], mostRows });
  faults.push(...read.faults);
  if (!read.ok) return undefined;
  const rows = read.rows.map((row) => sheetRowOf(row, faults));
  const reading: Reading = {
    places: new Map(before.places.map((place) => [place.code, place])),
    dimensions: new Map(
      keep ? before.dimensions.map((one) => [one.code, { of: one, row: undefined, decimalsSaid: true }]) : [],
    ),
    rows: new Map(),
  };
  const said = rows.flatMap((row) => {
    const what = whatOf(row);
    return what === undefined ? [] : [{ row, what }];
  });
  // Rows may come sorted in any way: what a dimension is comes first, then what belongs to it.
  for (const { row, what } of said)
    if (what === 'place' || what === 'dimension') takePlaceOrDimension(reading, row, what);
  for (const { row, what } of said) if (what !== 'place' && what !== 'dimension') takePart(reading, row, what);
  return {
    places: [...reading.places.values()],
    dimensions: [...reading.dimensions.values()].map(withDecimals),
    rows: reading.rows,
  };
}

function whatOf(row: SheetRow): What | undefined {
  const shape = row.text('shape');
  if (shape !== '' && shape !== String(documentShape))
    row.fault('shape', `This program reads shape ${documentShape}, and the file says ${shape}.`);
  const text = row
    .text('what')
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');
  const what = whats.find((one) => one === text);
  if (what === undefined) row.fault('what', `"${row.text('what')}" is none of ${whats.join(', ')}.`);
  return what;
}

const refused = (row: number, column: string, detail: string): SheetFileRead => ({
  ok: false,
  faults: [{ row, column, detail }],
});

/** The first table of dimensions and the other tables by name; or what is wrong with the titles. */
function tablesIn(all: readonly CsvTable[]): { measured: CsvTable | undefined; others: NamedTables } | SheetFileRead {
  const named = new Map<TableName | 'dimensions', CsvTable>();
  for (const table of all) {
    const name = (['dimensions', ...tableNames] as const).find((one) => one === (table.title || 'dimensions'));
    if (name === undefined) {
      const detail = `There is no table "${table.title}". The tables are dimensions, ${tableNames.join(', ')}.`;
      return refused(table.row, 'table', detail);
    }
    if (named.has(name)) return refused(table.row, 'table', `The table ${name} is there twice.`);
    named.set(name, table);
  }
  const { dimensions: measured, ...others } = Object.fromEntries(named);
  return { measured, others };
}

/**
 * Reads a sheet from a file: the table of its places and dimensions, and those of fasteners, rings, valves and proofs,
 * whichever it holds. `keep`: what the sheet has besides stays, and a row changes what it names; otherwise each table
 * takes the place of what the sheet has of its kind. What the file has no table for stays either way.
 */
export function readSheetCsv(text: string, of: { before: SheetDocument; keep: boolean }): SheetFileRead {
  const file = csvTablesOf(text);
  if (!file.ok) return file;
  const tables = tablesIn(file.tables);
  if ('ok' in tables) return tables;
  const { measured: first, others } = tables;
  if (file.tables.every(({ records }) => records.length < 2) && first !== undefined)
    return refused(first.row, 'dimension', 'The file has no rows below the names of its columns.');
  const faults: RowFault[] = [];
  const measured = first === undefined ? undefined : readMeasured(first, of, faults);
  if (first !== undefined && measured === undefined) return { ok: false, faults };
  const { places, dimensions } = measured ?? of.before;
  const origins = originsIn();
  const assembled = readTables(others, of, { faults, origins });
  const document: SheetDocument = { ...of.before, ...assembled, places, dimensions };
  noteMeasured(origins, measured?.rows ?? new Map(), document);
  return { ok: true, document, origins, faults: faults.toSorted((a, b) => a.row - b.row) };
}
