// Source: two worked examples of perpetual weighted-average costing from public accounting courses (seen: 300 units at
// $8, 175 sold, 375 bought at $10, 280 sold → average 9.50, cost 2 660, left 2 090; and 500 units for $1 200, 300 sold at
// 2.40). Reorder points: textbook formula computed separately, and the EOQSS case of Snyder and Shen (Fundamentals of
// Supply Chain Theory) as in the stockpyl package's tests; see data/stock-reorder-point.json.
import { describe, expect, it } from 'vitest';
import { reorderPoint } from '#domain/stock/reorder.ts';
import { averageValue, receiveAtCost, type StockValue, takeAtAverage, type ValueStep } from '#domain/stock/value.ts';
import reorder from './data/stock-reorder-point.json' with { type: 'json' };

const empty: StockValue = { onHand: 0, value: 0n };
const done = (step: ValueStep) => {
  if (!step.ok) throw new Error(step.reason.kind);
  return step;
};

describe('moving average', () => {
  it('follows a course’s example of two purchases and two sales', () => {
    const opening = done(receiveAtCost(empty, 300, 2_400_00n)).stock;
    const sold = done(takeAtAverage(opening, 175));
    expect(sold.moved).toBe(1_400_00n);
    const bought = done(receiveAtCost(sold.stock, 375, 3_750_00n)).stock;
    expect(averageValue(bought)).toBe(9_50n);
    const soldAgain = done(takeAtAverage(bought, 280));
    expect(soldAgain.moved).toBe(2_660_00n);
    expect(soldAgain.stock).toEqual({ onHand: 220, value: 2_090_00n });
  });

  it('follows a second one, where the new average is no whole cent', () => {
    const opening = done(receiveAtCost(empty, 500, 1_200_00n)).stock;
    expect(averageValue(opening)).toBe(2_40n);
    const sold = done(takeAtAverage(opening, 300));
    expect(sold.moved).toBe(720_00n);
    const bought = done(receiveAtCost(sold.stock, 100, 350_00n)).stock;
    expect(bought).toEqual({ onHand: 300, value: 830_00n });
    expect(averageValue(bought)).toBe(2_77n);
  });
});

describe('reorder point', () => {
  it.each(reorder.reorder_point.cases)('$daily_mean a day, $lead_days days, service $cycle_service', (part) => {
    const point = reorderPoint({
      meanPerDay: part.daily_mean,
      deviationPerDay: part.daily_sd,
      leadDays: part.lead_days,
      leadDeviationDays: part.lead_sd,
      z: part.z,
    });
    expect(point.safetyStock).toBeCloseTo(part.safety_stock, 6);
    expect(point.reorderAt).toBeCloseTo(part.reorder_point, 6);
  });

  it('agrees with the textbook’s case of a yearly demand', () => {
    const { demand, sd, L } = reorder.eoqss.params;
    const { z } = reorder.eoqss;
    const point = reorderPoint({ meanPerDay: demand, deviationPerDay: sd, leadDays: L, leadDeviationDays: 0, z });
    expect(point.reorderAt).toBeCloseTo(reorder.eoqss.reorder_at, 6);
  });
});
