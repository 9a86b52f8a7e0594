import type { PrintedFasteners } from '#domain/spec-sheet/document.ts';
import { oneOf, type SheetRow, wanted, wholeNumber, yesOrNo } from './sheet-csv-cells.ts';
import { type ColumnOf, usualUnits } from './sheet-tables.ts';
import {
  entriesOf,
  figureIn,
  figureOrNone,
  nameIn,
  noteEntries,
  type Reading,
  type Row,
  rowsOf,
} from './table-rows.ts';

type Ordered<Entry> = { readonly entry: Entry; readonly row: number; readonly order: number | null };

/** In the order that the rows give; without any in that of the file. */
function inOrder<Entry, Column extends string>(
  rows: readonly { readonly row: SheetRow<Column>; readonly entry: Entry }[],
  column: Column,
): readonly Ordered<Entry>[] {
  const someSay = rows.some(({ row }) => row.text(column) !== '');
  const seen = new Map<number, number>();
  const ordered = rows.map(({ row, entry }): Ordered<Entry> => {
    const order = wholeNumber(row, column, [1, 999]);
    const before = order === null ? undefined : seen.get(order);
    if (before !== undefined) row.fault(column, `Row ${before} has ${order} already.`);
    if (someSay && row.text(column) === '') row.fault(column, 'is empty, and other rows of the set say their place.');
    if (order !== null) seen.set(order, row.row);
    return { entry, row: row.row, order };
  });
  return ordered.toSorted((a, b) => (a.order ?? 0) - (b.order ?? 0));
}

/** What the rows of a table give to each set; a set that it doesn't name keeps what it had. */
function partsOf<Table extends 'fasteners' | 'stages', Entry>(
  reading: Reading,
  of: {
    readonly table: Table;
    readonly order: ColumnOf<Table>;
    readonly sets: ReadonlySet<string>;
    readonly from: (row: Row<Table>) => Entry;
  },
): ReadonlyMap<string, readonly Ordered<Entry>[]> {
  const bySet = new Map<string, { readonly row: Row<Table>; readonly entry: Entry }[]>();
  for (const row of rowsOf(reading, of.table)?.rows ?? []) {
    const code = wanted(row, 'set');
    if (code !== '' && !of.sets.has(code)) {
      row.fault('set', `No row of the table "fastener sets" says what "${code}" is.`);
      continue;
    }
    bySet.set(code, [...(bySet.get(code) ?? []), { row, entry: of.from(row) }]);
  }
  return new Map([...bySet].map(([code, rows]) => [code, inOrder(rows, of.order)]));
}

const setFrom = (row: Row<'fastener sets'>, code: string): PrintedFasteners => ({
  code,
  name: nameIn(row, code),
  thread: row.text('thread'),
  propertyClass: row.text('property_class'),
  condition: oneOf(row, 'condition', { words: ['dry', 'oiled', 'locking compound'], otherwise: 'dry' }),
  tool: row.text('tool'),
  reuse: oneOf(row, 'reuse', { words: ['reuse', 'inspect', 'one-time'], otherwise: 'reuse' }),
  orderIsMakers: yesOrNo(row, 'order_is_makers', true),
  source: row.text('source'),
  page: row.text('page'),
  positions: [],
  stages: [],
});

/** Sets of fasteners, with where they are and to what they are tightened. */
export function fastenersIn(reading: Reading): readonly PrintedFasteners[] {
  const before = reading.before.fasteners;
  const parts = new Map(before.map((set) => [set.code, set]));
  const read = entriesOf(reading, {
    table: 'fastener sets',
    code: 'set',
    before,
    from: (row, code) => {
      const { positions = [], stages = [] } = parts.get(code) ?? {};
      return { ...setFrom(row, code), positions, stages };
    },
  });
  noteEntries(reading, 'fasteners', read, {
    '': 'set',
    name: 'name',
    thread: 'thread',
    propertyClass: 'property_class',
  });
  const sets = new Set(read.entries.map(({ code }) => code));
  const positions = partsOf(reading, {
    table: 'fasteners',
    order: 'order',
    sets,
    from: (row) => {
      const unit = row.text('unit') || usualUnits.length;
      return { x: figureIn(row, 'x', unit), y: figureIn(row, 'y', unit) };
    },
  });
  const stages = partsOf(reading, {
    table: 'stages',
    order: 'stage',
    sets,
    from: (row) => ({
      torque: figureOrNone(row, 'torque', row.text('unit') || usualUnits.torque),
      angle: figureOrNone(row, 'angle', usualUnits.angle),
    }),
  });
  return read.entries.map((set, index) => {
    const own = { positions: positions.get(set.code), stages: stages.get(set.code) };
    for (const [at, { row }] of (own.positions ?? []).entries())
      reading.origins.note(`/fasteners/${index}/positions/${at}`, row, { '': 'set', x: 'x', y: 'y' });
    for (const [at, { row }] of (own.stages ?? []).entries())
      reading.origins.note(`/fasteners/${index}/stages/${at}`, row, {
        '': 'torque',
        'torque/unit': 'unit',
        angle: 'angle',
      });
    return {
      ...set,
      positions: own.positions?.map(({ entry }) => entry) ?? set.positions,
      stages: own.stages?.map(({ entry }) => entry) ?? set.stages,
    };
  });
}
