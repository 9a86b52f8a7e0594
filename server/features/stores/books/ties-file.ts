import type { RowFault } from '#platform/csv-file.ts';
import type { Alternative } from '../instead/queries.ts';
import { refuseFaults } from './cells.ts';
import { type CompanionsRow, companionsIn, companionsNamed } from './companions-file.ts';

/** In a cell: what was there holds no longer. An empty cell leaves it as it was. */
const takenBack = '-';

/** What one row of a file of parts says of other parts, as it was written. */
export interface TieCells {
  readonly row: number;
  readonly number: string;
  readonly supersededBy: string;
  readonly oldStock: string;
  /** One alternative a line: its number, a colon, when it will do. */
  readonly alternatives: string;
  /** What goes with it: `CL-18*2; PIN-1`. */
  readonly goesWith: string;
}

/** What the shop knows, numbers in small letters. */
export interface KnownTies {
  /** Every part, those that the same file adds too. */
  readonly numbers: ReadonlySet<string>;
  /** Which number replaces which. */
  readonly successors: ReadonlyMap<string, string>;
  /** What goes with which number. */
  readonly companions: ReadonlyMap<string, readonly string[]>;
}

export interface SuccessorRow {
  readonly number: string;
  /** Empty: nothing replaces it any more. Null: what replaces it stays. */
  readonly by: string | null;
  readonly useUp: boolean | null;
}

export interface AlternativesRow {
  readonly number: string;
  /** All of them: what is not named will not do any more. */
  readonly others: readonly { readonly number: string; readonly condition: string }[];
}

export interface Ties {
  readonly successors: readonly SuccessorRow[];
  readonly alternatives: readonly AlternativesRow[];
  readonly companions: readonly CompanionsRow[];
}

/** Reads what a file says of parts in each other's place and beside each other; every bad row and column is named, and then nothing is kept. */
export function readTies(rows: readonly TieCells[], known: KnownTies): Ties {
  const faults: RowFault[] = [];
  const successors = rows.flatMap((row) => successorOf(row, known, faults));
  const alternatives = rows.flatMap((row) => alternativesOf(row, known, faults));
  faults.push(...circlesIn(rows, known));
  const companions = companionsIn(rows, known, faults);
  refuseFaults(faults);
  return { successors, alternatives, companions };
}

/** One line of the cell of alternatives; an empty number: it is none. */
function alternativeIn(line: string): { readonly number: string; readonly condition: string } {
  const [, number = '', condition = ''] = /^\s*(.+?)\s*:\s+(.*\S)\s*$/.exec(line) ?? [];
  return { number, condition };
}

const alternativeLines = ({ alternatives }: TieCells): readonly string[] =>
  alternatives === '' || alternatives === takenBack ? [] : alternatives.split(/\r?\n/);

/** Every other part that the rows name, each once, to be looked up at once. */
export function othersNamed(rows: readonly TieCells[]): readonly string[] {
  const named = rows.flatMap((row) => [
    row.supersededBy,
    ...alternativeLines(row).map((line) => alternativeIn(line).number),
  ]);
  const others = [...named, ...companionsNamed(rows)];
  return [...new Set(others.filter((number) => number !== '' && number !== takenBack))];
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

function successorOf(cells: TieCells, known: KnownTies, faults: RowFault[]): readonly SuccessorRow[] {
  const { row, number, supersededBy, oldStock } = cells;
  const fault = (column: string, detail: string) => faults.push({ row, column, detail });
  if (supersededBy === '' && oldStock === '') return [];
  const back = supersededBy === takenBack;
  if (oldStock !== '' && oldStock !== 'use up' && oldStock !== 'new only')
    fault('old_stock', `"${oldStock}" is neither use up nor new only.`);
  if (supersededBy !== '' && !back && !known.numbers.has(supersededBy.toLowerCase()))
    fault('superseded_by', `There is no part "${supersededBy}".`);
  if (same(supersededBy, number)) fault('superseded_by', 'A part cannot replace itself.');
  if (oldStock !== '' && (back || (supersededBy === '' && !known.successors.has(number.toLowerCase()))))
    fault('old_stock', 'Nothing replaces this part: name it in column superseded_by.');
  const by = back ? '' : supersededBy === '' ? null : supersededBy;
  return [{ number, by, useUp: oldStock === '' ? null : oldStock === 'use up' }];
}

/** Rows that close a circle, each at its own cell; the database would refuse the file as a whole. */
function circlesIn(rows: readonly TieCells[], known: KnownTies): readonly RowFault[] {
  const next = new Map(known.successors);
  for (const { number, supersededBy } of rows) {
    if (supersededBy === takenBack) next.delete(number.toLowerCase());
    else if (supersededBy !== '') next.set(number.toLowerCase(), supersededBy.toLowerCase());
  }
  return rows.flatMap(({ row, number, supersededBy }) => {
    if (supersededBy === '' || supersededBy === takenBack || same(supersededBy, number)) return [];
    const seen = new Set([number.toLowerCase()]);
    let at = next.get(number.toLowerCase());
    while (at !== undefined && !seen.has(at)) {
      seen.add(at);
      at = next.get(at);
    }
    if (at !== number.toLowerCase()) return [];
    return [{ row, column: 'superseded_by', detail: `${number} would, over ${supersededBy}, replace itself.` }];
  });
}

function alternativesOf(cells: TieCells, known: KnownTies, faults: RowFault[]): readonly AlternativesRow[] {
  if (cells.alternatives === '') return [];
  const fault = (detail: string) => faults.push({ row: cells.row, column: 'alternatives', detail });
  const others = alternativeLines(cells).map((line) => {
    const { number, condition } = alternativeIn(line);
    if (number === '') fault(`"${line}" is no alternative such as P-25: once it is bored.`);
    else if (condition.length > 300) fault(`The condition of ${number} is longer than 300 characters.`);
    else if (!known.numbers.has(number.toLowerCase())) fault(`There is no part "${number}".`);
    else if (same(number, cells.number)) fault('A part is no alternative to itself.');
    return { number, condition };
  });
  const named = others.map(({ number }) => number.toLowerCase());
  if (new Set(named).size < named.length) fault('One part is named twice.');
  return [{ number: cells.number, others }];
}

/** The cell that says which alternatives a part has. */
export const alternativesText = (others: readonly { readonly number: string; readonly condition: string }[]): string =>
  others.map(({ number, condition }) => `${number}: ${condition}`).join('\n');

interface Pair extends Alternative {
  readonly number: string;
}

/** What has to be written so that exactly the alternatives of the file hold. */
export function alternativesToWrite(
  rows: readonly AlternativesRow[],
  has: { readonly ids: ReadonlyMap<string, string>; readonly now: readonly Pair[] },
): readonly Alternative[] {
  const idOf = (number: string): string => has.ids.get(number.toLowerCase()) ?? '';
  return rows.flatMap(({ number, others }) => {
    const partId = idOf(number);
    const now = has.now.filter((pair) => pair.partId === partId);
    const wanted = others.map((other) => ({ partId, otherId: idOf(other.number), condition: other.condition }));
    return [
      ...wanted.filter(
        ({ otherId, condition }) => !now.some((pair) => pair.otherId === otherId && pair.condition === condition),
      ),
      ...now
        .filter(({ otherId }) => !wanted.some((other) => other.otherId === otherId))
        .map(({ otherId }) => ({ partId, otherId, condition: '' })),
    ];
  });
}
