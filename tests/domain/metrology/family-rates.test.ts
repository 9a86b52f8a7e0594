import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type EngineRate,
  familyRates,
  quantileOf,
  rateAmong,
  ratesOf,
  rateWords,
  sideOfWear,
} from '#domain/metrology/family-rates.ts';

const rate = (engine: string, perHour: number, error = 0): EngineRate => ({ engine, rate: perHour, error, points: 4 });
const family = [100, 120, 140, 160, 180].map((perHour, index) => rate(`e${index}`, perHour));
const perHundred = (perHour: number): string => `${(perHour / 10_000).toFixed(3)} mm`;

describe('where an engine’s wear sits among its family', () => {
  it('between the quartiles as usual, above them fast, far above odd', () => {
    expect(rateAmong(rate('own', 150), family, 'upper')).toMatchObject({ standing: 'usual', quantile: 0.6 });
    expect(rateAmong(rate('own', 200), family, 'upper')).toMatchObject({ standing: 'fast', quantile: 1 });
    expect(rateAmong(rate('own', 90), family, 'upper')).toMatchObject({ standing: 'slow', quantile: 0 });
    expect(rateAmong(rate('own', 400), family, 'upper')?.standing).toBe('odd');
  });

  it('where all get smaller, the lower rate is the faster wear: the mirror of those that grow', () => {
    const falling = family.map((one) => ({ ...one, rate: -one.rate }));
    expect(sideOfWear(falling)).toBe('lower');
    expect(sideOfWear(family)).toBe('upper');
    for (const perHour of [90, 150, 200, 400]) {
      const grown = rateAmong(rate('own', perHour), family, 'upper');
      const fallen = rateAmong(rate('own', -perHour), falling, 'lower');
      expect([fallen?.standing, fallen?.quantile]).toEqual([grown?.standing, grown?.quantile]);
    }
  });

  it('an engine whose own line is uncertain is not called fast', () => {
    expect(rateAmong(rate('own', 200, 30), family, 'upper')?.standing).toBe('usual');
  });

  it('says nothing from fewer than four others, and never counts the engine among them', () => {
    expect(rateAmong(rate('e0', 100), family.slice(0, 4), 'upper')).toBeUndefined();
    expect(rateAmong(rate('e0', 100), family, 'upper')?.family.rates.map(({ engine }) => engine)).toEqual([
      'e1',
      'e2',
      'e3',
      'e4',
    ]);
  });

  it('is told in words with the family’s figures', () => {
    const found = rateAmong(rate('own', 200), family, 'upper');
    if (found === undefined) throw new Error('no family');
    expect(rateWords(found, perHundred)).toBe(
      'Wears faster than its family, 100 of 100 wear more slowly: 0.020 mm in 100 hours; 5 others of the family: median 0.014 mm, the middle half 0.012 mm to 0.016 mm. Look at air filter, oil and fit.',
    );
  });

  it('an engine with fewer than three points has no rate', () => {
    const points = [0, 50, 100].map((hours) => ({ hours, value: 88_000_000 + 200 * hours }));
    const rates = ratesOf(
      new Map([
        ['long', points],
        ['short', points.slice(1)],
        ['falling', points.map(({ hours, value }) => ({ hours, value: -value }))],
      ]),
    );
    expect(rates.map(({ engine }) => engine)).toEqual(['long', 'falling']);
    expect(rates[0]?.rate).toBeCloseTo(200, 6);
    expect(rates[1]?.rate).toBeCloseTo(-200, 6);
  });
});

describe('quantiles', () => {
  it('by hand: of 1 to 4 the quartiles are 1.75 and 3.25, the median 2.5', () => {
    expect([0.25, 0.5, 0.75].map((share) => quantileOf([1, 2, 3, 4], share))).toEqual([1.75, 2.5, 3.25]);
    expect(quantileOf([7], 0.9)).toBe(7);
    expect(() => quantileOf([], 0.5)).toThrow(RangeError);
  });

  it('the order of engines changes nothing, and quartiles lie about the median', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 1, maxLength: 30 }), (values) => {
        const one = familyRates(values.map((value, index) => rate(`e${index}`, value)));
        const other = familyRates(values.toReversed().map((value, index) => rate(`e${index}`, value)));
        expect(other.median).toBe(one.median);
        expect(one.quartiles.lower).toBeLessThanOrEqual(one.median);
        expect(one.quartiles.upper).toBeGreaterThanOrEqual(one.median);
      }),
    );
  });
});
