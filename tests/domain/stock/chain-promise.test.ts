import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type ChainFacts, chainToPromise } from '#domain/stock/chain-promise.ts';
import { type LineReady, readyDays } from '#domain/stock/completion.ts';
import { availableToPromise, daysLater, promisableOn } from '#domain/stock/promise.ts';
import { mostServed, piecesOf } from '../../support/matching.ts';

const today = '2026-11-26';
const day = (count: number): string => daysLater(today, count);
/** Two old numbers replaced by one, which is replaced by a newest. */
const servedBy = { a: ['a', 'c', 'd'], b: ['b', 'c', 'd'], c: ['c', 'd'], d: ['d'] } as const;
type Number = keyof typeof servedBy;

const numbers = fc.constantFrom<Number>('a', 'b', 'c', 'd');
const days = fc.integer({ min: 0, max: 4 }).map((count) => day(count * 5));
const some = fc.integer({ min: 1, max: 3 });
const supplies = fc.array(fc.record({ partId: numbers, on: days, quantity: some }), { maxLength: 6 });
const wishes = fc.array(
  fc.record({ of: numbers, on: days, quantity: some }).map(({ of, ...wish }) => ({ ...wish, servedBy: servedBy[of] })),
  { maxLength: 6 },
);
const promise = (of: Number, facts: Pick<ChainFacts, 'supplies' | 'wishes'>) =>
  chainToPromise({ today, servedBy: servedBy[of], ...facts });

describe('what can be promised of a part that was replaced', () => {
  test('is what lies there and comes of its own and of what replaced it, less what others want of those', () => {
    const facts = {
      supplies: [
        { partId: 'a', on: today, quantity: 1 },
        { partId: 'd', on: today, quantity: 2 },
        { partId: 'c', on: day(5), quantity: 4 },
      ],
      wishes: [{ servedBy: servedBy.d, on: day(2), quantity: 1 }],
    };
    const found = promise('a', facts);
    expect([promisableOn(found, today), promisableOn(found, day(5))]).toEqual([2, 6]);
    expect(promisableOn(promise('d', facts), day(9))).toBe(1);
  });

  test('leaves to another old number what only the common new one can give it', () => {
    const facts = {
      supplies: [
        { partId: 'c', on: today, quantity: 1 },
        { partId: 'b', on: day(5), quantity: 1 },
      ],
      wishes: [{ servedBy: servedBy.b, on: day(3), quantity: 1 }],
    };
    expect(promisableOn(promise('a', facts), today)).toBe(0);
    expect(promisableOn(promise('b', facts), day(5))).toBe(1);
  });

  test('of a part alone is what is available to promise', () => {
    const dated = fc.array(fc.record({ on: days, quantity: some }), { maxLength: 6 });
    fc.assert(
      fc.property(dated, dated, (coming, wanted) => {
        const alone = chainToPromise({
          today,
          servedBy: ['d'],
          supplies: coming.map((supply) => ({ ...supply, partId: 'd' })),
          wishes: wanted.map((wish) => ({ ...wish, servedBy: ['d'] })),
        });
        expect(alone).toEqual(availableToPromise({ today, free: 0, coming, wanted }));
      }),
      { numRuns: 500 },
    );
  });

  test('is as much as a count of every way to serve all finds, and not one more', () => {
    fc.assert(
      fc.property(supplies, wishes, numbers, days, (there, wanted, of, on) => {
        const promised = promisableOn(promise(of, { supplies: there, wishes: wanted }), on);
        const units = piecesOf(there);
        const before = piecesOf(wanted);
        const served = (more: number) =>
          mostServed([...before, ...Array.from({ length: more }, () => ({ servedBy: servedBy[of], on }))], units);
        const inTime = mostServed(before, units);
        expect(served(promised)).toBe(inTime + promised);
        if (inTime === before.length) expect(served(promised + 1)).toBe(inTime + promised);
      }),
      { numRuns: 1500 },
    );
  });
});

test('no piece is promised twice, under whichever number it is wanted', () => {
  const jobs = fc.constantFrom('one', 'two', 'three');
  const lacks = fc.array(fc.record({ of: numbers, jobId: jobs, short: some }), { maxLength: 6 });
  const coming = fc.array(
    fc.record({ partId: numbers, jobId: fc.option(jobs), open: some, promisedOn: fc.option(days) }),
    { maxLength: 6 },
  );
  const free = fc.uniqueArray(fc.tuple(numbers, some), { selector: ([of]) => of, maxLength: 4 });
  const given = (lines: readonly LineReady[], of: string): number =>
    lines.flatMap(({ from }) => from).reduce((sum, { partId, quantity }) => sum + (partId === of ? quantity : 0), 0);
  fc.assert(
    fc.property(lacks, coming, free, (wanted, orders, stock) => {
      const known = orders.map((order, at) => ({ ...order, id: `line ${at}` }));
      const lines = readyDays(
        wanted.map(({ of, ...lack }, at) => ({ ...lack, id: `lack ${at}`, servedBy: servedBy[of] })),
        { today, free: new Map(stock), coming: known, leadDays: new Map() },
      );
      for (const number of Object.keys(servedBy)) {
        const there = new Map<string, number>(stock).get(number) ?? 0;
        const comes = known.reduce((sum, { partId, open }) => sum + (partId === number ? open : 0), 0);
        expect(given(lines, number)).toBeLessThanOrEqual(there + comes);
      }
      lines.forEach(({ from, on, basis }, at) => {
        const { of, short } = wanted[at] ?? { of: 'd', short: 0 };
        const got = from.reduce((sum, { quantity }) => sum + quantity, 0);
        expect(from.every(({ partId }) => (servedBy[of] as readonly string[]).includes(partId))).toBe(true);
        expect(got).toBeLessThanOrEqual(short);
        if (on !== null) expect(got, basis).toBe(short);
      });
    }),
    { numRuns: 1000 },
  );
});

test('a shortage of an old number is filled by the new one on order, and told so', () => {
  const coming = [{ id: 'line', partId: 'd', jobId: null, open: 3, promisedOn: day(5) }];
  const lack = (id: string, of: Number, short: number) => ({ id, jobId: id, short, servedBy: servedBy[of] });
  const facts = { today, free: new Map([['a', 1]]), coming, leadDays: new Map([['d', 9]]) };
  expect(readyDays([lack('old', 'a', 2), lack('new', 'd', 2), lack('last', 'b', 1)], facts)).toEqual([
    {
      lackId: 'old',
      on: day(5),
      basis: 'on order',
      from: [
        { partId: 'a', quantity: 1 },
        { partId: 'd', quantity: 1 },
      ],
    },
    { lackId: 'new', on: day(5), basis: 'on order', from: [{ partId: 'd', quantity: 2 }] },
    // Nothing is left: it is bought as its newest number, by the time that takes.
    { lackId: 'last', on: day(9), basis: 'if ordered', from: [] },
  ]);
});
