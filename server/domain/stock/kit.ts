import { chooseLots, type Lot, type LotWish } from './lots.ts';

/** One line of a kit as it is asked for: `count` is a whole number ≥ 1. */
export interface KitLine extends LotWish {
  readonly id: string;
}

export interface PlannedReservation {
  readonly lineId: string;
  readonly lotId: string;
  readonly count: number;
}

export interface NamedShortage {
  readonly lineId: string;
  readonly partId: string;
  readonly wanted: number;
  readonly available: number;
  readonly missing: number;
}

/** `whole`: all of the kit or nothing is reserved. `partial`: the clerk chose to reserve what there is. */
export type KitRule = 'whole' | 'partial';

export interface KitPlan {
  readonly reservations: readonly PlannedReservation[];
  readonly shortages: readonly NamedShortage[];
}

/**
 * What to reserve for a kit from the lots there are, and what is short. With the rule `whole` a single shortage leaves
 * everything unreserved, and only what is missing is short. Lines are served in their order, and lines of one part
 * share its lots, so no lot is promised beyond what is available.
 */
export function planKit(lines: readonly KitLine[], lots: readonly Lot[], rule: KitRule): KitPlan {
  const promised = new Map<string, number>();
  const reservations: PlannedReservation[] = [];
  const shortages: NamedShortage[] = [];
  for (const line of lines) {
    const left = lots.map((lot) => ({ ...lot, reserved: lot.reserved + (promised.get(lot.id) ?? 0) }));
    const { shares, missing } = chooseLots(left, line);
    for (const { lotId, count } of shares) {
      promised.set(lotId, (promised.get(lotId) ?? 0) + count);
      reservations.push({ lineId: line.id, lotId, count });
    }
    if (missing > 0) {
      const { id: lineId, partId, count: wanted } = line;
      shortages.push({ lineId, partId, wanted, available: wanted - missing, missing });
    }
  }
  return { reservations: rule === 'whole' && shortages.length > 0 ? [] : reservations, shortages };
}
