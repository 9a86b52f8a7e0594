/** How a part is used up and how long it takes to come, per day and in days. `z` is the normal quantile of the service wanted. */
export interface ReorderFacts {
  readonly meanPerDay: number;
  readonly deviationPerDay: number;
  readonly leadDays: number;
  readonly leadDeviationDays: number;
  readonly z: number;
}

export interface ReorderPoint {
  readonly safetyStock: number;
  readonly reorderAt: number;
}

/**
 * Stock level at which to buy: mean demand over the lead time + z·σ, σ² = L·s² + d²·sL². Not rounded; textbook (from
 * memory), checked against published cases in tests/outside.
 */
export function reorderPoint(facts: ReorderFacts): ReorderPoint {
  const { meanPerDay, deviationPerDay, leadDays, leadDeviationDays, z } = facts;
  const safetyStock = z * Math.sqrt(leadDays * deviationPerDay ** 2 + meanPerDay ** 2 * leadDeviationDays ** 2);
  return { safetyStock, reorderAt: meanPerDay * leadDays + safetyStock };
}

/**
 * Pieces an order that make the year's ordering and holding cost least: √(2·K·D / h), K the cost of one order, D the
 * yearly demand, h the cost of holding one piece a year (money in one unit throughout). Null when D or h is not above
 * zero. Textbook (Harris, 1913); a published case is in tests/outside.
 */
export function economicOrderQuantity(orderCost: number, yearlyDemand: number, holdingCost: number): number | null {
  if (!(yearlyDemand > 0) || !(holdingCost > 0)) return null;
  return Math.sqrt((2 * orderCost * yearlyDemand) / holdingCost);
}

export interface Spread {
  readonly mean: number;
  /** Of the sample, n − 1; zero for fewer than two values. */
  readonly deviation: number;
}

/** Mean and sample deviation of values, all zeros for none. */
export function spreadOf(values: readonly number[]): Spread {
  if (values.length === 0) return { mean: 0, deviation: 0 };
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  if (values.length < 2) return { mean, deviation: 0 };
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, deviation: Math.sqrt(squares / (values.length - 1)) };
}

/**
 * Parts a sum that was paid for several things together (freight, duty) by what each is worth: whole minor units that
 * add up to the sum exactly, the largest remainders rounded up. By equal shares when nothing is worth anything.
 */
export function shareByWorth(sum: bigint, worths: readonly bigint[]): readonly bigint[] {
  const total = worths.reduce((all, worth) => all + worth, 0n);
  const weights = total > 0n ? worths : worths.map(() => 1n);
  const weight = total > 0n ? total : BigInt(worths.length);
  const floors = weights.map((worth) => (sum * worth) / weight);
  let left = sum - floors.reduce((all, share) => all + share, 0n);
  const byRemainder = weights
    .map((worth, at) => ({ at, remainder: (sum * worth) % weight }))
    .toSorted((a, b) => (a.remainder === b.remainder ? a.at - b.at : a.remainder > b.remainder ? -1 : 1));
  const shares = [...floors];
  for (const { at } of byRemainder) {
    if (left <= 0n) break;
    shares[at] = (shares[at] ?? 0n) + 1n;
    left -= 1n;
  }
  return shares;
}
