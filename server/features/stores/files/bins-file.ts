import { csvFileInBatches } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { readRows } from '../books/cells.ts';

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
  const seen = new Map<string, number>();
  return readRows(text, { columns, required: ['code'], mostRows: most }, (cells, { row }): BinRow => {
    const code = cells.wanted('code', 20);
    const twice = seen.get(code.toLowerCase());
    if (twice !== undefined) cells.fault('code', `"${code}" is in row ${twice} too.`);
    seen.set(code.toLowerCase(), row);
    return {
      code,
      walkOrder: cells.whole('walk_order', { min: 0, max: 1_000_000 }) ?? null,
      closed: cells.yes('closed') ?? null,
    };
  });
}

export interface BinLine {
  readonly code: string;
  readonly walkOrder: number;
  readonly closed: boolean;
}

/** All bins as a file that can be brought in again. */
export const binsFileOf = (batches: AsyncIterable<readonly BinLine[]>): AsyncGenerator<string> =>
  csvFileInBatches(columns, batches, ({ code, walkOrder, closed }) =>
    guardedRow({ code, walk_order: String(walkOrder), closed: closed ? 'yes' : 'no' }),
  );
