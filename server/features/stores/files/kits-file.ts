import { csvFileInBatches } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { type CellReader, namedIn, readRows } from '../books/cells.ts';

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

const form = { columns, required: columns, mostRows: most };

/** The numbers of parts that a file names, to be looked up at once. */
export const partsInKitsFile = (text: string): readonly string[] => namedIn(text, form, 'part');

function partOf(cells: CellReader<Column>, parts: Known['parts']): string {
  const number = cells.wanted('part', 40);
  const part = parts.get(number.toLowerCase());
  if (number !== '' && part === undefined) cells.fault('part', `There is no part ${number}. Add it first.`);
  if (part?.retired === true) cells.fault('part', `${number} is not kept any more.`);
  return part?.id ?? '';
}

/** Reads a file of kits, one row a part of a kit; every bad row and column is named, and then nothing is kept. */
export function readKitsFile(text: string, { families, parts }: Known): readonly KitRow[] {
  const seen = new Map<string, number>();
  return readRows(text, form, (cells, row): KitRow => {
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
}

export interface KitLineOut {
  readonly family: string;
  readonly kit: string;
  readonly part: string;
  readonly quantity: number;
}

/** All kits as a file that can be brought in again. */
export const kitsFileOf = (batches: AsyncIterable<readonly KitLineOut[]>): AsyncGenerator<string> =>
  csvFileInBatches(columns, batches, (line) => guardedRow({ ...line, quantity: String(line.quantity) }));
