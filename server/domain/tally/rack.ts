/** A place of the rack in which pieces of one line are kept in order, and whose piece lies in it. */
export interface RackPlace {
  readonly code: string;
  readonly name: string;
  readonly side: '' | 'intake' | 'exhaust';
}

/** A valve of the spec sheet, as far as a rack needs it. */
export interface ValvePlace {
  readonly code: string;
  readonly name: string;
  readonly side: 'intake' | 'exhaust';
}

/**
 * The places of a line whose pieces must go back where they came from. One a valve when its matched set is kept "by
 * valve" and it has as many pieces as the engine has valves; else numbered, 1 to n. Null: nothing to keep in order (no
 * matched set, or a single piece, or more than 24).
 */
export function rackOf(
  line: { readonly matchedSet: string | null; readonly expected: number },
  valves: readonly ValvePlace[],
): readonly RackPlace[] | null {
  const { matchedSet, expected } = line;
  if (matchedSet === null || expected < 2 || expected > 24) return null;
  if (/\bby valve\b/i.test(matchedSet) && valves.length === expected) {
    return valves.map(({ code, name, side }) => ({ code, name, side }));
  }
  return Array.from({ length: expected }, (_, index) => ({ code: `${index + 1}`, name: `${index + 1}`, side: '' }));
}
