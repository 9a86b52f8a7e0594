import { PartUnit } from '#contracts/parts.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { csvFileInBatches } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { type CellReader, namedIn, readRows } from './cells.ts';
import { companionsText } from './companions-file.ts';
import type { KnownPart, PartFacts, PartLine } from './queries.ts';
import { alternativesText, type TieCells } from './ties-file.ts';

const columns = [
  'number',
  'name',
  'unit',
  'family',
  'place',
  'size_class',
  'grade',
  'shim_mm',
  'shim_diameter_mm',
  'one_time',
  'fastener_set',
  'by_serial',
  'price',
  'reorder_point',
  'core',
  'goes_with',
  'superseded_by',
  'old_stock',
  'alternatives',
] as const;
const form = { columns, required: ['number', 'name'] as const, mostRows: 60_000 };

interface Known {
  /** Codes of the fastener sets on the sheets of a family. */
  readonly fastenerSets: ReadonlyMap<string, ReadonlySet<string>>;
  readonly families: ReadonlyMap<string, string>;
  /** By number in small letters. */
  readonly parts: ReadonlyMap<string, KnownPart>;
  readonly digits: number;
}

/** The numbers that a file of parts is about, to be looked up at once. */
export const numbersInPartsFile = (text: string): readonly string[] => namedIn(text, form, 'number');

/** What a part is counted in, and whether by serial, stays once it has moved. */
function refuseCountedAnew(
  cells: CellReader<(typeof columns)[number]>,
  part: KnownPart | undefined,
  said: { readonly unit: string; readonly bySerial: boolean | undefined },
): void {
  if (part?.moved !== true) return;
  if (said.unit !== '' && said.unit !== part.unit)
    cells.fault('unit', `${part.number} has moved, counted in ${part.unit}: that stays.`);
  if (said.bySerial !== undefined && said.bySerial !== part.bySerial)
    cells.fault(
      'by_serial',
      `${part.number} has moved, ${part.bySerial ? 'one by one with serials' : 'without serials'}: that stays.`,
    );
}

export interface PartsRead {
  readonly parts: readonly PartFacts[];
  /** What the rows say of other parts, which may be in the file themselves. */
  readonly ties: readonly TieCells[];
}

/** Reads a file of parts; every bad row and column is named, and then nothing is kept. */
export function readPartsFile(text: string, { families, fastenerSets, parts: known, digits }: Known): PartsRead {
  const seen = new Map<string, number>();
  const ties: TieCells[] = [];
  const parts = readRows(text, form, (cells, { row }): PartFacts => {
    const number = cells.wanted('number', 40);
    const twice = seen.get(number.toLowerCase());
    if (twice !== undefined) cells.fault('number', `"${number}" is in row ${twice} too.`);
    seen.set(number.toLowerCase(), row);
    const unit = cells.text('unit', 10).toLowerCase();
    if (unit !== '' && !PartUnit.safeParse(unit).success)
      cells.fault('unit', `"${unit}" is none of ${PartUnit.options.join(', ')}.`);
    const family = cells.text('family', 40);
    const familyId = families.get(family.toLowerCase()) ?? null;
    if (family !== '' && familyId === null) cells.fault('family', `There is no family with the code "${family}".`);
    const fastenerSet = cells.text('fastener_set', 40) || null;
    if (fastenerSet !== null && fastenerSets.get(familyId ?? '')?.has(fastenerSet) !== true) {
      const of =
        familyId === null
          ? 'A fastener belongs to a family: name it in column family.'
          : `No sheet of ${family} has a fastener set "${fastenerSet}".`;
      cells.fault('fastener_set', of);
    }
    const bySerial = cells.yes('by_serial');
    refuseCountedAnew(cells, known.get(number.toLowerCase()), { unit, bySerial });
    ties.push({
      row,
      number,
      supersededBy: cells.text('superseded_by', 40),
      oldStock: cells.text('old_stock', 20).toLowerCase(),
      alternatives: cells.text('alternatives', 5_000),
      goesWith: cells.text('goes_with', 2_000),
    });
    return {
      number,
      name: cells.wanted('name', 120),
      unit: unit || null,
      familyId,
      placeCode: cells.text('place', 40) || null,
      sizeClass: cells.text('size_class', 40) || null,
      grade: cells.text('grade', 40) || null,
      shimNm: cells.millimetres('shim_mm') ?? null,
      shimDiameterNm: cells.millimetres('shim_diameter_mm') ?? null,
      oneTime: cells.yes('one_time') ?? null,
      fastenerSet,
      bySerial: bySerial ?? null,
      priceMinor: cells.minor('price', digits) ?? null,
      coreMinor: cells.minor('core', digits) ?? null,
      reorderPoint: cells.whole('reorder_point', { min: 0, max: 100_000 }) ?? null,
    };
  });
  return { parts, ties };
}

export function sumText(minor: number, digits: number): string {
  if (digits === 0) return String(minor);
  const figures = String(Math.abs(minor)).padStart(digits + 1, '0');
  return `${minor < 0 ? '-' : ''}${figures.slice(0, -digits)}.${figures.slice(-digits)}`;
}

export const millimetreText = (nm: number | null): string =>
  nm === null ? '' : formatQuantity(nm, 'mm', 6).replace(/0{1,4}$/, '');
const yesNo = (yes: boolean | null): string => (yes === true ? 'yes' : 'no');

const cellsOf = (part: PartLine, digits: number) => ({
  number: part.number,
  name: part.name,
  unit: part.unit ?? '',
  family: part.family ?? '',
  place: part.placeCode ?? '',
  size_class: part.sizeClass ?? '',
  grade: part.grade ?? '',
  shim_mm: millimetreText(part.shimNm),
  shim_diameter_mm: millimetreText(part.shimDiameterNm),
  one_time: yesNo(part.oneTime),
  fastener_set: part.fastenerSet ?? '',
  by_serial: yesNo(part.bySerial),
  price: sumText(part.priceMinor ?? 0, digits),
  reorder_point: String(part.reorderPoint ?? 0),
  core: sumText(part.coreMinor ?? 0, digits),
  goes_with: companionsText(part.companions),
  superseded_by: part.supersededBy ?? '',
  old_stock: part.supersededBy === null ? '' : part.interchangeable ? 'use up' : 'new only',
  alternatives: alternativesText(part.alternatives),
});

/** All parts as a file that can be brought in again, batch by batch. */
export function partsFileOf(batches: AsyncIterable<readonly PartLine[]>, digits: number): AsyncGenerator<string> {
  return csvFileInBatches(columns, batches, (part) => guardedRow(cellsOf(part, digits)));
}
