/** A part of the engine whose removal lays its inside open, from the outermost inwards. */
export type Layer = 'cover' | 'head' | 'cylinder' | 'case';

export const layersFromOutside: readonly Layer[] = ['cover', 'head', 'cylinder', 'case'];

/**
 * One line of the tally of an opening, and where its pieces stand. All counts are whole and ≥ 0, and
 * fitted + renewed + accounted ≤ off.
 */
export interface PieceBalance {
  readonly id: string;
  readonly name: string;
  /** What lies open while this piece is off; null for small parts. */
  readonly layer: Layer | null;
  /** Never goes back on: circlips, crush washers. */
  readonly oneTime: boolean;
  /** Pieces that were made to go together (a cam cap and its head) carry the same name here. */
  readonly matchedSet: string | null;
  /** How many the procedure promises, less those found to have been missing before. */
  readonly expected: number;
  /** Somebody has counted this piece off at least once, be it as none. */
  readonly counted: boolean;
  readonly off: number;
  readonly fitted: number;
  readonly renewed: number;
  readonly accounted: number;
  /** Missing, and declared as possibly inside; at most the missing. */
  readonly inside: number;
}

/**
 * What can happen to a piece. A movement is never changed afterwards.
 * - `off`: counted off the engine (0 is a count too: looked for, none found)
 * - `found`: one that was missing has turned up
 * - `never there`: one that was missing wasn't in the engine when it came, somebody says by name
 * - `possibly inside`: one that is missing may be in the engine; it stays missing
 * - `not inside`: one that was declared possibly inside isn't, a lead decides by name after the search
 * - `moved`: into another tray
 * - `fitted`: the same piece back on; `renewed`: a new one on in its stead
 * - `accounted`: off, not going back, and somebody says by name where it is
 */
export type PieceAct =
  | 'off'
  | 'found'
  | 'never there'
  | 'possibly inside'
  | 'not inside'
  | 'moved'
  | 'fitted'
  | 'renewed'
  | 'accounted';

export interface PieceMovement {
  readonly pieceId: string;
  readonly act: PieceAct;
  readonly count: number;
}
