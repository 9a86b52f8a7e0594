import type { Shape } from '../section/compact-shapes.ts';

export type Weight = 'regular' | 'bold';

/** One thing drawn on a label; millimetres from its top left corner. */
export type Mark =
  | {
      readonly kind: 'text';
      readonly x: number;
      /** The line the letters stand on. */
      readonly y: number;
      readonly size: number;
      readonly weight: Weight;
      readonly words: string;
      /** How wide the words are in the face they were measured in. */
      readonly width: number;
    }
  | {
      readonly kind: 'line';
      readonly from: readonly [number, number];
      readonly to: readonly [number, number];
      readonly wide: number;
    }
  /** Modules of a symbol: runs of dark ones, each one module high. */
  | { readonly kind: 'runs'; readonly runs: readonly Run[]; readonly module: number }
  /** Outlines on a grid of their own, its origin at x, y and `scale` mm to a unit. */
  | {
      readonly kind: 'shapes';
      readonly x: number;
      readonly y: number;
      readonly scale: number;
      readonly shapes: readonly Shape[];
    };

export interface Run {
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

/** How wide some words are, mm, set in `size` mm. */
export type Measure = (words: string, size: number, weight: Weight) => number;

/** A printed symbol: dark modules row by row, without its quiet zone. */
export interface SymbolModules {
  readonly columns: number;
  readonly rows: number;
  readonly dark: readonly boolean[];
  /** So many modules around it stay empty, as its standard asks. */
  readonly quiet: number;
}

/** The symbol with its quiet zone in a square of `side` mm, its top left corner at x, y. */
export function symbolMark(symbol: SymbolModules, { x, y, side }: { x: number; y: number; side: number }): Mark {
  const module = side / (Math.max(symbol.columns, symbol.rows) + 2 * symbol.quiet);
  const edge = symbol.quiet * module;
  const runs: Run[] = [];
  for (let row = 0; row < symbol.rows; row += 1) {
    let begun: number | undefined;
    for (let column = 0; column <= symbol.columns; column += 1) {
      const dark = column < symbol.columns && symbol.dark[row * symbol.columns + column] === true;
      if (dark) begun ??= column;
      else if (begun !== undefined) {
        runs.push({ x: x + edge + begun * module, y: y + edge + row * module, width: (column - begun) * module });
        begun = undefined;
      }
    }
  }
  return { kind: 'runs', runs, module };
}
