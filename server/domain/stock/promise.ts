/** Pieces that come in, or are wanted, on a day such as `2026-11-27`. */
export interface Dated {
  readonly on: string;
  readonly quantity: number;
}

export interface PromiseFacts {
  readonly today: string;
  /** On hand and reserved for nobody. */
  readonly free: number;
  /** Expected receipts; those without a day, or late without a new one, are not among them. */
  readonly coming: readonly Dated[];
  /** What jobs want beyond what is reserved for them, by the day of their promise; today where that has passed. */
  readonly wanted: readonly Dated[];
}

export interface PromiseDay {
  readonly on: string;
  readonly comes: number;
  readonly wanted: number;
  /** Stock that is free at the end of the day if all comes and goes as planned; below zero when too much was promised. */
  readonly projected: number;
  /** What one more job can be promised for this day without taking it from another, of this day or a later one. */
  readonly promisable: number;
}

/**
 * Available to promise, cumulative with look-ahead, day by day: the least of what is projected for this day and every
 * later one, never below zero; so that a promise for an early day does not eat what a later one counts on. Days without
 * anything coming or wanted are left out: they are as the day before. Whole pieces throughout. Textbook definition
 * (discrete and cumulative available-to-promise of the master schedule); checked in tests/outside.
 */
export function availableToPromise({ today, free, coming, wanted }: PromiseFacts): readonly PromiseDay[] {
  const notBefore = (on: string): string => (on < today ? today : on);
  const sums = new Map<string, { comes: number; wanted: number }>([[today, { comes: 0, wanted: 0 }]]);
  const add = (dated: readonly Dated[], what: 'comes' | 'wanted'): void => {
    for (const { on, quantity } of dated) {
      const day = sums.get(notBefore(on)) ?? { comes: 0, wanted: 0 };
      day[what] += quantity;
      sums.set(notBefore(on), day);
    }
  };
  add(coming, 'comes');
  add(wanted, 'wanted');
  let projected = free;
  const days = [...sums]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([on, day]) => {
      projected += day.comes - day.wanted;
      return { on, ...day, projected, promisable: 0 };
    });
  let least = Number.POSITIVE_INFINITY;
  for (const day of days.toReversed()) {
    least = Math.min(least, day.projected);
    day.promisable = Math.max(0, least);
  }
  return days;
}

/** What can be promised for a day: as on the last day before it on which anything changes. */
export function promisableOn(days: readonly PromiseDay[], on: string): number {
  return days.findLast((day) => day.on <= on)?.promisable ?? 0;
}

/** The first day for which so many can be promised; null when none of the days has so many. */
export function firstDayFor(days: readonly PromiseDay[], quantity: number): string | null {
  return days.find(({ promisable }) => promisable >= quantity)?.on ?? null;
}

/** A day so many days later; parts of a day count as a whole one. */
export function daysLater(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + Math.ceil(days) * 86_400_000).toISOString().slice(0, 10);
}
