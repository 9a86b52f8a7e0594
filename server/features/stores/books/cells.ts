import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { type CsvForm, type CsvRow, type RowFault, readCsvFile, rowRefusal } from '#platform/csv-file.ts';
import { unguarded } from '#platform/spreadsheet-text.ts';

/** Reads the cells of one row, and gathers what is wrong with them. */
export interface CellReader<Column extends string> {
  readonly text: (column: Column, most: number) => string;
  readonly wanted: (column: Column, most: number) => string;
  /** A whole number in a range; undefined when the cell is empty or wrong. */
  readonly whole: (column: Column, range: { readonly min: number; readonly max: number }) => number | undefined;
  /** A sum such as 33.60 in minor units. */
  readonly minor: (column: Column, digits: number) => number | undefined;
  readonly millimetres: (column: Column) => number | undefined;
  /** A day such as 2026-11-01; undefined when the cell is empty or wrong. */
  readonly day: (column: Column) => string | undefined;
  readonly yes: (column: Column) => boolean | undefined;
  readonly fault: (column: Column, detail: string) => void;
}

const DAY = /^\d{4}-\d\d-\d\d$/;
const isDay = (text: string): boolean => DAY.test(text) && !Number.isNaN(Date.parse(text)) && dayOf(text) === text;
const dayOf = (text: string): string => new Date(Date.parse(text)).toISOString().slice(0, 10);

function cellReader<Column extends string>(
  { row, cells }: { readonly row: number; readonly cells: ReadonlyMap<Column, string> },
  faults: RowFault[],
): CellReader<Column> {
  const fault = (column: Column, detail: string): undefined => {
    faults.push({ row, column, detail });
    return undefined;
  };
  const text = (column: Column, most: number): string => {
    const cell = unguarded(cells.get(column) ?? '');
    if (cell.length > most) fault(column, `is longer than ${most} characters.`);
    return cell;
  };
  return {
    fault,
    text,
    wanted: (column, most) => {
      const cell = text(column, most);
      if (cell === '') fault(column, 'is empty.');
      return cell;
    },
    whole: (column, { min, max }) => {
      const cell = cells.get(column);
      if (cell === undefined) return undefined;
      const value = /^-?\d{1,9}$/.test(cell) ? Number(cell) : Number.NaN;
      if (value >= min && value <= max) return value;
      return fault(column, `"${cell}" is no whole number from ${min} to ${max}.`);
    },
    minor: (column, digits) => {
      const cell = cells.get(column);
      if (cell === undefined) return undefined;
      const [, whole = '', part = ''] = /^(\d{1,12})(?:[.,](\d{1,4}))?$/.exec(cell) ?? [];
      if (whole === '' || part.length > digits) {
        return fault(column, `"${cell}" is no sum such as ${digits === 0 ? '33' : `33.${'60'.padEnd(digits, '0')}`}.`);
      }
      return Number(`${whole}${part.padEnd(digits, '0')}`);
    },
    millimetres: (column) => {
      const cell = cells.get(column);
      if (cell === undefined) return undefined;
      const parsed = parseQuantity(cell.replace(',', '.'), 'mm', 'length');
      return parsed.ok && parsed.value > 0 ? parsed.value : fault(column, `"${cell}" is no thickness such as 2.30.`);
    },
    day: (column) => {
      const cell = text(column, 20);
      if (cell === '' || isDay(cell)) return cell === '' ? undefined : cell;
      return fault(column, `"${cell}" is no day such as 2026-11-01.`);
    },
    yes: (column) => {
      const cell = cells.get(column)?.toLowerCase();
      if (cell === undefined) return undefined;
      if (['yes', 'no'].includes(cell)) return cell === 'yes';
      return fault(column, `"${cell}" is neither yes nor no.`);
    },
  };
}

/** The rows of a file; one that can't be read as a whole is refused. */
function rowsOf<Column extends string>(text: string, form: CsvForm<Column>) {
  const file = readCsvFile(text, form);
  if (!file.ok) throw rowRefusal(file.faults);
  return file;
}

/** Refuses a file with everything that is wrong in it, row by row. */
export function refuseFaults(faults: readonly RowFault[]): void {
  if (faults.length > 0) throw rowRefusal(faults.toSorted((a, b) => a.row - b.row));
}

/** Makes something of each row of a file; every bad row and column is named, and then nothing is kept. */
export function readRows<Column extends string, Made>(
  text: string,
  form: CsvForm<Column>,
  make: (cells: CellReader<Column>, row: CsvRow<Column>) => Made,
): readonly Made[] {
  const file = rowsOf(text, form);
  const faults: RowFault[] = [...file.faults];
  const made = file.rows.map((row) => make(cellReader(row, faults), row));
  refuseFaults(faults);
  return made;
}

/** What the cells of one column name, each once, to be looked up before the rows are read. */
export const namedIn = <Column extends string>(
  text: string,
  form: CsvForm<Column>,
  column: Column,
): readonly string[] => [...new Set(rowsOf(text, form).rows.map(({ cells }) => unguarded(cells.get(column) ?? '')))];
