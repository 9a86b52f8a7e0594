import type { InstantMicroseconds } from './holding.ts';

/** A period of custody of an engine, as far as time on benches goes. `placeId`: the bay it is in, else who has it. */
export interface PlacedPeriod {
  readonly holderKind: 'person' | 'bay' | 'vendor' | 'owner';
  readonly placeId: string;
  readonly from: InstantMicroseconds;
  readonly until: InstantMicroseconds | null;
}

/** One stay at one place, over the periods it lasted; `worked` in somebody's hands, `waited` at rest. Microseconds. */
export interface Stay<Period extends PlacedPeriod> {
  readonly first: Period;
  readonly last: Period;
  readonly worked: number;
  readonly waited: number;
}

export interface Times<Period extends PlacedPeriod> {
  readonly stays: readonly Stay<Period>[];
  readonly worked: number;
  readonly waited: number;
  readonly outside: number;
  /** While an offer stood unanswered: whatever the receiver took to come and count. */
  readonly offered: number;
}

/**
 * Time on each bench and waiting between benches. Periods in the order of time, without gap; one still open lasts until
 * `now`. Somebody who holds it in a bay works on it there; at rest in a bay it waits; with a vendor it is outside; with its
 * owner it counts as nothing. Spans of offers may overlap and are then counted once. Microseconds in, microseconds out.
 */
export function benchTimes<Period extends PlacedPeriod>(
  periods: readonly Period[],
  {
    offers,
    now,
  }: {
    readonly offers: readonly { readonly from: InstantMicroseconds; readonly until: InstantMicroseconds | null }[];
    readonly now: InstantMicroseconds;
  },
): Times<Period> {
  const stays: Stay<Period>[] = [];
  for (const period of periods) {
    const lasted = Math.max(0, (period.until ?? now) - period.from);
    const worked = period.holderKind === 'person' ? lasted : 0;
    const waited = period.holderKind === 'bay' ? lasted : 0;
    const before = stays.at(-1);
    if (before !== undefined && before.last.placeId === period.placeId) {
      stays[stays.length - 1] = {
        first: before.first,
        last: period,
        worked: before.worked + worked,
        waited: before.waited + waited,
      };
    } else stays.push({ first: period, last: period, worked, waited });
  }
  const sum = (of: (stay: Stay<Period>) => number): number => stays.reduce((total, stay) => total + of(stay), 0);
  const outside = periods
    .filter(({ holderKind }) => holderKind === 'vendor')
    .reduce((total, { from, until }) => total + Math.max(0, (until ?? now) - from), 0);
  return {
    stays,
    worked: sum((stay) => stay.worked),
    waited: sum((stay) => stay.waited),
    outside,
    offered: covered(offers, now),
  };
}

/** How long at least one of some spans lasted. */
function covered(
  spans: readonly { readonly from: InstantMicroseconds; readonly until: InstantMicroseconds | null }[],
  now: InstantMicroseconds,
): number {
  let total = 0;
  let reached = Number.NEGATIVE_INFINITY;
  for (const { from, until } of spans.toSorted((a, b) => a.from - b.from)) {
    const end = until ?? now;
    total += Math.max(0, end - Math.max(from, reached));
    reached = Math.max(reached, end);
  }
  return total;
}
