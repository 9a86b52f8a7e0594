// Source: Snyder and Shen, Fundamentals of Supply Chain Theory, the economic order quantity example (K 8, h 0.225 a year,
// demand 1300: Q* 304.05, cost 68.41, at Q 250 69.725), as in the stockpyl package's data and tests. Normal quantiles: the
// standard table (0.90 1.2816, 0.95 1.6449, 0.98 2.0537, 0.99 2.3263). Sharing a sum: worked by hand, no source.
import { describe, expect, it } from 'vitest';
import { normalQuantile } from '#domain/metrology/normal-distribution.ts';
import { economicOrderQuantity, shareByWorth, spreadOf } from '#domain/stock/reorder.ts';

describe('economic order quantity', () => {
  it('is that of the textbook, and costs least there', () => {
    const quantity = economicOrderQuantity(8, 1300, 0.225);
    expect(quantity).toBeCloseTo(304.0467800264368, 6);
    const cost = (q: number) => (8 * 1300) / q + (0.225 * q) / 2;
    expect(cost(quantity ?? 0)).toBeCloseTo(68.41052550594829, 6);
    expect(cost(250)).toBeCloseTo(69.725, 6);
  });

  it.each([
    [0, 0.2],
    [12, 0],
    [-1, 1],
  ])('is none for a demand of %s and a holding cost of %s', (demand, holding) => {
    expect(economicOrderQuantity(8, demand, holding)).toBeNull();
  });
});

describe('the quantile of a service level', () => {
  it.each([
    [0.9, 1.2815515655446004],
    [0.95, 1.6448536269514722],
    [0.98, 2.0537489106318225],
    [0.99, 2.3263478740408408],
  ])('%s', (service, z) => {
    expect(normalQuantile(service)).toBeCloseTo(z, 6);
  });
});

describe('a sum shared by worth', () => {
  it('adds up to the sum, the largest remainders rounded up', () => {
    expect(shareByWorth(1250n, [10_000n, 5_000n, 5_000n])).toEqual([625n, 313n, 312n]);
    expect(shareByWorth(100n, [1n, 1n, 1n])).toEqual([34n, 33n, 33n]);
    expect(shareByWorth(7n, [0n, 0n])).toEqual([4n, 3n]);
    expect(shareByWorth(0n, [5n])).toEqual([0n]);
  });
});

it('the spread of a sample is that of n − 1', () => {
  expect(spreadOf([2, 4, 4, 4, 5, 5, 7, 9])).toEqual({ mean: 5, deviation: Math.sqrt(32 / 7) });
  expect(spreadOf([])).toEqual({ mean: 0, deviation: 0 });
});
