// Source: Heizer, Render and Munson, Operations Management, ch. 12: example 1 (ABC analysis of ten items, annual volume
// 232 057: two A with 72 %, three B with 23 %, five C with 5 %; with one price raised the A items make 75 %) and example 2
// (cycle counting: 500 A every 20 days, 1 750 B every 60, 2 750 C every 120 are 77 a day; 1 500 B and 3 000 C are 75),
// as reprinted with their solutions at holooly.com.
import { describe, expect, it } from 'vitest';
import { classesByUse, countsPerDay } from '#domain/stock/classes.ts';

const items = [
  ['10286', 1000, 9000, 'A'],
  ['11526', 500, 15_400, 'A'],
  ['12760', 1550, 1700, 'B'],
  ['10867', 350, 4286, 'B'],
  ['10500', 1000, 1250, 'B'],
  ['12572', 600, 1417, 'C'],
  ['14075', 2000, 60, 'C'],
  ['01036', 100, 850, 'C'],
  ['01307', 1200, 42, 'C'],
  ['10572', 250, 60, 'C'],
] as const;
const usagesOf = (price10286: number) =>
  items.map(([id, volume, price]) => ({ id, amount: volume * (id === '10286' ? price10286 : price) }));
const shareOf = (of: 'A' | 'B' | 'C', price10286 = 9000) =>
  classesByUse(usagesOf(price10286))
    .filter((one) => one.class === of)
    .reduce((sum, { share }) => sum + share, 0);

describe('ABC analysis of the textbook’s ten items', () => {
  it('puts each in its class, whatever the order they come in', () => {
    const expected = Object.fromEntries(items.map(([id, , , of]) => [id, of]));
    for (const given of [usagesOf(9000), usagesOf(9000).toReversed()])
      expect(Object.fromEntries(classesByUse(given).map((one) => [one.id, one.class]))).toEqual(expected);
  });

  it('finds the printed shares, within one of their last digit: the book rounds two of them down', () => {
    const printed = [38.8, 33.2, 11.3, 6.4, 5.4, 3.7, 0.5, 0.4, 0.2, 0.1];
    for (const [at, { share }] of classesByUse(usagesOf(9000)).entries())
      expect(Math.abs(share * 100 - (printed[at] ?? 0))).toBeLessThan(0.1);
    expect(Math.round(shareOf('A') * 100)).toBe(72);
    expect(Math.round(shareOf('B') * 100)).toBe(23);
    expect(Math.round(shareOf('C') * 100)).toBe(5);
    expect(Math.round(shareOf('A', 12_000) * 100)).toBe(75);
  });
});

describe('how many to count a day', () => {
  const a = { count: 500, everyDays: 20 };
  it.each([
    [1750, 2750, 77],
    [1500, 3000, 75],
  ])('%s B and %s C beside 500 A', (b, c, perDay) => {
    const sum = countsPerDay([a, { count: b, everyDays: 60 }, { count: c, everyDays: 120 }]);
    expect(Math.round(sum)).toBe(perDay);
  });
});
