import type { PieceAct } from './pieces.ts';

/** A place of a rack, and whether a piece lies in it now. */
export interface PlaceNow {
  readonly code: string;
  readonly laid: boolean;
}

/** What is done to some pieces of a line kept in order. `named`: the places they go into or come out of. */
export interface RackMovement {
  readonly act: PieceAct;
  /** How many of them. Whole, ≥ 0. */
  readonly count: number;
  /** How many of the line are loose afterwards. Whole, ≥ 0. */
  readonly looseAfter: number;
  readonly named: readonly string[] | undefined;
}

export type FillRefusal =
  | { readonly kind: 'unknown-place'; readonly code: string }
  | { readonly kind: 'named-twice'; readonly code: string }
  | { readonly kind: 'more-places-than-pieces'; readonly places: number; readonly count: number }
  | { readonly kind: 'filled-already'; readonly code: string }
  | { readonly kind: 'empty-already'; readonly code: string }
  /** Some of a set go, and nobody says which: the order would be lost. */
  | { readonly kind: 'say-which'; readonly laid: readonly string[]; readonly count: number };

export type Filling =
  | { readonly ok: true; readonly filled: readonly string[]; readonly emptied: readonly string[] }
  | { readonly ok: false; readonly reason: FillRefusal };

const nothing: Filling = { ok: true, filled: [], emptied: [] };
const refuse = (reason: FillRefusal): Filling => ({ ok: false, reason });

const lays: ReadonlySet<PieceAct> = new Set(['off', 'found']);
const takes: ReadonlySet<PieceAct> = new Set(['fitted', 'renewed', 'accounted']);

/**
 * Which places of its rack a movement fills or empties. Unnamed: a whole set that is loose now lies in its places, the
 * last of it that goes leaves them all empty, and pieces that lie in no place yet leave as they lay.
 * Refused: a place that is not there, named twice, filled or empty already; more places than pieces; some of a set
 * taken without saying which.
 */
export function fillingBy(rack: readonly PlaceNow[], movement: RackMovement): Filling {
  const { act, count, looseAfter, named = [] } = movement;
  const laying = lays.has(act);
  if (!laying && !takes.has(act)) return nothing;
  const wrong = wronglyNamed(rack, named, laying);
  if (wrong !== undefined) return refuse(wrong);
  if (named.length > count) return refuse({ kind: 'more-places-than-pieces', places: named.length, count });
  const places = (laid: boolean) => rack.filter((place) => place.laid === laid).map(({ code }) => code);
  if (laying) {
    return { ok: true, filled: looseAfter === rack.length ? places(false) : named, emptied: [] };
  }
  if (looseAfter === 0) return { ok: true, filled: [], emptied: places(true) };
  const laid = places(true);
  if (laid.length - named.length > looseAfter) return refuse({ kind: 'say-which', laid, count });
  return { ok: true, filled: [], emptied: named };
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
