import type { RowFault } from '#platform/csv-file.ts';

/** In a cell: nothing goes with it any more. An empty cell leaves what does. */
const takenBack = '-';

interface CompanionCells {
  readonly row: number;
  readonly number: string;
  /** Numbers and how many of each, such as `CL-18*2; PIN-1`. */
  readonly goesWith: string;
}

/** What goes with a part of the file: all of it; what is not named does not go with it any more. */
export interface CompanionsRow {
  readonly number: string;
  readonly others: readonly { readonly number: string; readonly count: number }[];
}

interface KnownCompanions {
  /** Every part, those that the same file adds too, in small letters. */
  readonly numbers: ReadonlySet<string>;
  /** What goes with each part, by number in small letters. */
  readonly companions: ReadonlyMap<string, readonly string[]>;
}

const pieces = ({ goesWith }: CompanionCells): readonly string[] =>
  goesWith === '' || goesWith === takenBack ? [] : goesWith.split(';').map((piece) => piece.trim());

/** One part of the cell; without a count, one of it. */
function companionIn(piece: string): { readonly number: string; readonly count: number } {
  const [, number = piece, count = '1'] = /^(.*\S)\s*\*\s*(\d{1,6})$/.exec(piece) ?? [];
  return { number, count: Number(count) };
}

/** Every part that the rows name as going with another, each once. */
export const companionsNamed = (rows: readonly CompanionCells[]): readonly string[] => [
  ...new Set(rows.flatMap((row) => pieces(row).map((piece) => companionIn(piece).number))),
];

/** Reads what goes with which part, and adds what is wrong to the faults. */
export function companionsIn(
  rows: readonly CompanionCells[],
  known: KnownCompanions,
  faults: RowFault[],
): readonly CompanionsRow[] {
  const said = rows.flatMap((cells) => {
    const { row, number, goesWith } = cells;
    if (goesWith === '') return [];
    const fault = (detail: string) => faults.push({ row, column: 'goes_with', detail });
    const others = pieces(cells).map(companionIn);
    for (const other of others) {
      const small = other.number.toLowerCase();
      if (other.number === '') fault('A part is missing between the semicolons, such as CL-18*2; PIN-1*1.');
      else if (other.count < 1 || other.count > 100_000)
        fault(`"${other.number}*${other.count}" has no count from 1 to 100000.`);
      else if (!known.numbers.has(small)) fault(`There is no part "${other.number}".`);
      else if (small === number.toLowerCase()) fault('A part cannot go with itself.');
    }
    const named = others.map((other) => other.number.toLowerCase());
    if (new Set(named).size < named.length) fault('One part is named twice.');
    return [{ row, number, others }];
  });
  faults.push(...ringsIn(said, known));
  return said;
}

/** Rows that close a ring, each at its own cell; the database would refuse the file as a whole. */
function ringsIn(
  rows: readonly (CompanionsRow & { readonly row: number })[],
  { companions }: KnownCompanions,
): readonly RowFault[] {
  const next = new Map(companions);
  for (const { number, others } of rows)
    next.set(
      number.toLowerCase(),
      others.map((other) => other.number.toLowerCase()),
    );
  return rows.flatMap(({ row, number, others }) => {
    const self = number.toLowerCase();
    const over = others.find((other) => other.number.toLowerCase() !== self && leads(next, other.number, self));
    if (over === undefined) return [];
    return [{ row, column: 'goes_with', detail: `${number} would, over ${over.number}, go with itself.` }];
  });
}

function leads(next: ReadonlyMap<string, readonly string[]>, from: string, to: string): boolean {
  const seen = new Set<string>();
  const ahead = [from.toLowerCase()];
  for (let at = ahead.pop(); at !== undefined; at = ahead.pop()) {
    if (at === to) return true;
    if (seen.has(at)) continue;
    seen.add(at);
    ahead.push(...(next.get(at) ?? []));
  }
  return false;
}

/** The cell that says what goes with a part. */
export const companionsText = (others: readonly { readonly number: string; readonly count: number }[]): string =>
  others.map(({ number, count }) => `${number}*${count}`).join('; ');
