import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rackOf } from '#domain/tally/rack.ts';
import { fillingBy, type PlaceNow } from '#domain/tally/rack-filling.ts';

const valves = [
  { code: 'ex', name: 'exhaust', side: 'exhaust' },
  { code: 'in', name: 'intake', side: 'intake' },
] as const;

describe('the places of a line kept in order', () => {
  it('are the valves, for a set kept by valve with one piece a valve', () => {
    expect(rackOf({ matchedSet: 'buckets by valve', expected: 2 }, valves)).toEqual(valves);
  });

  it('are numbered when the set is not by valve, or has another number of pieces than the engine has valves', () => {
    const numbered = [
      { code: '1', name: '1', side: '' },
      { code: '2', name: '2', side: '' },
    ];
    expect(rackOf({ matchedSet: 'head and cam caps', expected: 2 }, valves)).toEqual(numbered);
    expect(rackOf({ matchedSet: 'shims by valve', expected: 3 }, valves)?.map(({ code }) => code)).toEqual([
      '1',
      '2',
      '3',
    ]);
  });

  it('are none for a single piece, a piece of no set, or more than 24', () => {
    expect(rackOf({ matchedSet: null, expected: 4 }, valves)).toBeNull();
    expect(rackOf({ matchedSet: 'caps', expected: 1 }, valves)).toBeNull();
    expect(rackOf({ matchedSet: 'plates', expected: 25 }, valves)).toBeNull();
  });
});

const rack = (laid: string, all = 'abcd'): PlaceNow[] => [...all].map((code) => ({ code, laid: laid.includes(code) }));
const filling = (places: readonly PlaceNow[], act: 'off' | 'found' | 'fitted' | 'accounted' | 'moved', of: object) =>
  fillingBy(places, { act, count: 1, looseAfter: 1, named: undefined, ...of });

describe('what a movement does to a rack', () => {
  it('fills every place when the whole set is loose, be it in two counts', () => {
    const whole = { ok: true, filled: ['a', 'b', 'c', 'd'], emptied: [] };
    expect(filling(rack(''), 'off', { count: 4, looseAfter: 4 })).toEqual(whole);
    expect(filling(rack('ab'), 'found', { looseAfter: 4 })).toEqual({ ...whole, filled: ['c', 'd'] });
  });

  it('leaves it open where three of four lie until somebody says', () => {
    expect(filling(rack(''), 'off', { count: 3, looseAfter: 3 })).toEqual({ ok: true, filled: [], emptied: [] });
    const said = { count: 3, looseAfter: 3, named: ['a', 'b', 'd'] };
    expect(filling(rack(''), 'off', said)).toEqual({ ok: true, filled: ['a', 'b', 'd'], emptied: [] });
  });

  it('asks which when some of a set go back, and empties all of it with the last', () => {
    expect(filling(rack('abcd'), 'fitted', { looseAfter: 3 })).toEqual({
      ok: false,
      reason: { kind: 'say-which', laid: ['a', 'b', 'c', 'd'], count: 1 },
    });
    expect(filling(rack('abcd'), 'fitted', { looseAfter: 3, named: ['c'] })).toMatchObject({ emptied: ['c'] });
    expect(filling(rack('ab'), 'accounted', { count: 2, looseAfter: 0 })).toMatchObject({ emptied: ['a', 'b'] });
  });

  it('changes nothing when pieces are moved to another tray: the places travel with them', () => {
    expect(filling(rack('abcd'), 'moved', { count: 4, looseAfter: 4 })).toEqual({ ok: true, filled: [], emptied: [] });
  });

  it.each([
    ['fitted', { named: ['x'] }, { kind: 'unknown-place', code: 'x' }],
    ['fitted', { count: 2, named: ['a', 'a'] }, { kind: 'named-twice', code: 'a' }],
    ['fitted', { named: ['d'] }, { kind: 'empty-already', code: 'd' }],
    ['found', { named: ['a'] }, { kind: 'filled-already', code: 'a' }],
    ['fitted', { named: ['a', 'b'] }, { kind: 'more-places-than-pieces', places: 2, count: 1 }],
  ] as const)('%s %o is refused', (act, of, reason) => {
    expect(filling(rack('abc'), act, { looseAfter: 2, ...of })).toEqual({ ok: false, reason });
  });

  it('never has more places filled than pieces are loose, whatever is done to it', () => {
    const step = fc.record({
      act: fc.constantFrom('off', 'found', 'fitted', 'renewed', 'accounted', 'moved'),
      count: fc.integer({ min: 1, max: 5 }),
      named: fc.option(fc.uniqueArray(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 4 }), { nil: undefined }),
    });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 30 }), (steps) => {
        let [places, loose] = [rack(''), 0];
        for (const { act, count, named } of steps) {
          const sign = act === 'off' || act === 'found' ? 1 : act === 'moved' ? 0 : -1;
          const looseAfter = loose + sign * count;
          if (looseAfter < 0) continue;
          const done = fillingBy(places, { act, count, looseAfter, named });
          if (!done.ok) continue;
          loose = looseAfter;
          places = places.map(({ code, laid }) => ({
            code,
            laid: done.filled.includes(code) || (laid && !done.emptied.includes(code)),
          }));
          expect(places.filter(({ laid }) => laid).length).toBeLessThanOrEqual(loose);
        }
      }),
    );
  });
});
