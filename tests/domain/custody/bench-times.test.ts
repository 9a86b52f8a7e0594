import fc from 'fast-check';
import { expect, test } from 'vitest';
import { benchTimes, type PlacedPeriod } from '../../../server/domain/custody/bench-times.ts';

const kinds = ['person', 'bay', 'vendor'] as const;

test('worked at a bench, waiting at rest, outside: place after place', () => {
  const periods: PlacedPeriod[] = [
    { holderKind: 'bay', placeId: 'rack', from: 0, until: 10 },
    { holderKind: 'person', placeId: 'strip', from: 10, until: 40 },
    { holderKind: 'bay', placeId: 'strip', from: 40, until: 45 },
    { holderKind: 'person', placeId: 'strip', from: 45, until: 50 },
    { holderKind: 'vendor', placeId: 'plater', from: 50, until: 80 },
    { holderKind: 'bay', placeId: 'rack', from: 80, until: null },
  ];
  const times = benchTimes(periods, {
    offers: [
      { from: 20, until: 30 },
      { from: 25, until: 35 },
    ],
    now: 100,
  });
  expect(times.stays.map(({ first, worked, waited }) => [first.placeId, worked, waited])).toEqual([
    ['rack', 0, 10],
    ['strip', 35, 5],
    ['plater', 0, 0],
    ['rack', 0, 20],
  ]);
  expect(times).toMatchObject({ worked: 35, waited: 35, outside: 30, offered: 15 });
});

test('worked, waited and outside add up to the whole visit, however often it changed hands', () => {
  const step = fc.record({
    holderKind: fc.constantFrom(...kinds),
    placeId: fc.constantFrom('a', 'b', 'c'),
    lasts: fc.integer({ min: 1, max: 1000 }),
  });
  fc.assert(
    fc.property(fc.array(step, { minLength: 1, maxLength: 30 }), (steps) => {
      let from = 0;
      const periods = steps.map(({ lasts, ...step }) => {
        const period = { ...step, from, until: from + lasts };
        from += lasts;
        return period;
      });
      const { worked, waited, outside, stays } = benchTimes(periods, { offers: [], now: from });
      expect(worked + waited + outside).toBe(from);
      expect(stays.at(0)?.first.from).toBe(0);
      expect(stays.at(-1)?.last.until).toBe(from);
    }),
  );
});
