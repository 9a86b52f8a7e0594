import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { kitReady, readyDays } from '#domain/stock/completion.ts';
import { availableToPromise, daysLater, firstDayFor, promisableOn } from '#domain/stock/promise.ts';

const today = '2026-11-26';
const day = (count: number): string => daysLater(today, count);

describe('what can be promised', () => {
  test('on a day is what no later promise counts on', () => {
    const days = availableToPromise({
      today,
      free: 4,
      coming: [{ on: day(10), quantity: 6 }],
      wanted: [{ on: day(5), quantity: 3 }],
    });
    expect(days.map(({ on, projected, promisable }) => [on, projected, promisable])).toEqual([
      [today, 4, 1],
      [day(5), 1, 1],
      [day(10), 7, 7],
    ]);
    expect(promisableOn(days, day(9))).toBe(1);
    expect(promisableOn(days, day(30))).toBe(7);
    expect(firstDayFor(days, 2)).toBe(day(10));
    expect(firstDayFor(days, 8)).toBeNull();
  });

  test('is nothing, never less, where more is wanted than comes', () => {
    const [only] = availableToPromise({ today, free: 1, coming: [], wanted: [{ on: '2020-01-01', quantity: 3 }] });
    expect(only).toMatchObject({ on: today, projected: -2, promisable: 0 });
  });

  const dated = fc.array(
    fc.record({ on: fc.integer({ min: 0, max: 20 }).map(day), quantity: fc.integer({ min: 1, max: 9 }) }),
    { maxLength: 8 },
  );
  test('never breaks what was promised before, and one more than it does', () => {
    fc.assert(
      fc.property(fc.nat(9), dated, dated, fc.integer({ min: 0, max: 20 }).map(day), (free, coming, wanted, on) => {
        const count = promisableOn(availableToPromise({ today, free, coming, wanted }), on);
        const least = (more: number): number =>
          Math.min(
            ...availableToPromise({ today, free, coming, wanted: [...wanted, { on, quantity: more }] })
              .filter((each) => each.on >= on)
              .map(({ projected }) => projected),
          );
        if (count > 0) expect(least(count)).toBeGreaterThanOrEqual(0);
        expect(least(count + 1)).toBeLessThan(0);
      }),
    );
  });
});

describe('a kit is complete', () => {
  const lack = (id: string, short: number) => ({ id, jobId: id, servedBy: ['part'], short });
  const comes = (id: string, open: number, promisedOn: string | null, jobId: string | null = null) => ({
    id,
    partId: 'part',
    open,
    promisedOn,
    jobId,
  });
  const of = (facts: { free?: number; coming?: ReturnType<typeof comes>[]; leadDays?: number | null }) => ({
    today,
    free: new Map([['part', facts.free ?? 0]]),
    coming: facts.coming ?? [],
    leadDays: new Map(facts.leadDays === undefined || facts.leadDays === null ? [] : [['part', facts.leadDays]]),
  });

  test('today where all of it lies free, for those whose turn it is', () => {
    expect(readyDays([lack('a', 2), lack('b', 1)], of({ free: 2 }))).toEqual([
      { lackId: 'a', on: today, basis: 'in stock', from: [{ partId: 'part', quantity: 2 }] },
      { lackId: 'b', on: null, basis: 'no date', from: [] },
    ]);
  });

  test('when the last piece of its turn comes', () => {
    const coming = [comes('x', 2, day(3)), comes('y', 5, day(9))];
    expect(readyDays([lack('a', 2), lack('b', 1)], of({ coming })).map(({ on }) => on)).toEqual([day(3), day(9)]);
  });

  test('by the lead time where it would have to be ordered; on no day where one passed or was never given', () => {
    expect(readyDays([lack('a', 1)], of({ leadDays: 6.2 }))).toEqual([
      { lackId: 'a', on: day(7), basis: 'if ordered', from: [] },
    ]);
    for (const coming of [[comes('x', 1, '2026-11-01')], [comes('x', 1, null)]]) {
      expect(readyDays([lack('a', 1)], of({ coming, leadDays: 5 }))).toMatchObject([{ on: null, basis: 'no date' }]);
    }
  });

  test('with its last line, as sure as the least sure of them', () => {
    const line = (on: string | null, basis: 'in stock' | 'on order' | 'if ordered' | 'no date') => ({
      lackId: '',
      on,
      basis,
    });
    expect(kitReady(today, [])).toEqual({ on: today, basis: 'in stock' });
    expect(kitReady(today, [line(day(9), 'on order'), line(day(4), 'if ordered')])).toEqual({
      on: day(9),
      basis: 'if ordered',
    });
    expect(kitReady(today, [line(day(9), 'on order'), line(null, 'no date')])).toEqual({ on: null, basis: 'no date' });
  });
});
