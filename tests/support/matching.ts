/** A piece that is there or comes in, under its number. */
export interface Unit {
  readonly partId: string;
  readonly on: string;
}

/** A piece that is wanted by a day, and the numbers that will do. */
export interface Want {
  readonly servedBy: readonly string[];
  readonly on: string;
}

/**
 * How many wanted pieces can be served in time, each by a piece of its own: a maximum matching by augmenting paths, piece
 * by piece. It knows nothing of turns or of what is used up first.
 */
export function mostServed(wants: readonly Want[], units: readonly Unit[]): number {
  const takenBy = new Map<number, number>();
  const fits = ({ servedBy, on }: Want, unit: Unit): boolean => servedBy.includes(unit.partId) && unit.on <= on;
  const serve = (at: number, tried: Set<number>): boolean => {
    const want = wants[at];
    return units.some((unit, piece) => {
      if (want === undefined || tried.has(piece) || !fits(want, unit)) return false;
      tried.add(piece);
      const holder = takenBy.get(piece);
      if (holder !== undefined && !serve(holder, tried)) return false;
      takenBy.set(piece, at);
      return true;
    });
  };
  return wants.filter((_, at) => serve(at, new Set())).length;
}

export const piecesOf = <Of extends { readonly quantity: number }>(many: readonly Of[]): Of[] =>
  many.flatMap((one) => Array.from({ length: one.quantity }, () => one));
