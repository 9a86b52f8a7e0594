import { type RingFaces, usualFaces } from '#domain/build/ring-clock.ts';
import type { PrintedRing, PrintedValve, SheetDocument } from '#domain/spec-sheet/document.ts';
import type { RowFault } from '#platform/csv-file.ts';
import { fastenersIn } from './fastener-tables.ts';
import { type Origins, oneOf, orNull, wanted, yesOrNo } from './sheet-csv-cells.ts';
import { type ColumnOf, type TableName, usualUnits } from './sheet-tables.ts';
import {
  entriesOf,
  figureIn,
  figureOrNone,
  type NamedTables,
  nameIn,
  noteEntries,
  type Reading,
  type Row,
  rowsOf,
} from './table-rows.ts';

export const tableNames = [
  'sheet',
  'fastener sets',
  'fasteners',
  'stages',
  'rings',
  'ring zones',
  'valves',
  'proofs',
] as const satisfies readonly TableName[];
type Assembled = Omit<SheetDocument, 'shape' | 'family' | 'places' | 'dimensions'>;

function ringFrom(row: Row<'rings'>, code: string): PrintedRing {
  const part = oneOf(row, 'part', { words: ['compression', 'spacer', 'rail'], otherwise: 'compression' });
  return {
    code,
    name: nameIn(row, code),
    angle: figureOrNone(row, 'angle', usualUnits.angle),
    part,
    pin: figureOrNone(row, 'pin', usualUnits.angle),
    mark: row.text('mark'),
    faces: oneOf<RingFaces, 'faces'>(row, 'faces', {
      words: ['crown', 'skirt', 'either'],
      otherwise: usualFaces(part),
    }),
  };
}

const valveFrom = (row: Row<'valves'>, code: string): PrintedValve => {
  const unit = row.text('unit') || usualUnits.length;
  const sized = row.text('shim_low') !== '' || row.text('shim_high') !== '';
  return {
    code,
    name: nameIn(row, code),
    side: oneOf(row, 'side', { words: ['intake', 'exhaust'], otherwise: 'intake' }),
    dimension: wanted(row, 'dimension'),
    wanted: figureIn(row, 'wanted', unit),
    adjuster: oneOf(row, 'adjuster', {
      words: ['shim under bucket', 'shim on bucket', 'screw'],
      otherwise: 'shim under bucket',
    }),
    shimDiameter: figureOrNone(row, 'shim_diameter', unit),
    shimSizes: sized ? { low: figureIn(row, 'shim_low', unit), high: figureIn(row, 'shim_high', unit) } : null,
    screwPitch: figureOrNone(row, 'screw_pitch', unit),
  };
};

function valvesIn(reading: Reading): readonly PrintedValve[] {
  const read = entriesOf(reading, {
    table: 'valves',
    code: 'valve',
    before: reading.before.valves,
    from: valveFrom,
  });
  noteEntries(reading, 'valves', read, {
    '': 'valve',
    name: 'name',
    dimension: 'dimension',
    wanted: 'wanted',
    shimDiameter: 'shim_diameter',
    shimSizes: 'shim_low',
    'shimSizes/high': 'shim_high',
    screwPitch: 'screw_pitch',
  });
  return read.entries;
}

function zonesIn(reading: Reading): SheetDocument['ringZones'] {
  const before = reading.before.ringZones;
  const read = rowsOf(reading, 'ring zones');
  if (read === undefined) return before;
  const { angle } = usualUnits;
  const said = read.rows.map((row) => {
    wanted(row, 'from');
    wanted(row, 'to');
    const zone = { from: figureIn(row, 'from', angle), to: figureIn(row, 'to', angle), reason: row.text('reason') };
    return { row: row.row, zone };
  });
  const same = (a: SheetDocument['ringZones'][number], b: typeof a) =>
    a.from.value === b.from.value && a.to.value === b.to.value;
  const stay = reading.keep ? before.filter((zone) => !said.some((one) => same(one.zone, zone))) : [];
  for (const [index, { row }] of said.entries())
    reading.origins.note(`/ringZones/${stay.length + index}`, row, { '': 'reason', from: 'from', to: 'to' });
  return [...stay, ...said.map(({ zone }) => zone)];
}

/** What the sheet says as a whole: only what the table has a column for is changed. */
function sheetIn(reading: Reading): Pick<Assembled, 'note' | 'figuresInvented' | 'ringSeparation' | 'railOffset'> {
  const { note, figuresInvented, ringSeparation, railOffset, family } = reading.before;
  const read = rowsOf(reading, 'sheet');
  const [row, second] = read?.rows ?? [];
  second?.fault('note', 'The table sheet has one row.');
  if (read === undefined || row === undefined) return { note, figuresInvented, ringSeparation, railOffset };
  const of = row.text('family');
  if (of !== '' && of !== family.code)
    row.fault('family', `This is a sheet of "${of}", and the family is "${family.code}".`);
  reading.origins.note('/ringSeparation', row.row, { '': 'ring_separation' });
  reading.origins.note('/railOffset', row.row, { '': 'rail_offset' });
  reading.origins.note('/note', row.row, { '': 'note' });
  const has = (column: ColumnOf<'sheet'>) => read.columns.includes(column);
  return {
    note: has('note') ? row.text('note') : note,
    figuresInvented: has('figures_invented') ? yesOrNo(row, 'figures_invented', false) : figuresInvented,
    ringSeparation: has('ring_separation') ? figureOrNone(row, 'ring_separation', usualUnits.angle) : ringSeparation,
    railOffset: has('rail_offset') ? figureOrNone(row, 'rail_offset', usualUnits.angle) : railOffset,
  };
}

/** Reads what the tables say besides places and dimensions; what a file has no table for stays as it was. */
export function readTables(
  tables: NamedTables,
  of: { readonly before: SheetDocument; readonly keep: boolean },
  into: { readonly faults: RowFault[]; readonly origins: Origins },
): Assembled {
  const reading: Reading = { tables, ...of, ...into };
  const rings = entriesOf(reading, {
    table: 'rings',
    code: 'ring',
    before: of.before.rings,
    from: ringFrom,
  });
  noteEntries(reading, 'rings', rings, { '': 'ring', name: 'name', angle: 'angle', pin: 'pin', mark: 'mark' });
  const proofs = entriesOf(reading, {
    table: 'proofs',
    code: 'proof',
    before: of.before.proofs,
    from: (row, code) => ({
      code,
      name: nameIn(row, code),
      dimension: orNull(row, 'dimension'),
      words: row.text('words'),
      caution: row.text('caution'),
    }),
  });
  noteEntries(reading, 'proofs', proofs, { '': 'proof', name: 'name', dimension: 'dimension', words: 'words' });
  return {
    ...sheetIn(reading),
    fasteners: fastenersIn(reading),
    rings: rings.entries,
    ringZones: zonesIn(reading),
    valves: valvesIn(reading),
    proofs: proofs.entries,
  };
}
