/** What a part's stock is worth: whole pieces, and their value together in whole minor units of one currency. */
export interface StockValue {
  readonly onHand: number;
  readonly value: bigint;
}

export type ValueStep =
  | { readonly ok: true; readonly stock: StockValue; readonly moved: bigint }
  | { readonly ok: false; readonly reason: ValueRefusal };

export type ValueRefusal =
  | { readonly kind: 'count-not-whole'; readonly count: number }
  | { readonly kind: 'negative-cost'; readonly cost: bigint }
  | { readonly kind: 'more-than-on-hand'; readonly onHand: number; readonly count: number };

/**
 * Goods in, at what they cost together (minor units). The average follows: value / onHand.
 * Moving-average (weighted average) costing; textbook, from memory.
 */
export function receiveAtCost(stock: StockValue, count: number, cost: bigint): ValueStep {
  if (!isCount(count)) return { ok: false, reason: { kind: 'count-not-whole', count } };
  if (cost < 0n) return { ok: false, reason: { kind: 'negative-cost', cost } };
  return { ok: true, stock: { onHand: stock.onHand + count, value: stock.value + cost }, moved: cost };
}

/**
 * Goods out at the moving average, rounded half up to a whole minor unit. The last piece out takes what is left, so an
 * empty shelf is worth nothing and no unit is lost or made by rounding. `moved` is what the pieces were worth.
 */
export function takeAtAverage(stock: StockValue, count: number): ValueStep {
  if (!isCount(count)) return { ok: false, reason: { kind: 'count-not-whole', count } };
  if (count > stock.onHand) return { ok: false, reason: { kind: 'more-than-on-hand', onHand: stock.onHand, count } };
  const moved = count === stock.onHand ? stock.value : halfUp(stock.value * BigInt(count), BigInt(stock.onHand));
  return { ok: true, stock: { onHand: stock.onHand - count, value: stock.value - moved }, moved };
}

/** Average worth of one piece in minor units, rounded half up; null when there is none. */
export function averageValue(stock: StockValue): bigint | null {
  return stock.onHand === 0 ? null : halfUp(stock.value, BigInt(stock.onHand));
}

function halfUp(dividend: bigint, divisor: bigint): bigint {
  return (2n * dividend + divisor) / (2n * divisor);
}

function isCount(count: number): boolean {
  return Number.isSafeInteger(count) && count >= 1;
}
