import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type KitLine, planKit } from '#domain/stock/kit.ts';
import { availableIn, chooseLots, type Lot } from '#domain/stock/lots.ts';
import { type LotReservation, releasesAfterCount } from '#domain/stock/release.ts';
import { averageValue, receiveAtCost, takeAtAverage } from '#domain/stock/value.ts';
import { nanometres } from '#domain/units/quantity.ts';

const lot = (id: string, partId: string, onHand: number, changes: Partial<Lot> = {}): Lot => ({
  id,
  partId,
  receivedAt: '2026-01-01',
  onHand,
  reserved: 0,
  thickness: null,
  ...changes,
});
const wish = (id: string, partId: string, count: number): KitLine => ({ id, partId, count, thickness: null });

const total = (counted: readonly { readonly count: number }[]) => counted.reduce((sum, { count }) => sum + count, 0);

describe('choosing lots', () => {
  it('takes the oldest first and goes on to the next', () => {
    const lots = [lot('new', 'gasket', 5), lot('old', 'gasket', 2, { receivedAt: '2025-06-01' })];
    expect(chooseLots(lots, { partId: 'gasket', count: 4, thickness: null })).toEqual({
      shares: [
        { lotId: 'old', count: 2 },
        { lotId: 'new', count: 2 },
      ],
      missing: 0,
    });
  });

  it('leaves what others have reserved', () => {
    const lots = [lot('a', 'gasket', 5, { reserved: 4 })];
    expect(chooseLots(lots, { partId: 'gasket', count: 3, thickness: null })).toEqual({
      shares: [{ lotId: 'a', count: 1 }],
      missing: 2,
    });
  });

  it('takes a shim of exactly the thickness asked for, and no other', () => {
    const lots = [
      lot('a', 'shim', 3, { thickness: nanometres(2_300_000) }),
      lot('b', 'shim', 3, { thickness: nanometres(2_350_000), receivedAt: '2020-01-01' }),
      lot('c', 'shim', 3),
    ];
    const choice = chooseLots(lots, { partId: 'shim', count: 4, thickness: nanometres(2_300_000) });
    expect(choice).toEqual({ shares: [{ lotId: 'a', count: 3 }], missing: 1 });
  });
});

describe('a kit', () => {
  const lots = [lot('p', 'piston', 1), lot('r', 'rings', 1), lot('c', 'circlips', 2)];

  it('is reserved whole when everything is there', () => {
    const plan = planKit([wish('1', 'piston', 1), wish('2', 'circlips', 2)], lots, 'whole');
    expect(plan).toEqual({
      reservations: [
        { lineId: '1', lotId: 'p', count: 1 },
        { lineId: '2', lotId: 'c', count: 2 },
      ],
      shortages: [],
    });
  });

  it('reserves nothing when one line is short, and names what is missing', () => {
    const plan = planKit([wish('1', 'piston', 1), wish('2', 'circlips', 4)], lots, 'whole');
    expect(plan).toEqual({
      reservations: [],
      shortages: [{ lineId: '2', partId: 'circlips', wanted: 4, available: 2, missing: 2 }],
    });
  });

  it('reserves what there is when the clerk chose a part of it', () => {
    const plan = planKit([wish('1', 'piston', 1), wish('2', 'circlips', 4)], lots, 'partial');
    expect(plan.reservations).toHaveLength(2);
    expect(plan.shortages).toHaveLength(1);
  });

  it('doesn’t promise one piston to two lines', () => {
    const plan = planKit([wish('1', 'piston', 1), wish('2', 'piston', 1)], lots, 'partial');
    expect(plan.reservations).toEqual([{ lineId: '1', lotId: 'p', count: 1 }]);
    expect(plan.shortages).toMatchObject([{ lineId: '2', available: 0, missing: 1 }]);
  });

  it('never reserves more than a lot has, and reserved + missing is what was wanted', () => {
    const part = fc.constantFrom('a', 'b', 'c');
    const someLots = fc.array(
      fc.record({ part, onHand: fc.nat(6), reserved: fc.nat(6), day: fc.integer({ min: 10, max: 28 }) }),
      { maxLength: 8 },
    );
    const someLines = fc.array(fc.record({ part, count: fc.integer({ min: 1, max: 7 }) }), { maxLength: 6 });
    fc.assert(
      fc.property(someLots, someLines, fc.constantFrom('whole' as const, 'partial' as const), (stock, wishes, rule) => {
        const shelf = stock.map(({ part: partId, onHand, reserved, day }, index) =>
          lot(`lot${index}`, partId, onHand, { reserved: Math.min(reserved, onHand), receivedAt: `2026-01-${day}` }),
        );
        const lines = wishes.map(({ part: partId, count }, index) => wish(`line${index}`, partId, count));
        const plan = planKit(lines, shelf, rule);
        for (const each of shelf) {
          const promised = plan.reservations.filter(({ lotId }) => lotId === each.id);
          expect(promised.reduce((sum, { count }) => sum + count, 0)).toBeLessThanOrEqual(availableIn(each));
          for (const { lineId } of promised) {
            expect(lines.find(({ id }) => id === lineId)?.partId).toBe(each.partId);
          }
        }
        for (const partId of ['a', 'b', 'c']) {
          const wanted = total(lines.filter((each) => each.partId === partId));
          const available = shelf
            .filter((each) => each.partId === partId)
            .reduce((sum, each) => sum + availableIn(each), 0);
          const missing = plan.shortages
            .filter((each) => each.partId === partId)
            .reduce((sum, each) => sum + each.missing, 0);
          expect(missing).toBe(Math.max(0, wanted - available));
        }
        const missing = plan.shortages.reduce((sum, each) => sum + each.missing, 0);
        const nothing = rule === 'whole' && missing > 0;
        expect(total(plan.reservations)).toBe(nothing ? 0 : total(lines) - missing);
      }),
    );
  });
});

