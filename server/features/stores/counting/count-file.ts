import { lineStanding } from '#domain/stock/counting.ts';
import { csvFileOf } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { type CellReader, readRows } from '../books/cells.ts';
import type { LineRead } from './reading-queries.ts';

const columns = ['bin', 'part', 'name', 'lot', 'serial', 'counted', 'line'] as const;
type Column = (typeof columns)[number];
const form = { columns, required: ['bin', 'part', 'counted'], mostRows: 10_000 } as const;

/** What of a sheet is counted in its round. */
export const isToCount = (line: LineRead): boolean => ['to count', 'to count again'].includes(lineStanding(line));

/** The lines that are to be counted, as blind as on paper: with what was keyed by whoever counts them, and nothing of the books. */
export const blindFileOf = (lines: readonly LineRead[], own: boolean): string =>
  csvFileOf(
    columns,
    lines.filter(isToCount).map((line) =>
      guardedRow({
        bin: line.bin.code,
        part: line.part.number,
        name: line.part.name,
        lot: line.lotCode,
        serial: line.serial ?? '',
        counted: own ? String(line.keyed ?? '') : '',
        line: line.id,
      }),
    ),
  );

export interface CountRow {
  readonly line: LineRead;
  readonly counted: number;
}

const same = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

type Named = ReadonlySet<Column>;

/** The lines of the sheet that a row may be about: those of a part in a bin, or the very one it names. */
function linesOf(cells: CellReader<Column>, lines: readonly LineRead[]): readonly LineRead[] {
  const [bin, part, id] = [cells.wanted('bin', 20), cells.wanted('part', 40), cells.text('line', 40)];
  if (bin === '' || part === '') return [];
  const here = lines.filter((line) => same(line.bin.code, bin));
  if (here.length === 0) cells.fault('bin', `This sheet has nothing to count in a bin "${bin}".`);
  const ofPart = here.filter((line) => same(line.part.number, part));
  if (here.length > 0 && ofPart.length === 0)
    cells.fault('part', `${part} is on no line of bin ${bin}. Add what was found on the sheet itself.`);
  return id === '' ? ofPart : ofPart.filter((line) => line.id === id);
}

/** The line of the sheet that a row is about; undefined: something is wrong with the row, which is said. */
function lineOf(cells: CellReader<Column>, lines: readonly LineRead[], named: Named): LineRead | undefined {
  const [lot, serial] = [cells.text('lot', 40), cells.text('serial', 60)];
  const ofPart = linesOf(cells, lines);
  const fits = ofPart.filter(
    (line) =>
      (!named.has('lot') || same(line.lotCode, lot)) && (!named.has('serial') || same(line.serial ?? '', serial)),
  );
  const [line, other] = fits;
  if (line === undefined) {
    if (ofPart.length > 0)
      cells.fault(named.has('serial') ? 'serial' : 'lot', 'is on no line of that part in that bin.');
    return undefined;
  }
  if (other !== undefined) {
    cells.fault('part', `is on ${fits.length} lines of bin ${line.bin.code}. Say which by its lot, serial or line.`);
    return undefined;
  }
  if (!isToCount(line)) cells.fault('part', `is not to be counted now in bin ${line.bin.code}.`);
  return line;
}

/** Reads what was counted; a row with nothing counted is left out, every bad one is named, and then nothing is kept. */
export function readCountFile(text: string, lines: readonly LineRead[]): readonly CountRow[] {
  const seen = new Map<string, number>();
  return readRows(text, form, (cells, row): CountRow | undefined => {
    const named = new Set(columns.filter((column) => row.cells.has(column)));
    if (!named.has('counted')) return undefined;
    const line = lineOf(cells, lines, named);
    const counted = cells.whole('counted', { min: 0, max: (line?.serial ?? null) === null ? 100_000 : 1 });
    if (line === undefined || counted === undefined) return undefined;
    const twice = seen.get(line.id);
    if (twice !== undefined) cells.fault('part', `is counted in row ${twice} too.`);
    seen.set(line.id, row.row);
    return { line, counted };
  }).filter((row) => row !== undefined);
}
