import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Lying, lyingAfter, lyingInAll, takenFrom } from '#domain/tally/lying.ts';

const places: readonly Lying[] = [
  { trayId: 'A', count: 5 },
  { trayId: 'B', count: 3 },
];

describe('where the pieces of a line lie', () => {
  it('are all taken, wherever they lie, when all are asked for', () => {
    expect(takenFrom(places, 8)).toEqual({ ok: true, taken: places });
  });

  it('some of them only from a place that is said, unless they lie in one place', () => {
    expect(takenFrom(places, 2)).toEqual({ ok: false, reason: { kind: 'say-from-where', places: 2 } });
    expect(takenFrom(places, 2, 'B')).toEqual({ ok: true, taken: [{ trayId: 'B', count: 2 }] });
    expect(takenFrom([{ trayId: null, count: 4 }], 2)).toEqual({ ok: true, taken: [{ trayId: null, count: 2 }] });
  });

  it('never more than lie there', () => {
    expect(takenFrom(places, 4, 'B')).toEqual({ ok: false, reason: { kind: 'not-so-many-there', there: 3, count: 4 } });
    expect(takenFrom(places, 1, null)).toMatchObject({ reason: { there: 0 } });
    expect(takenFrom(places, 9)).toMatchObject({ reason: { kind: 'not-so-many-there', there: 8, count: 9 } });
  });

  it('a place that was emptied is none', () => {
    const emptied = [...places.slice(0, 1), { trayId: 'B', count: 0 }];
    expect(takenFrom(emptied, 2)).toEqual({ ok: true, taken: [{ trayId: 'A', count: 2 }] });
    expect(lyingAfter(places, [{ trayId: 'B', count: 3 }])).toEqual([{ trayId: 'A', count: 5 }]);
  });

  it('moved pieces are conserved: what leaves one place is in the other', () => {
    const place = fc.constantFrom('A', 'B', null);
    const lying = fc.uniqueArray(fc.record({ trayId: place, count: fc.integer({ min: 0, max: 9 }) }), {
      selector: ({ trayId }) => trayId,
    });
    fc.assert(
      fc.property(lying, place, place, fc.integer({ min: 1, max: 9 }), (before, from, to, count) => {
        const taking = takenFrom(before, count, from);
        if (!taking.ok) return;
        const after = lyingAfter(before, taking.taken, { trayId: to });
        expect(lyingInAll(after)).toBe(lyingInAll(before));
        expect(lyingInAll(lyingAfter(before, taking.taken))).toBe(lyingInAll(before) - count);
        expect(after.every((one) => one.count > 0)).toBe(true);
      }),
    );
  });
});
