import type { Figure, PrintedDimension, PrintedPlace, SheetDocument } from '#domain/spec-sheet/document.ts';
import { csvFileOf } from '#platform/csv-file.ts';
import { kept, nothingSaid, whether } from './cell-text.ts';
import { tablesAsCsv } from './sheet-tables.ts';

/** The columns of a spec sheet as a file; docs/spec-sheets.md tells what each holds. */
export const sheetColumns = [
  'dimension',
  'what',
  'size_class',
  'value',
  'unit',
  'source',
  'page',
  'name',
  'place',
  'kind',
  'decimals',
  'method',
  'bore_rule',
  'readings_of',
  'minuend',
  'subtrahend',
  'numerator',
  'denominator',
  'rule',
  'inside',
  'instrument',
  'caution',
  'position',
  'label',
  'level',
  'axis',
  'layer',
  'material',
  'expansion',
  'expansion_uncertainty',
  'plated',
  'shape',
] as const;
export type SheetColumn = (typeof sheetColumns)[number];
type Cells = Partial<Readonly<Record<SheetColumn, string>>>;

/** What a row of figures is, by the bound that it gives. */
export const bounds = ['standard low', 'standard high', 'service low', 'service high'] as const;
export type Bound = (typeof bounds)[number];
export const ownFigures = ['nominal', 'plausible span', 'stated', 'scale'] as const;
export type OwnFigure = (typeof ownFigures)[number];

const number = (of: number | null): string => (of === null ? '' : String(of));

const placeRow = ({ code, name, layer, material, expansion, plated }: PrintedPlace): Cells => ({
  what: 'place',
  place: code,
  name,
  layer: layer ?? '',
  material,
  expansion: expansion?.value ?? '',
  expansion_uncertainty: expansion?.uncertainty ?? '',
  plated: whether(plated),
});

const dimensionRow = (of: PrintedDimension): Cells => ({
  dimension: of.code,
  what: 'dimension',
  name: of.name,
  place: of.place,
  kind: of.kind,
  unit: of.unit,
  decimals: String(of.decimals),
  method: of.method,
  bore_rule: of.boreRule ?? '',
  readings_of: of.readingsOf ?? '',
  minuend: of.minuend ?? '',
  subtrahend: of.subtrahend ?? '',
  numerator: of.numerator ?? '',
  denominator: of.denominator ?? '',
  rule: of.rule,
  inside: whether(of.inside),
  instrument: of.instrumentKind,
  caution: of.caution,
  source: of.source,
  page: of.page,
});

const figureRow = (dimension: string, what: Bound | OwnFigure, figure: Figure | null): readonly Cells[] =>
  figure === null
    ? []
    : [
        {
          dimension,
          what,
          value: figure.value,
          unit: figure.unit,
          source: figure.source ?? '',
          page: figure.page ?? '',
        },
      ];

function rowsOf(of: PrintedDimension): readonly Cells[] {
  const positions = of.positions.map(
    ({ code, label, level, axis, height }): Cells => ({
      dimension: of.code,
      what: 'position',
      position: code,
      label: label === '' ? nothingSaid : kept(label),
      level: number(level),
      axis: axis ?? '',
      value: height?.value ?? '',
      unit: height?.unit ?? '',
    }),
  );
  const limits = of.limits.flatMap(({ sizeClass, standard, service }) =>
    [
      ...figureRow(of.code, 'standard low', standard.low),
      ...figureRow(of.code, 'standard high', standard.high),
      ...figureRow(of.code, 'service low', service.low),
      ...figureRow(of.code, 'service high', service.high),
    ].map((row) => ({ ...row, size_class: sizeClass })),
  );
  return [
    dimensionRow(of),
    ...positions,
    ...figureRow(of.code, 'nominal', of.nominal),
    ...figureRow(of.code, 'plausible span', of.plausibleSpan),
    ...figureRow(of.code, 'stated', of.stated),
    ...figureRow(of.code, 'scale', of.scale),
    ...limits,
  ];
}

/** Figures stay as they are; a label was seen to before. */
const unguarded: ReadonlySet<string> = new Set(['value', 'label']);
const guarded = (row: Cells): Cells =>
  Object.fromEntries(
    Object.entries(row).map(([column, text]) => [column, unguarded.has(column) ? text : kept(text ?? '')]),
  );

/** All of a sheet as a file for a spreadsheet: places and dimensions first, then the other tables, each titled. */
export function sheetAsCsv(document: SheetDocument): string {
  const { shape, places, dimensions } = document;
  const rows = [...places.map(placeRow), ...dimensions.flatMap(rowsOf)].map(guarded);
  const [first, ...others] = rows;
  const measured = csvFileOf(sheetColumns, first === undefined ? [] : [{ ...first, shape: String(shape) }, ...others]);
  // The byte order mark tells a spreadsheet that the text is UTF-8.
  return `\uFEFF${measured}${tablesAsCsv(document)}`;
}
