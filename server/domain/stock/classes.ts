/** How closely stock is watched: A most, C least. */
export type StockClass = 'A' | 'B' | 'C';
export const stockClasses = ['A', 'B', 'C'] as const;

/** What one part was used, as a sum of money (minor units) or a number of movements; ≥ 0. */
export interface Usage {
  readonly id: string;
  readonly amount: number;
}

export interface ClassLimits {
  /** Shares of the whole, 0 < a ≤ b ≤ 1. */
  readonly a: number;
  readonly b: number;
}

export interface Classed extends Usage {
  readonly share: number;
  /** Share of all that is used more than this. */
  readonly before: number;
  readonly class: StockClass;
}

/** A is what makes up the first 70 % of the use, B goes on to 95 %: the usual textbook figures. */
export const usualLimits: ClassLimits = { a: 0.7, b: 0.95 };

/**
 * ABC analysis: parts by use, the greatest first (equals by id), each in the class in which its share of the cumulated
 * use begins. The most used part is therefore always A; what was not used at all is C. Textbook (Heizer, Render and
 * Munson, Operations Management, ch. 12), whose worked example is in tests/outside. A shop's stores are classed so by a
 * statement, which a test holds to this.
 */
export function classesByUse(usages: readonly Usage[], limits: ClassLimits = usualLimits): readonly Classed[] {
  const total = usages.reduce((sum, { amount }) => sum + amount, 0);
  let used = 0;
  return usages
    .toSorted((one, other) => other.amount - one.amount || (one.id < other.id ? -1 : 1))
    .map((usage) => {
      const before = total === 0 ? 1 : used / total;
      used += usage.amount;
      const share = total === 0 ? 0 : usage.amount / total;
      return { ...usage, share, before, class: usage.amount > 0 ? classAt(before, limits) : 'C' };
    });
}

const classAt = (before: number, { a, b }: ClassLimits): StockClass => (before < a ? 'A' : before < b ? 'B' : 'C');

const dayMs = 86_400_000;

export type DueState = 'never' | 'overdue' | 'due' | 'later';

export interface Due {
  readonly state: DueState;
  /** ISO day; null: it was never counted and is due before all others. */
  readonly dueOn: string | null;
}

/** When a bin is due: so many days after it was last counted. Days are ISO days of the shop's zone. */
export function nextDue(lastCounted: string | null, everyDays: number, today: string): Due {
  if (lastCounted === null) return { state: 'never', dueOn: null };
  const dueOn = new Date(Date.parse(`${lastCounted}T00:00:00Z`) + everyDays * dayMs).toISOString().slice(0, 10);
  return { state: dueOn < today ? 'overdue' : dueOn === today ? 'due' : 'later', dueOn };
}

/**
 * How many to count a day so that each class gets its turn: Σ count / everyDays. Textbook (as above): 500 A every 20
 * days, 1 750 B every 60 and 2 750 C every 120 are 77 a day.
 */
export function countsPerDay(classes: readonly { readonly count: number; readonly everyDays: number }[]): number {
  return classes.reduce((sum, { count, everyDays }) => sum + count / everyDays, 0);
}
