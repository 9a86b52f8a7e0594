import { takeAtAverage } from '#domain/stock/value.ts';
import { type CsvForm, csvFileInBatches } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { namedIn, readRows } from './cells.ts';
import { millimetreText, sumText } from './parts-file.ts';
import type { KnownPart, OpeningLot, StockLine } from './queries.ts';

const columns = ['part', 'bin', 'lot', 'quantity', 'value', 'thickness_mm', 'grade', 'serial', 'condition'] as const;
const most = 60_000;

export interface KnownThings {
  readonly parts: ReadonlyMap<string, KnownPart>;
  readonly bins: ReadonlyMap<string, { readonly id: string; readonly code: string; readonly closed: boolean }>;
  readonly digits: number;
}

const form: CsvForm<(typeof columns)[number]> = {
  columns,
  required: ['part', 'bin', 'quantity'],
  mostRows: most,
};

/** The numbers of parts and the codes of bins that a file names, to be looked up at once. */
export const namesInStockFile = (text: string) => ({
  parts: namedIn(text, form, 'part'),
  bins: namedIn(text, form, 'bin'),
});

/** Reads an opening balance; every bad row and column is named, and then nothing is kept. */
export function readStockFile(text: string, { parts, bins, digits }: KnownThings): readonly OpeningLot[] {
  const serials = new Set<string>();
  return readRows(text, form, (cells, row): OpeningLot => {
    const number = cells.wanted('part', 40);
    const part = parts.get(number.toLowerCase());
    if (number !== '' && part === undefined)
      cells.fault('part', `There is no part "${number}". Bring the parts in first.`);
    if (part?.moved === true) {
      cells.fault('part', `${part.number} has moved already, so its balance is open: count its bin instead.`);
    }
    const code = cells.wanted('bin', 20);
    const bin = bins.get(code.toLowerCase());
    if (code !== '' && bin === undefined) cells.fault('bin', `There is no bin "${code}".`);
    if (bin?.closed === true) cells.fault('bin', `Bin ${bin.code} is closed and takes nothing in.`);
    if (row.cells.get('quantity') === undefined) cells.fault('quantity', 'is empty.');
    const quantity = cells.whole('quantity', { min: 1, max: 100_000 }) ?? 0;
    const serial = cells.text('serial', 60) || null;
    if (part?.bySerial === true && serial === null) cells.fault('serial', `${part.number} is kept by serial.`);
    if (serial !== null && quantity > 1) cells.fault('quantity', 'must be 1 where a serial is given.');
    const named = `${part?.id} ${serial}`;
    if (serial !== null && serials.has(named)) cells.fault('serial', `"${serial}" is there twice.`);
    serials.add(named);
    const shimNm = cells.millimetres('thickness_mm') ?? null;
    if (shimNm !== null && part?.shim === false) cells.fault('thickness_mm', `${part.number} is no shim.`);
    return {
      partId: part?.id ?? '',
      binId: bin?.id ?? '',
      code: cells.text('lot', 40),
      shimNm,
      grade: cells.text('grade', 20),
      serial,
      condition: cells.text('condition', 300),
      quantity,
      valueMinor: cells.minor('value', digits) ?? 0,
    };
  });
}

/**
 * All stock as a file in the columns of an opening balance, batch by batch; lots of one part share its value to the last
 * minor unit.
 */
export function stockFileOf(batches: AsyncIterable<readonly StockLine[]>, digits: number): AsyncGenerator<string> {
  const left = new Map<string, { onHand: number; value: bigint }>();
  const cellsOf = (line: StockLine) => {
    const worth = left.get(line.part) ?? { onHand: line.partOnHand, value: BigInt(line.partValue) };
    const share = takeAtAverage(worth, line.quantity);
    if (share.ok) left.set(line.part, share.stock);
    return guardedRow({
      part: line.part,
      bin: line.bin,
      lot: line.lot,
      quantity: String(line.quantity),
      value: sumText(share.ok ? Number(share.moved) : 0, digits),
      thickness_mm: millimetreText(line.shimNm),
      grade: line.grade,
      serial: line.serial ?? '',
      condition: line.condition,
    });
  };
  return csvFileInBatches(columns, batches, cellsOf);
}
