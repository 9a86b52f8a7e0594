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
