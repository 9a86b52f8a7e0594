import { csvFileInBatches, type RowFault, readCsvFile, rowRefusal } from '#platform/csv-file.ts';
import { guardedRow, unguarded } from '#platform/spreadsheet-text.ts';
import { type CellReader, cellReader } from '../books/cells.ts';
import { eachOf } from '../books/parts-file.ts';

const columns = ['family', 'kit', 'part', 'quantity'] as const;
type Column = (typeof columns)[number];
const most = 60_000;

export interface KitRow {
  readonly familyId: string;
  readonly kit: string;
  readonly partId: string;
  readonly quantity: number;
}

interface Known {
  readonly families: ReadonlyMap<string, string>;
  /** By number in small letters. */
  readonly parts: ReadonlyMap<string, { readonly id: string; readonly retired: boolean }>;
}

const read = (text: string) => {
  const file = readCsvFile(text, { columns, required: columns, mostRows: most });
  if (!file.ok) throw rowRefusal(file.faults);
  return file;
};

/** The numbers of parts that a file names, to be looked up at once. */
export const partsInKitsFile = (text: string): readonly string[] => [
  ...new Set(read(text).rows.map(({ cells }) => unguarded(cells.get('part') ?? '').toLowerCase())),
];

function partOf(cells: CellReader<Column>, parts: Known['parts']): string {
  const number = cells.wanted('part', 40);
  const part = parts.get(number.toLowerCase());
  if (number !== '' && part === undefined) cells.fault('part', `There is no part ${number}. Add it first.`);
  if (part?.retired === true) cells.fault('part', `${number} is not kept any more.`);
  return part?.id ?? '';
}

/** Reads a file of kits, one row a part of a kit; every bad row and column is named, and then nothing is kept. */
export function readKitsFile(text: string, { families, parts }: Known): readonly KitRow[] {
  const file = read(text);
  const faults: RowFault[] = [...file.faults];
  const seen = new Map<string, number>();
  const rows = file.rows.map((row): KitRow => {
    const cells = cellReader(row, faults);
    const [family, kit] = [cells.wanted('family', 40), cells.wanted('kit', 80)];
    const familyId = families.get(family.toLowerCase()) ?? '';
    if (family !== '' && familyId === '') cells.fault('family', `There is no family with the code "${family}".`);
    const partId = partOf(cells, parts);
    const line = `${familyId} ${kit.toLowerCase()} ${partId}`;
    const twice = seen.get(line);
    if (partId !== '' && twice !== undefined) cells.fault('part', `is in this kit in row ${twice} too.`);
    seen.set(line, row.row);
    const quantity = cells.whole('quantity', { min: 1, max: 10_000 });
    if (!row.cells.has('quantity')) cells.fault('quantity', 'is empty.');
    return { familyId, kit, partId, quantity: quantity ?? 0 };
  });
  if (faults.length > 0) throw rowRefusal(faults.toSorted((a, b) => a.row - b.row));
  return rows;
}

export interface KitLineOut {
  readonly family: string;
  readonly kit: string;
  readonly part: string;
  readonly quantity: number;
}

/** All kits as a file that can be brought in again. */
export const kitsFileOf = (batches: AsyncIterable<readonly KitLineOut[]>): AsyncGenerator<string> =>
  csvFileInBatches(
    columns,
    eachOf(batches, (line) => guardedRow({ ...line, quantity: String(line.quantity) })),
  );
