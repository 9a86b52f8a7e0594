import type { Floor } from '#contracts/floor.ts';

type Bay = Floor['bays'][number];

/** Where a bay stands on the plan, from 1, and whether another bay lies above it, so that a door leads there. */
export interface Standing {
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
  readonly doorAbove: boolean;
}

export interface Walls {
  readonly columns: number;
  readonly rows: number;
  readonly of: ReadonlyMap<string, Standing>;
}

const shares = (a: Bay['grid'], b: Bay['grid']): boolean =>
  a.column < b.column + b.width && b.column < a.column + a.width;

/** The shop's grid as it's drawn: pushed to the corner, since a shop may count its columns and rows from anywhere. */
export function wallsOf(bays: readonly Pick<Bay, 'id' | 'grid'>[]): Walls {
  if (bays.length === 0) return { columns: 1, rows: 1, of: new Map() };
  const left = Math.min(...bays.map(({ grid }) => grid.column));
  const top = Math.min(...bays.map(({ grid }) => grid.row));
  const of = new Map(
    bays.map(({ id, grid }) => [
      id,
      {
        column: grid.column - left + 1,
        row: grid.row - top + 1,
        width: grid.width,
        height: grid.height,
        doorAbove: bays.some((other) => other.grid.row + other.grid.height === grid.row && shares(grid, other.grid)),
      },
    ]),
  );
  const standings = [...of.values()];
  return {
    columns: Math.max(...standings.map(({ column, width }) => column + width - 1)),
    rows: Math.max(...standings.map(({ row, height }) => row + height - 1)),
    of,
  };
}

/** The order in which one walks past the bays: row by row, each from its left. */
export const inWalkingOrder = <B extends Pick<Bay, 'grid'>>(bays: readonly B[]): B[] =>
  [...bays].sort((a, b) => a.grid.row - b.grid.row || a.grid.column - b.grid.column);

/** The figure a bay is known by, `3` of `Bay 3`. */
export const bayNumber = (name: string): string | null => /(?:^|\s)(\d{1,3})$/.exec(name)?.[1] ?? null;
