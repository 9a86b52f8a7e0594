import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Lying } from '#domain/tally/lying.ts';
import { rackOf } from '#domain/tally/rack.ts';
import { fillingBy, type PlaceNow, type RackMovement, takenByPlaces } from '#domain/tally/rack-filling.ts';

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

/** Letters of places whose pieces lie in tray A and in tray B. */
const rack = (inA: string, inB = '', all = 'abcd'): PlaceNow[] =>
  [...all].map((code) => ({
    code,
    laid: inA.includes(code) || inB.includes(code),
    trayId: inA.includes(code) ? 'A' : inB.includes(code) ? 'B' : null,
  }));
const lying = (inA: number, inB = 0): Lying[] => [
  { trayId: 'A', count: inA },
  { trayId: 'B', count: inB },
];
type Of = Partial<Omit<RackMovement, 'act'>>;
const off = (places: readonly PlaceNow[], of: Of) =>
  fillingBy(places, { act: 'off', count: 1, taken: [], to: 'A', lyingAfter: lying(1), named: undefined, ...of });
const out = (act: 'fitted' | 'accounted' | 'moved', places: readonly PlaceNow[], of: Of) =>
  fillingBy(places, {
    act,
    count: 1,
    taken: [{ trayId: 'A', count: 1 }],
    to: null,
    lyingAfter: lying(1),
    named: undefined,
    ...of,
  });

