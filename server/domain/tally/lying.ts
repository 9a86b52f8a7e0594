/** How many of a line's loose pieces lie in one tray; `trayId` null: with the engine, in no tray. Whole, ≥ 0. */
export interface Lying {
  readonly trayId: string | null;
  readonly count: number;
}

export type TakingRefusal =
  | { readonly kind: 'not-so-many-there'; readonly there: number; readonly count: number }
  | { readonly kind: 'say-from-where'; readonly places: number };

export type Taking =
  | { readonly ok: true; readonly taken: readonly Lying[] }
  | { readonly ok: false; readonly reason: TakingRefusal };

/** The loose pieces of a line, wherever they lie. Whole, ≥ 0. */
export const lyingInAll = (places: readonly Lying[]): number => places.reduce((sum, { count }) => sum + count, 0);

/**
 * Out of which places `count` of a line's loose pieces are taken. `from` undefined: nobody says, which will do when all
 * of them are taken, or all lie in one place; a tray or null (with the engine): from there only.
 * Refused: more than lie there; some of those that lie in several places, without saying which.
 */
export function takenFrom(places: readonly Lying[], count: number, from?: string | null): Taking {
  const filled = places.filter((place) => place.count > 0);
  if (from !== undefined) {
    const there = filled.find(({ trayId }) => trayId === from)?.count ?? 0;
    if (count > there) return { ok: false, reason: { kind: 'not-so-many-there', there, count } };
    return { ok: true, taken: [{ trayId: from, count }] };
  }
  const there = lyingInAll(filled);
  if (count > there) return { ok: false, reason: { kind: 'not-so-many-there', there, count } };
  if (count === there) return { ok: true, taken: filled };
  const [only, ...others] = filled;
  if (only === undefined || others.length > 0) {
    return { ok: false, reason: { kind: 'say-from-where', places: filled.length } };
  }
  return { ok: true, taken: [{ trayId: only.trayId, count }] };
}

/** The places after pieces were taken out of some and laid in another (`to` undefined: they lie nowhere any more). */
export function lyingAfter(
  places: readonly Lying[],
  taken: readonly Lying[],
  to?: { readonly trayId: string | null },
): readonly Lying[] {
  const counts = new Map(places.map(({ trayId, count }) => [trayId, count]));
  for (const { trayId, count } of taken) {
    counts.set(trayId, (counts.get(trayId) ?? 0) - count);
    if (to !== undefined) counts.set(to.trayId, (counts.get(to.trayId) ?? 0) + count);
  }
  return [...counts].map(([trayId, count]) => ({ trayId, count })).filter(({ count }) => count > 0);
}