describe('a count that finds fewer', () => {
  const reservations: readonly LotReservation[] = [
    { id: '1', jobId: 'soon', count: 2, promised: '2026-12-01' },
    { id: '2', jobId: 'later', count: 2, promised: '2026-12-20' },
    { id: '3', jobId: 'unpromised', count: 1, promised: null },
  ];

  it('takes back first from a job without a promise, then from the one promised latest', () => {
    expect(releasesAfterCount(6, 3, reservations)).toEqual({
      adjustment: -3,
      releases: [
        { reservationId: '3', jobId: 'unpromised', count: 1 },
        { reservationId: '2', jobId: 'later', count: 1 },
      ],
    });
  });

  it('takes back nothing while it still covers what is promised', () => {
    expect(releasesAfterCount(8, 5, reservations)).toEqual({ adjustment: -3, releases: [] });
    expect(releasesAfterCount(5, 9, reservations)).toEqual({ adjustment: 4, releases: [] });
  });

  it('of two jobs promised alike takes from the reservation made last', () => {
    const alike = [
      { id: '1', jobId: 'first', count: 1, promised: '2026-12-01' },
      { id: '2', jobId: 'second', count: 1, promised: '2026-12-01' },
    ];
    expect(releasesAfterCount(2, 1, alike).releases).toEqual([{ reservationId: '2', jobId: 'second', count: 1 }]);
  });

  it('releases exactly what is no longer there', () => {
    const some = fc.array(
      fc.record({ count: fc.integer({ min: 1, max: 4 }), promised: fc.constantFrom(null, '2026-01-01', '2026-02-01') }),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(some, fc.nat(20), (made, counted) => {
        const all = made.map((each, index) => ({ ...each, id: `${index}`, jobId: `j${index}` }));
        const reserved = all.reduce((sum, { count }) => sum + count, 0);
        const { releases } = releasesAfterCount(reserved, counted, all);
        expect(releases.reduce((sum, { count }) => sum + count, 0)).toBe(Math.max(0, reserved - counted));
        for (const { reservationId, count } of releases) {
          expect(count).toBeLessThanOrEqual(all.find(({ id }) => id === reservationId)?.count ?? 0);
        }
      }),
    );
  });
});

describe('what stock is worth', () => {
  it('never goes below nothing, and an empty shelf is worth nothing', () => {
    const act = fc.record({
      isReceipt: fc.boolean(),
      count: fc.integer({ min: 1, max: 9 }),
      cost: fc.bigInt(0n, 9999n),
    });
    fc.assert(
      fc.property(fc.array(act, { maxLength: 40 }), (acts) => {
        let stock = { onHand: 0, value: 0n };
        let received = 0n;
        let taken = 0n;
        for (const { isReceipt, count, cost } of acts) {
          const step = isReceipt ? receiveAtCost(stock, count, cost) : takeAtAverage(stock, count);
          if (!step.ok) continue;
          if (isReceipt) received += step.moved;
          else taken += step.moved;
          stock = step.stock;
          expect(stock.value).toBe(received - taken);
          expect(stock.value >= 0n).toBe(true);
          if (stock.onHand === 0) expect(stock.value).toBe(0n);
        }
      }),
    );
  });

  it('refuses what can’t be: more out than there is, a cost below nothing', () => {
    expect(takeAtAverage({ onHand: 2, value: 500n }, 3)).toMatchObject({ reason: { kind: 'more-than-on-hand' } });
    expect(receiveAtCost({ onHand: 0, value: 0n }, 1, -1n)).toMatchObject({ reason: { kind: 'negative-cost' } });
    expect(receiveAtCost({ onHand: 0, value: 0n }, 0.5, 1n)).toMatchObject({ reason: { kind: 'count-not-whole' } });
    expect(averageValue({ onHand: 0, value: 0n })).toBeNull();
  });
});
