/** A piece of a set kept in order: the place it came from, the one it lies in or belongs to now, whether it lies there, and in which tray. */
export interface RackedPiece {
  readonly from: string;
  at: string;
  laid: boolean;
  /** WITH_ENGINE: beside the engine. Nothing while it is not laid. */
  tray: string;
}

const MOST_PLACES = 24;

/** The numbered places of a new line. None: a single piece, more than a rack has, or nothing to keep in order. */
export const layOut = (inOrder: boolean, expected: number): RackedPiece[] =>
  !inOrder || expected < 2 || expected > MOST_PLACES
    ? []
    : Array.from({ length: expected }, (_, index) => ({
        from: `${index + 1}`,
        at: `${index + 1}`,
        laid: false,
        tray: '',
      }));

/** The places a piece lies in, or those in which none does. */
export const placesWhere = (rack: readonly RackedPiece[], laid: boolean): readonly string[] =>
  rack.filter((piece) => piece.laid === laid).map(({ at }) => at);

/** The pieces that lie in their places in one tray. */
export const laidIn = (rack: readonly RackedPiece[], tray: string): readonly RackedPiece[] =>
  rack.filter((piece) => piece.laid && piece.tray === tray);

/** Whether somebody may say of these places that they are filled (or emptied) now. */
export const canBe = (rack: readonly RackedPiece[], named: readonly string[], laid: boolean): boolean =>
  new Set(named).size === named.length && named.every((place) => placesWhere(rack, !laid).includes(place));
