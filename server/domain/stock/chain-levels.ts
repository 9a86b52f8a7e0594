/** A part that was replaced, or replaces one, with its level to buy at and the pieces that are free or come in. */
export interface Stocked {
  readonly partId: string;
  /** The part that replaced it; null: it is the newest. */
  readonly next: string | null;
  /** Its stock is used up before that of the part that replaced it. */
  readonly usable: boolean;
  readonly level: number;
  readonly supply: number;
}

export interface LowPart {
  readonly partId: string;
  readonly quantity: number;
  /** Its level to buy at, with what the levels of the numbers before it lack. */
  readonly level: number;
}

interface Need {
  readonly level: number;
  readonly target: number;
}

/**
 * What of chains of replaced parts runs low, and how many of the newest number to buy. A replaced number is bought no
 * more: what its own level lacks is added to that of the part which replaced it, whose pieces serve in its place. Low is
 * what has no more than its level; it is bought up to that, and a level more. Counts whole and ≥ 0.
 */
export function lowInChains(parts: readonly Stocked[]): readonly LowPart[] {
  const byId = new Map(parts.map((part) => [part.partId, part]));
  const older = new Map<string, Stocked[]>();
  for (const part of parts) if (part.next !== null) older.set(part.next, [...(older.get(part.next) ?? []), part]);
  const barred = (part: Stocked | undefined): boolean =>
    part !== undefined && part.next !== null && (!part.usable || barred(byId.get(part.next)));
  const supplyOf = (part: Stocked): number => (barred(part) ? 0 : Math.max(0, part.supply));
  const needOf = (part: Stocked): Need =>
    (older.get(part.partId) ?? []).reduce(
      (sum, old) => {
        const { level, target } = lackOf(old);
        return { level: sum.level + level, target: sum.target + target };
      },
      { level: part.level, target: 2 * part.level },
    );
  const lackOf = (part: Stocked): Need => {
    const [need, supply] = [needOf(part), supplyOf(part)];
    if (need.level === 0 || supply > need.level) return { level: 0, target: 0 };
    return { level: need.level - supply, target: need.target - supply };
  };
  return parts
    .filter(({ next }) => next === null)
    .flatMap((newest) => {
      const { target } = lackOf(newest);
      return target === 0 ? [] : [{ partId: newest.partId, quantity: target, level: needOf(newest).level }];
    });
}