describe('what a movement does to a rack', () => {
  it('fills every place when the whole set is loose in one tray, be it in two counts', () => {
    const whole = { ok: true, filled: ['a', 'b', 'c', 'd'], emptied: [] };
    expect(off(rack(''), { count: 4, lyingAfter: lying(4) })).toEqual(whole);
    expect(off(rack('ab'), { count: 2, lyingAfter: lying(4) })).toEqual({ ...whole, filled: ['c', 'd'] });
  });

  it('fills the rest when those in the other tray have their places, and none while they have not', () => {
    expect(off(rack('', 'ab'), { count: 2, lyingAfter: lying(2, 2) })).toMatchObject({ filled: ['c', 'd'] });
    expect(off(rack(''), { count: 2, lyingAfter: lying(2, 2) })).toMatchObject({ filled: [] });
  });

  it('fills nothing by a count of none, however many are loose: what somebody emptied stays empty', () => {
    expect(off(rack('acd'), { count: 0, lyingAfter: lying(4) })).toEqual({ ok: true, filled: [], emptied: [] });
  });

  it('leaves it open where three of four lie until somebody says', () => {
    expect(off(rack(''), { count: 3, lyingAfter: lying(3) })).toEqual({ ok: true, filled: [], emptied: [] });
    const said = { count: 3, lyingAfter: lying(3), named: ['a', 'b', 'd'] };
    expect(off(rack(''), said)).toEqual({ ok: true, filled: ['a', 'b', 'd'], emptied: [] });
  });

  it('asks which when some of a set leave a tray, and empties all of it with the last', () => {
    expect(out('fitted', rack('abcd'), { lyingAfter: lying(3) })).toEqual({
      ok: false,
      reason: { kind: 'say-which', laid: ['a', 'b', 'c', 'd'], count: 1 },
    });
    expect(out('fitted', rack('abcd'), { lyingAfter: lying(3), named: ['c'] })).toMatchObject({ emptied: ['c'] });
    const last = { count: 2, taken: [{ trayId: 'A', count: 2 }], lyingAfter: lying(0) };
    expect(out('accounted', rack('ab'), last)).toMatchObject({ emptied: ['a', 'b'] });
  });

  it('of a set in two trays empties the places of the one that is taken from, and asks for that one alone', () => {
    const split = rack('ab', 'cd');
    const last = { count: 2, taken: [{ trayId: 'A', count: 2 }], lyingAfter: lying(0, 2) };
    expect(out('fitted', split, last)).toMatchObject({ emptied: ['a', 'b'] });
    expect(out('fitted', split, { lyingAfter: lying(1, 2) })).toMatchObject({ reason: { laid: ['a', 'b'] } });
    expect(out('fitted', split, { lyingAfter: lying(1, 2), named: ['c'] })).toEqual({
      ok: false,
      reason: { kind: 'lies-elsewhere', code: 'c', trayId: 'B' },
    });
  });

  it('lays what is moved in the same places of the other tray; some of it by the places that are named', () => {
    const all = { count: 4, taken: [{ trayId: 'A', count: 4 }], to: 'B', lyingAfter: lying(0, 4) };
    expect(out('moved', rack('abcd'), all)).toEqual({ ok: true, filled: ['a', 'b', 'c', 'd'], emptied: [] });
    const two = { count: 2, taken: [{ trayId: 'A', count: 2 }], to: 'B', lyingAfter: lying(2, 2) };
    expect(out('moved', rack('abcd'), two)).toMatchObject({ reason: { kind: 'say-which', count: 2 } });
    expect(out('moved', rack('abcd'), { ...two, named: ['b', 'd'] })).toMatchObject({ filled: ['b', 'd'] });
  });

  it.each([
    ['fitted', { named: ['x'] }, { kind: 'unknown-place', code: 'x' }],
    ['fitted', { count: 2, named: ['a', 'a'] }, { kind: 'named-twice', code: 'a' }],
    ['fitted', { named: ['d'] }, { kind: 'empty-already', code: 'd' }],
    ['off', { named: ['a'] }, { kind: 'filled-already', code: 'a' }],
    ['fitted', { named: ['a', 'b'] }, { kind: 'more-places-than-pieces', places: 2, count: 1 }],
  ] as const)('%s %o is refused', (act, of, reason) => {
    const done = act === 'off' ? off(rack('abc'), of) : out(act, rack('abc'), { lyingAfter: lying(2), ...of });
    expect(done).toEqual({ ok: false, reason });
  });

  it('tells by named places out of which trays their pieces come, when each piece is named', () => {
    const split = rack('ab', 'c');
    expect(takenByPlaces(split, { named: ['a', 'c'], count: 2 })).toEqual([
      { trayId: 'A', count: 1 },
      { trayId: 'B', count: 1 },
    ]);
    expect(takenByPlaces(split, { named: ['a'], count: 2 })).toBeUndefined();
    expect(takenByPlaces(split, { named: ['d'], count: 1 })).toBeUndefined();
    expect(takenByPlaces(split, { named: undefined, count: 1 })).toBeUndefined();
  });

  it('never has more places filled in a tray than pieces lie in it, whatever is done', () => {
    const step = fc.record({
      act: fc.constantFrom('off', 'found', 'fitted', 'renewed', 'accounted', 'moved'),
      count: fc.integer({ min: 1, max: 5 }),
      tray: fc.constantFrom('A', 'B'),
      named: fc.option(fc.uniqueArray(fc.constantFrom('a', 'b', 'c', 'd'), { maxLength: 4 }), { nil: undefined }),
    });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 30 }), (steps) => {
        let [places, lies] = [rack(''), lying(0)];
        for (const { act, count, tray, named } of steps) {
          const lays = act === 'off' || act === 'found';
          const to = act === 'moved' ? (tray === 'A' ? 'B' : 'A') : tray;
          const taken = lays ? [] : [{ trayId: tray, count }];
          if (!lays && count > (lies.find(({ trayId }) => trayId === tray)?.count ?? 0)) continue;
          const added = lays || act === 'moved' ? count : 0;
          const lyingAfter = lies.map(({ trayId, count: there }) => ({
            trayId,
            count: there + (trayId === to ? added : 0) - (trayId === tray && !lays ? count : 0),
          }));
          const done = fillingBy(places, { act, count, taken, to, lyingAfter, named });
          if (!done.ok) continue;
          lies = lyingAfter;
          places = places.map((place) => ({
            ...place,
            laid: done.filled.includes(place.code) || (place.laid && !done.emptied.includes(place.code)),
            trayId: done.filled.includes(place.code) ? to : place.trayId,
          }));
          for (const { trayId, count: there } of lies)
            expect(places.filter((place) => place.laid && place.trayId === trayId).length).toBeLessThanOrEqual(there);
        }
      }),
    );
  });
});
