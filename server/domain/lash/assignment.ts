/**
 * A cost of three whole numbers, compared from the left: the second counts only between equal firsts. Sums over all rows
 * must stay below 2^53, so that every comparison is exact.
 */
export type Cost = readonly [number, number, number];

/** A column that a row may have, and at what cost. */
export interface Arc {
  readonly column: number;
  readonly cost: Cost;
}

/** Prices of rows and columns that prove an assignment optimal, three numbers each, one after another. */
interface Prices {
  readonly row: Float64Array;
  readonly column: Float64Array;
}

/** Rows with the arcs they may take, and the arc (its index) that each has; −1: none yet. */
export interface Assignment {
  readonly rows: readonly (readonly Arc[])[];
  /** How many rows each column can take, whole and ≥ 1. */
  readonly capacities: readonly number[];
  readonly arcOf: Int32Array;
  /** The rows that have each column now. */
  readonly members: readonly Set<number>[];
  readonly prices: Prices;
}

/** How far a search got: the way to each column that it reached, and the columns and rows that it settled. */
interface Search {
  readonly distance: Float64Array;
  readonly fromRow: Int32Array;
  readonly fromArc: Int32Array;
  readonly reached: number[];
  readonly settled: Uint8Array;
  readonly rows: { readonly row: number; readonly column: number }[];
}

/**
 * Gives every row one of its arcs, no column to more rows than it can take, at the least sum of costs: successive
 * shortest augmenting paths with prices (Kuhn 1955; Edmonds and Karp 1972; Tomizawa 1971), which holds in any ordered
 * group and so for costs compared from the left. Every row needs an arc to a column that can always take it; throws
 * when one has none. O(rows² × arcs of a row).
 */
export function assign(rows: Assignment['rows'], capacities: readonly number[]): Assignment {
  const assignment: Assignment = {
    rows,
    capacities,
    arcOf: new Int32Array(rows.length).fill(-1),
    members: capacities.map(() => new Set<number>()),
    prices: { row: new Float64Array(3 * rows.length), column: new Float64Array(3 * capacities.length) },
  };
  for (const row of rows.keys()) augment(assignment, row);
  return assignment;
}

export const columnOf = ({ rows, arcOf }: Assignment, row: number): number =>
  rows[row]?.[arcOf[row] ?? -1]?.column ?? -1;

/** Whether an arc costs exactly what its row and column are priced at: only such arcs are in any optimal assignment. */
export function isTight({ prices }: Assignment, row: number, { column, cost }: Arc): boolean {
  return [0, 1, 2].every((part) => (cost[part] ?? 0) === at(prices.row, row, part) + at(prices.column, column, part));
}

/** Whether every optimal assignment fills this column: its places are worth something. */
export const mustBeFull = ({ prices }: Assignment, column: number): boolean =>
  [0, 1, 2].some((part) => at(prices.column, column, part) !== 0);

export const hasRoom = ({ members, capacities }: Assignment, column: number): boolean =>
  (members[column]?.size ?? 0) < (capacities[column] ?? 0);

export function give(assignment: Assignment, row: number, arc: number): void {
  assignment.members[columnOf(assignment, row)]?.delete(row);
  assignment.arcOf[row] = arc;
  assignment.members[columnOf(assignment, row)]?.add(row);
}

const at = (values: Float64Array, index: number, part: number): number => values[3 * index + part] ?? 0;

/** Gives one more row its arc, moving others over along the cheapest way to a column with room. */
function augment(assignment: Assignment, root: number): void {
  const columns = assignment.capacities.length;
  const search: Search = {
    distance: new Float64Array(3 * columns),
    fromRow: new Int32Array(columns).fill(-1),
    fromArc: new Int32Array(columns).fill(-1),
    reached: [],
    settled: new Uint8Array(columns),
    rows: [],
  };
  reachFrom(assignment, search, { row: root, column: -1 });
  for (;;) {
    const column = nearest(search);
    if (column === undefined) throw new Error(`row ${root} has no column that can take it`);
    search.settled[column] = 1;
    if (hasRoom(assignment, column)) {
      reprice(assignment, search, column);
      moveAlong(assignment, search, { root, column });
      return;
    }
    for (const row of assignment.members[column] ?? []) reachFrom(assignment, search, { row, column });
  }
}

/** Looks along the arcs of a row that is reached through the column it has. */
function reachFrom({ rows, prices }: Assignment, search: Search, from: { row: number; column: number }): void {
  const { distance, fromRow, fromArc, reached, settled } = search;
  const { row, column: through } = from;
  search.rows.push(from);
  const base = [0, 1, 2].map((part) => (through < 0 ? 0 : at(distance, through, part)) - at(prices.row, row, part));
  const [first = 0, second = 0, third = 0] = base;
  const arcs = rows[row] ?? [];
  for (let index = 0; index < arcs.length; index += 1) {
    const arc = arcs[index];
    if (arc === undefined || settled[arc.column] === 1) continue;
    const { column, cost } = arc;
    const a = first + cost[0] - at(prices.column, column, 0);
    const b = second + cost[1] - at(prices.column, column, 1);
    const c = third + cost[2] - at(prices.column, column, 2);
    if (fromRow[column] === -1) reached.push(column);
    else if (!isLess(a, b, c, distance, column)) continue;
    distance[3 * column] = a;
    distance[3 * column + 1] = b;
    distance[3 * column + 2] = c;
    fromRow[column] = row;
    fromArc[column] = index;
  }
}

function isLess(a: number, b: number, c: number, than: Float64Array, index: number): boolean {
  const first = at(than, index, 0);
  if (a !== first) return a < first;
  const second = at(than, index, 1);
  return b === second ? c < at(than, index, 2) : b < second;
}

function nearest({ distance, reached, settled }: Search): number | undefined {
  let best: number | undefined;
  for (const column of reached) {
    if (settled[column] === 1) continue;
    const closer =
      best === undefined ||
      isLess(at(distance, column, 0), at(distance, column, 1), at(distance, column, 2), distance, best);
    if (closer) best = column;
  }
  return best;
}

/** Raises the prices of the rows that were settled, and lowers those of their columns, as far as the way is long. */
function reprice({ prices }: Assignment, { distance, rows }: Search, end: number): void {
  const lowered = new Set<number>();
  for (const { row, column } of rows) {
    for (const part of [0, 1, 2]) {
      const gap = at(distance, end, part) - (column < 0 ? 0 : at(distance, column, part));
      prices.row[3 * row + part] = at(prices.row, row, part) + gap;
      if (column >= 0 && !lowered.has(column)) prices.column[3 * column + part] = at(prices.column, column, part) - gap;
    }
    if (column >= 0) lowered.add(column);
  }
}

function moveAlong(assignment: Assignment, search: Search, way: { root: number; column: number }): void {
  let { column } = way;
  for (;;) {
    const row = search.fromRow[column] ?? -1;
    const left = columnOf(assignment, row);
    give(assignment, row, search.fromArc[column] ?? -1);
    if (row === way.root) return;
    column = left;
  }
}
