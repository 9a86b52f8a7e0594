import { type Lying, lyingInAll } from './lying.ts';
import type { PieceAct } from './pieces.ts';

/** A place of a rack, and whether a piece lies in it now. */
export interface PlaceNow {
  readonly code: string;
  readonly laid: boolean;
  /** The tray the piece lies in; null: beside the engine, or nothing lies in the place. */
  readonly trayId: string | null;
}

/** What is done to some pieces of a line kept in order. `named`: the places they go into or come out of. */
export interface RackMovement {
  readonly act: PieceAct;
  /** How many of them. Whole, ≥ 0. */
  readonly count: number;
  /** Out of which trays they come; nothing for an act that takes none. */
  readonly taken: readonly Lying[];
  /** The tray they are laid in; null: beside the engine. */
  readonly to: string | null;
  /** Where the loose pieces of the line lie afterwards. */
  readonly lyingAfter: readonly Lying[];
  readonly named: readonly string[] | undefined;
}

export type FillRefusal =
  | { readonly kind: 'unknown-place'; readonly code: string }
  | { readonly kind: 'named-twice'; readonly code: string }
  | { readonly kind: 'more-places-than-pieces'; readonly places: number; readonly count: number }
  | { readonly kind: 'filled-already'; readonly code: string }
  | { readonly kind: 'empty-already'; readonly code: string }
  /** Its piece lies in another tray than the one that is taken from. */
  | { readonly kind: 'lies-elsewhere'; readonly code: string; readonly trayId: string | null }
  /** Some of a set go, and nobody says which: the order would be lost. */
  | { readonly kind: 'say-which'; readonly laid: readonly string[]; readonly count: number };

export type Filling =
  /** `filled`: their pieces lie in the tray of the movement now, wherever they lay before. */
  | { readonly ok: true; readonly filled: readonly string[]; readonly emptied: readonly string[] }
  | { readonly ok: false; readonly reason: FillRefusal };

const refuse = (reason: FillRefusal): Filling => ({ ok: false, reason });

const lays: ReadonlySet<PieceAct> = new Set(['off', 'found']);
const takes: ReadonlySet<PieceAct> = new Set(['fitted', 'renewed', 'accounted']);

const lyingAt = (lying: readonly Lying[], trayId: string | null): number =>
  lying.find((place) => place.trayId === trayId)?.count ?? 0;
const laidIn = (rack: readonly PlaceNow[], trayId: string | null): readonly string[] =>
  rack.filter((place) => place.laid && place.trayId === trayId).map(({ code }) => code);

/** Pieces that are loose and lie in no place of the rack, by the tray they lie in. */
export function unplacedOf(rack: readonly PlaceNow[], lying: readonly Lying[]): readonly Lying[] {
  return lying
    .map(({ trayId, count }) => ({ trayId, count: count - laidIn(rack, trayId).length }))
    .filter(({ count }) => count > 0);
}

/**
 * Which places of its rack a movement fills or empties. Unnamed: a whole set that is loose now lies in its places, the
 * last of it that leaves a tray leaves its places there empty, and pieces that lie in no place yet leave as they lay.
 * Moved pieces lie in the same places, in the other tray. A count of none fills and empties nothing.
 * Refused: a place that is not there, named twice, filled or empty already, or in another tray; more places than pieces;
 * some of a set taken without saying which.
 */
export function fillingBy(rack: readonly PlaceNow[], movement: RackMovement): Filling {
  if (lays.has(movement.act)) return layingBy(rack, movement);
  if (movement.act !== 'moved' && !takes.has(movement.act)) return { ok: true, filled: [], emptied: [] };
  const leaving = leavingBy(rack, movement);
  return leaving.ok && movement.act === 'moved' ? { ok: true, filled: leaving.emptied, emptied: [] } : leaving;
}

function layingBy(rack: readonly PlaceNow[], { count, to, lyingAfter, named = [] }: RackMovement): Filling {
  const wrong = wronglyNamed(rack, named, true);
  if (wrong !== undefined) return refuse(wrong);
  if (named.length > count) return refuse({ kind: 'more-places-than-pieces', places: named.length, count });
  const whole = lyingInAll(lyingAfter) === rack.length;
  // Laid where others of it lie in no place yet, in another tray: nobody can tell which of them lies where.
  const together = unplacedOf(rack, lyingAfter).every(({ trayId }) => trayId === to);
  // Looked for and none found lays nothing down: a place somebody emptied meanwhile stays empty.
  const filled = count > 0 && whole && together ? rack.filter(({ laid }) => !laid).map(({ code }) => code) : named;
  return { ok: true, filled, emptied: [] };
}

function leavingBy(rack: readonly PlaceNow[], { count, taken, lyingAfter, named = [] }: RackMovement): Filling {
  const wrong = wronglyNamed(rack, named, false);
  if (wrong !== undefined) return refuse(wrong);
  const leaving: string[] = [];
  const elsewhere = rack.find(
    ({ code, trayId }) => named.includes(code) && !taken.some((place) => place.trayId === trayId),
  );
  if (elsewhere !== undefined) {
    return refuse({ kind: 'lies-elsewhere', code: elsewhere.code, trayId: elsewhere.trayId });
  }
  for (const place of taken) {
    const laid = laidIn(rack, place.trayId);
    const here = laid.filter((code) => named.includes(code));
    if (here.length > place.count) return refuse({ kind: 'more-places-than-pieces', places: named.length, count });
    const after = lyingAt(lyingAfter, place.trayId);
    if (after > 0 && laid.length - here.length > after) {
      return refuse({ kind: 'say-which', laid, count: place.count });
    }
    leaving.push(...(after === 0 ? laid : here));
  }
  return { ok: true, filled: [], emptied: leaving };
}

/** What is wrong with places somebody names to be filled (or emptied); undefined: nothing. */
export function wronglyNamed(
  rack: readonly PlaceNow[],
  named: readonly string[],
  filling: boolean,
): FillRefusal | undefined {
  const seen = new Set<string>();
  for (const code of named) {
    const place = rack.find((one) => one.code === code);
    if (place === undefined) return { kind: 'unknown-place', code };
    if (seen.has(code)) return { kind: 'named-twice', code };
    if (place.laid === filling) return { kind: filling ? 'filled-already' : 'empty-already', code };
    seen.add(code);
  }
  return undefined;
}

/**
 * Out of which trays named pieces come, by the places they lie in. Undefined: that tells it not, since some of the
 * pieces are not named, or lie in no place.
 */
export function takenByPlaces(
  rack: readonly PlaceNow[],
  { named = [], count }: { readonly named: readonly string[] | undefined; readonly count: number | undefined },
): readonly Lying[] | undefined {
  const places = rack.filter(({ code, laid }) => laid && named.includes(code));
  if (named.length === 0 || places.length !== named.length || (count !== undefined && count !== named.length))
    return undefined;
  const counts = new Map<string | null, number>();
  for (const { trayId } of places) counts.set(trayId, (counts.get(trayId) ?? 0) + 1);
  return [...counts].map(([trayId, of]) => ({ trayId, count: of }));
}
