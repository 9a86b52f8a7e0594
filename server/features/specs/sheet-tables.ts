import { usualFaces } from '#domain/build/ring-clock.ts';
import type { Printed, PrintedFasteners, PrintedValve, SheetDocument } from '#domain/spec-sheet/document.ts';
import { csvFileOf } from '#platform/csv-file.ts';
import { kept, nothingSaid, whether } from './cell-text.ts';

/** The tables of a file below that of the dimensions, and their columns; docs/spec-sheets.md tells what each holds. */
export const tableColumns = {
  sheet: ['family', 'note', 'figures_invented', 'ring_separation', 'rail_offset'],
  'fastener sets': [
    'set',
    'name',
    'thread',
    'property_class',
    'condition',
    'tool',
    'reuse',
    'order_is_makers',
    'source',
    'page',
  ],
  fasteners: ['set', 'order', 'x', 'y', 'unit'],
  stages: ['set', 'stage', 'torque', 'angle', 'unit'],
  rings: ['ring', 'name', 'angle', 'part', 'pin', 'mark', 'faces'],
  'ring zones': ['from', 'to', 'reason'],
  valves: [
    'valve',
    'name',
    'side',
    'dimension',
    'wanted',
    'adjuster',
    'shim_diameter',
    'shim_low',
    'shim_high',
    'screw_pitch',
    'unit',
  ],
  proofs: ['proof', 'name', 'dimension', 'words', 'caution'],
} as const;
export type TableName = keyof typeof tableColumns;
export type ColumnOf<Table extends TableName> = (typeof tableColumns)[Table][number];
type Cells<Table extends TableName> = Readonly<Partial<Record<ColumnOf<Table>, string>>>;

/** The unit that a figure without one is in, where its row names none either. */
export const usualUnits = { length: 'mm', torque: 'N.m', angle: 'deg' } as const;

/** Without a name one would be named by its code. */
const named = (name: string): string => (name === '' ? nothingSaid : kept(name));

/** A figure in the unit that its row names, or with its own after it. */
const figure = (of: Printed | null | undefined, unit: string): string => {
  if (of === null || of === undefined) return '';
  return of.unit === unit ? of.value : `${of.value} ${of.unit}`;
};

const setRow = (set: PrintedFasteners): Cells<'fastener sets'> => ({
  set: kept(set.code),
  name: named(set.name),
  thread: kept(set.thread),
  property_class: kept(set.propertyClass),
  condition: set.condition,
  tool: kept(set.tool),
  reuse: set.reuse,
  order_is_makers: whether(set.orderIsMakers),
  source: kept(set.source),
  page: kept(set.page),
});

const positionRows = ({ code, positions }: PrintedFasteners): readonly Cells<'fasteners'>[] =>
  positions.map(({ x, y }, index) => ({
    set: kept(code),
    order: String(index + 1),
    x: x.value,
    y: figure(y, x.unit),
    unit: x.unit,
  }));

const stageRows = ({ code, stages }: PrintedFasteners): readonly Cells<'stages'>[] =>
  stages.map(({ torque, angle }, index) => ({
    set: kept(code),
    stage: String(index + 1),
    torque: torque?.value ?? '',
    angle: figure(angle, usualUnits.angle),
    unit: torque?.unit ?? '',
  }));

function valveRow(of: PrintedValve): Cells<'valves'> {
  const { unit } = of.wanted;
  return {
    valve: kept(of.code),
    name: named(of.name),
    side: of.side,
    dimension: kept(of.dimension),
    wanted: of.wanted.value,
    adjuster: of.adjuster,
    shim_diameter: figure(of.shimDiameter, unit),
    shim_low: figure(of.shimSizes?.low, unit),
    shim_high: figure(of.shimSizes?.high, unit),
    screw_pitch: figure(of.screwPitch, unit),
    unit,
  };
}

function table<Table extends TableName>(name: Table, rows: readonly Cells<Table>[]): string {
  return `\r\ntable,${name}\r\n${csvFileOf<string>(tableColumns[name], rows)}`;
}

/** What a sheet says besides its places and dimensions, as tables one below the other; one that is empty has no rows. */
export function tablesAsCsv(document: SheetDocument): string {
  const { angle } = usualUnits;
  return [
    table('sheet', [
      {
        family: document.family.code,
        note: kept(document.note),
        figures_invented: whether(document.figuresInvented),
        ring_separation: figure(document.ringSeparation, angle),
        rail_offset: figure(document.railOffset, angle),
      },
    ]),
    table('fastener sets', document.fasteners.map(setRow)),
    table('fasteners', document.fasteners.flatMap(positionRows)),
    table('stages', document.fasteners.flatMap(stageRows)),
    table(
      'rings',
      document.rings.map((ring) => ({
        ring: kept(ring.code),
        name: named(ring.name),
        angle: figure(ring.angle, angle),
        part: ring.part ?? 'compression',
        pin: figure(ring.pin, angle),
        mark: kept(ring.mark ?? ''),
        faces: ring.faces ?? usualFaces(ring.part ?? 'compression'),
      })),
    ),
    table(
      'ring zones',
      document.ringZones.map(({ from, to, reason }) => ({
        from: figure(from, angle),
        to: figure(to, angle),
        reason: kept(reason),
      })),
    ),
    table('valves', document.valves.map(valveRow)),
    table(
      'proofs',
      document.proofs.map(({ code, name, dimension, words, caution }) => ({
        proof: kept(code),
        name: named(name),
        dimension: kept(dimension ?? ''),
        words: kept(words),
        caution: kept(caution),
      })),
    ),
  ].join('');
}
