import { type Assignment, columnOf, give, hasRoom, isTight, mustBeFull } from './assignment.ts';

/** For each row the indices of its tight arcs, in order; and for each column the rows that have a tight arc to it. */
interface TightArcs {
  readonly ofRow: readonly (readonly number[])[];
  readonly into: readonly { readonly row: number; readonly arc: number }[][];
}

/**
 * Of all optimal assignments the one in which the first row has the earliest of its arcs, then the second, and so on:
 * there is exactly one, whatever the order of the columns. Changes `assignment`, which must be optimal. By complementary
 * slackness the optimal ones are those that use tight arcs only and fill every column that is worth something; among them
 * a row can move wherever others can make room without using any other arc. O(rows × arcs).
 */
export function settleInOrder(assignment: Assignment): void {
  const tight = tightArcs(assignment);
  for (const row of assignment.rows.keys()) {
    const had = assignment.arcOf[row] ?? -1;
    if ((tight.ofRow[row] ?? [])[0] === had) continue;
    const onward = roomFor(assignment, tight, row);
    const free = !mustBeFull(assignment, columnOf(assignment, row));
    const arc = (tight.ofRow[row] ?? []).find((index) => {
      const column = columnAt(assignment, row, index);
      return index === had || onward.has(column) || (free && hasRoom(assignment, column));
    });
    if (arc !== undefined && arc !== had) makeRoom(assignment, onward, { row, arc });
  }
}

function tightArcs(assignment: Assignment): TightArcs {
  const into: { row: number; arc: number }[][] = assignment.capacities.map(() => []);
  const ofRow = assignment.rows.map((arcs, row) =>
    arcs.flatMap((arc, index) => {
      if (!isTight(assignment, row, arc)) return [];
      into[arc.column]?.push({ row, arc: index });
      return [index];
    }),
  );
  return { ofRow, into };
}

/** Who moves on from a full column, and by which arc, to make room in it; null: the column that is being left. */
type Onward = Map<number, { readonly row: number; readonly arc: number } | null>;

/** The full columns that could take a row once it has left its own, when no row before it moves. */
function roomFor(assignment: Assignment, tight: TightArcs, leaving: number): Onward {
  const own = columnOf(assignment, leaving);
  const onward: Onward = new Map([[own, null]]);
  const queue = [own];
  const moveOn = (row: number, arc: number): void => {
    const left = columnOf(assignment, row);
    if (onward.has(left)) return;
    onward.set(left, { row, arc });
    queue.push(left);
  };
  if (!mustBeFull(assignment, own)) {
    for (let row = leaving + 1; row < assignment.rows.length; row += 1) {
      const arc = (tight.ofRow[row] ?? []).find((index) => hasRoom(assignment, columnAt(assignment, row, index)));
      if (arc !== undefined) moveOn(row, arc);
    }
  }
  for (let column = queue.shift(); column !== undefined; column = queue.shift()) {
    for (const { row, arc } of tight.into[column] ?? []) if (row > leaving) moveOn(row, arc);
  }
  return onward;
}

const columnAt = ({ rows }: Assignment, row: number, arc: number): number => rows[row]?.[arc]?.column ?? -1;

function makeRoom(assignment: Assignment, onward: Onward, first: { readonly row: number; readonly arc: number }): void {
  const moves = [first];
  let column = columnAt(assignment, first.row, first.arc);
  for (let next = onward.get(column); next; next = onward.get(column)) {
    moves.push(next);
    column = columnAt(assignment, next.row, next.arc);
  }
  for (const { row, arc } of moves) give(assignment, row, arc);
}
