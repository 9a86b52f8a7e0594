import { parseQuantity } from '#domain/units/parse-quantity.ts';

/** Where fasteners are, as digits in one unit, in tightening order. */
export type PastedPositions =
  | { readonly ok: true; readonly positions: readonly { readonly x: string; readonly y: string }[] }
  /** Lines count from 1; never empty. */
  | { readonly ok: false; readonly faults: readonly { readonly line: number; readonly detail: string }[] };

type Line = { readonly line: number; readonly cells: readonly string[] };
type Fault = { readonly line: number; readonly detail: string };

const most = 60;

/** A comma parts figures only where blanks, tabs and semicolons don't, or where a blank follows it. */
const cellsOf = (text: string): readonly string[] => {
  const cells = text
    .trim()
    .split(/[\s;]+|,\s+/)
    .flatMap((cell) => cell.replace(/,$/, '') || []);
  return cells.length === 1 ? text.trim().split(',') : cells;
};

const isHeader = ({ cells }: Line): boolean => cells.every((cell) => !/\d/.test(cell));

const plain = (cell: string): string => cell.replace('\u2212', '-').replace(',', '.');

function faultOf({ line, cells }: Line, { width, unit }: { readonly width: number; readonly unit: string }): Fault[] {
  const tell = (detail: string): Fault[] => [{ line, detail }];
  if (cells.length < 2 || cells.length > 3)
    return tell('takes two figures, x y; or three, order x y. A decimal comma needs blanks between the figures.');
  if (cells.length !== width) return tell(`has ${cells.length} figures, and the first line has ${width}.`);
  const bad = cells.slice(-2).find((cell) => !parseQuantity(cell, unit, 'length').ok);
  return bad === undefined ? [] : tell(`"${bad}" is no ${unit} that can be read one way only.`);
}

/** Orders must be 1 to the count of lines, each once. */
function orderFaults(lines: readonly Line[]): readonly Fault[] {
  const seen = new Map<number, number>();
  return lines.flatMap(({ line, cells: [cell = ''] }) => {
    const order = /^\d{1,3}$/.test(cell) ? Number(cell) : 0;
    if (order < 1 || order > lines.length)
      return [{ line, detail: `"${cell}" is no place in an order of ${lines.length}: write 1 to ${lines.length}.` }];
    const before = seen.get(order);
    seen.set(order, line);
    return before === undefined ? [] : [{ line, detail: `${order} is on line ${before} already.` }];
  });
}

/**
 * Reads coordinates as somebody pastes them from a table: a line a fastener, "x y" in tightening order, or
 * "order x y" in any order; parted by blanks, tabs, semicolons or commas; empty lines and a line of headings passed
 * over. Digits stay as they are written, a decimal comma made a point. `unit`: of all, a length.
 * Errors: a line of other than two or three figures, or of another count than the first; a figure that is no number; an
 * order that is not 1 to the count, each once; nothing at all; more than 60.
 */
export function readPastedPositions(text: string, unit: string): PastedPositions {
  const all = text
    .split(/\r?\n/)
    .map((line, index): Line => ({ line: index + 1, cells: cellsOf(line) }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
  const [first] = all;
  const lines = first !== undefined && isHeader(first) ? all.slice(1) : all;
  const [head] = lines;
  if (head === undefined) return { ok: false, faults: [{ line: 1, detail: 'No coordinates are here.' }] };
  if (lines.length > most)
    return { ok: false, faults: [{ line: head.line + most, detail: `A set has at most ${most} fasteners.` }] };
  const width = head.cells.length;
  const faults = lines.flatMap((line) => faultOf(line, { width, unit }));
  const ordered = width === 3;
  const told = faults.length === 0 && ordered ? orderFaults(lines) : faults;
  if (told.length > 0) return { ok: false, faults: told };
  const inOrder = ordered ? lines.toSorted((a, b) => Number(a.cells[0]) - Number(b.cells[0])) : lines;
  return {
    ok: true,
    positions: inOrder.map(({ cells }) => {
      const [x = '', y = ''] = cells.slice(-2).map(plain);
      return { x, y };
    }),
  };
}
