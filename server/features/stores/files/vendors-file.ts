import { readRows } from '../books/cells.ts';

export const vendorColumns = ['name', 'trade', 'contact', 'retired'] as const;
const most = 5000;

export interface VendorRow {
  readonly name: string;
  /** Empty: as it is. */
  readonly trade: string;
  readonly contact: string;
}

export interface VendorKnown {
  readonly name: string;
  readonly retired: boolean;
}

/** Reads a file of vendors; every bad row and column is named, and then nothing is kept. */
export function readVendorsFile(text: string, known: readonly VendorKnown[]): readonly VendorRow[] {
  const byName = new Map(known.map((vendor) => [vendor.name.toLowerCase(), vendor]));
  const seen = new Map<string, number>();
  return readRows(text, { columns: vendorColumns, required: ['name'], mostRows: most }, (cells, { row }): VendorRow => {
    const name = cells.wanted('name', 120);
    const key = name.toLowerCase();
    const twice = seen.get(key);
    if (twice !== undefined) cells.fault('name', `"${name}" is in row ${twice} too.`);
    seen.set(key, row);
    const vendor = byName.get(key);
    const trade = cells.text('trade', 120);
    if (vendor === undefined && trade === '') cells.fault('trade', 'is empty: say what a new vendor does.');
    const retired = cells.yes('retired');
    if (retired !== undefined && retired !== (vendor?.retired ?? false))
      cells.fault('retired', 'is not changed by a file: give a vendor up under Shop.');
    return { name: vendor?.name ?? name, trade, contact: cells.text('contact', 300) };
  });
}
