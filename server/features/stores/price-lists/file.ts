import { readRows } from '../books/cells.ts';

const columns = ['their_number', 'our_number', 'name', 'price', 'pack', 'from'] as const;
const most = 60_000;

export interface PriceRow {
  /** As a spreadsheet counts it. */
  readonly row: number;
  readonly theirs: string;
  readonly ours: string;
  readonly name: string;
  /** Of one pack. */
  readonly priceMinor: number;
  /** How many of the part’s unit a pack has; null: as this vendor sold it before, else one. */
  readonly packSize: number | null;
  readonly from: string;
}

/** Reads a vendor's price list; every bad row and column is named, and then nothing is kept. */
export function readPriceList(
  text: string,
  of: { readonly digits: number; readonly from: string },
): readonly PriceRow[] {
  return readRows(text, { columns, required: ['their_number', 'price'], mostRows: most }, (cells, row): PriceRow => {
    const from = cells.day('from');
    const priceMinor = cells.minor('price', of.digits);
    if (!row.cells.has('price')) cells.fault('price', 'is empty.');
    const [theirs, ours] = [cells.text('their_number', 60), cells.text('our_number', 40)];
    if (theirs === '' && ours === '') cells.fault('their_number', 'is empty, and so is our_number.');
    return {
      row: row.row,
      theirs,
      ours,
      name: cells.text('name', 120),
      priceMinor: priceMinor ?? 0,
      packSize: cells.whole('pack', { min: 1, max: 100_000 }) ?? null,
      from: from ?? of.from,
    };
  });
}
