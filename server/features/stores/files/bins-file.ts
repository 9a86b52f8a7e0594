import { csvFileInBatches, type RowFault, readCsvFile, rowRefusal } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { cellReader } from '../books/cells.ts';
import { eachOf } from '../books/parts-file.ts';

const columns = ['code', 'walk_order', 'closed'] as const;
const most = 20_000;

export interface BinRow {
  readonly code: string;
  /** Null: as it is; of a new bin, after all others. */
  readonly walkOrder: number | null;
  readonly closed: boolean | null;
}

/** Reads a file of bins; every bad row and column is named, and then nothing is kept. */
export function readBinsFile(text: string): readonly BinRow[] {
  const file = readCsvFile(text, { columns, required: ['code'], mostRows: most });
  if (!file.ok) throw rowRefusal(file.faults);
  const faults: RowFault[] = [...file.faults];
  const seen = new Map<string, number>();
  const bins = file.rows.map((row): BinRow => {
    const cells = cellReader(row, faults);
    const code = cells.wanted('code', 20);
    const twice = seen.get(code.toLowerCase());
    if (twice !== undefined) cells.fault('code', `"${code}" is in row ${twice} too.`);
    seen.set(code.toLowerCase(), row.row);
    return {
      code,
      walkOrder: cells.whole('walk_order', { min: 0, max: 1_000_000 }) ?? null,
      closed: cells.yes('closed') ?? null,
    };
  });
  if (faults.length > 0) throw rowRefusal(faults.toSorted((a, b) => a.row - b.row));
  return bins;
}

export interface BinLine {
  readonly code: string;
  readonly walkOrder: number;
  readonly closed: boolean;
}

/** All bins as a file that can be brought in again. */
export const binsFileOf = (batches: AsyncIterable<readonly BinLine[]>): AsyncGenerator<string> =>
  csvFileInBatches(
    columns,
    eachOf(batches, ({ code, walkOrder, closed }) =>
      guardedRow({ code, walk_order: String(walkOrder), closed: closed ? 'yes' : 'no' }),
    ),
  );
