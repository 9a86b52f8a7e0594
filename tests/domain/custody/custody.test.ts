import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type CountLine, compareCounts } from '#domain/custody/counting.ts';
import { actOnHandover, type HandoverAct, type OfferedHandover } from '#domain/custody/handover.ts';
import { type CustodyPeriod, custodyFaults, heldAt, placeFits } from '#domain/custody/holding.ts';

const line = (trayId: string, piece: string, count: number): CountLine => ({ trayId, pieceId: piece, piece, count });

describe('a blind count', () => {
  it('agrees when every piece of every tray is there, whatever the order', () => {
    const given = [line('A', 'buckets', 4), line('A', 'shims', 4), line('B', 'dowels', 2)];
    expect(compareCounts(given, given.toReversed())).toEqual({ kind: 'agree' });
  });

  it('names the piece, what was given and what was counted', () => {
    const outcome = compareCounts([line('A', 'shims', 4), line('A', 'buckets', 4)], [line('A', 'shims', 3)]);
    expect(outcome).toEqual({
      kind: 'differ',
      differences: [
        { kind: 'fewer', trayId: 'A', pieceId: 'shims', piece: 'shims', given: 4, counted: 3 },
        { kind: 'not-counted', trayId: 'A', pieceId: 'buckets', piece: 'buckets', given: 4, counted: 0 },
      ],
    });
  });

  it('names what there is more of, and what nobody had given', () => {
    const outcome = compareCounts([line('A', 'shims', 4)], [line('A', 'washers', 1), line('A', 'shims', 5)]);
    expect(outcome).toMatchObject({
      differences: [
        { kind: 'more', piece: 'shims', given: 4, counted: 5 },
        { kind: 'not-given', piece: 'washers', given: 0, counted: 1 },
      ],
    });
  });

  it('doesn’t mix trays: a dowel in the wrong tray is two differences', () => {
    const outcome = compareCounts([line('A', 'dowel', 1)], [line('B', 'dowel', 1)]);
    expect(outcome).toMatchObject({ kind: 'differ', differences: [{ trayId: 'A' }, { trayId: 'B' }] });
  });

  it('adds up several lines of one piece, and takes none for none', () => {
    const counted = [line('A', 'dowel', 1), line('A', 'dowel', 1)];
    expect(compareCounts([line('A', 'dowel', 2), line('A', 'rag', 0)], counted)).toEqual({ kind: 'agree' });
  });

  it('of half a piece is no count', () => {
    expect(compareCounts([line('A', 'dowel', 2)], [line('A', 'dowel', 1.5)])).toMatchObject({ kind: 'no-count' });
    expect(compareCounts([line('A', 'dowel', 2)], [line('A', 'dowel', -1)])).toMatchObject({ kind: 'no-count' });
  });
});

const offered: OfferedHandover = { standing: 'offered', giverId: 'ada', receiverId: 'bo' };
const agree = { kind: 'agree' } as const;
const differ = compareCounts([line('A', 'shims', 4)], [line('A', 'shims', 3)]);

describe('a handover', () => {
  it('moves custody when the receiver accepts what the count agrees with', () => {
    expect(actOnHandover(offered, { kind: 'accept', by: 'bo', comparison: agree })).toEqual({
      ok: true,
      standing: 'accepted',
      custodyMoves: true,
    });
  });

  it('with a difference is accepted only as such', () => {
    expect(actOnHandover(offered, { kind: 'accept', by: 'bo', comparison: differ })).toMatchObject({
      reason: { kind: 'count-differs' },
    });
    expect(actOnHandover(offered, { kind: 'accept with a difference', by: 'bo', comparison: differ })).toMatchObject({
      standing: 'accepted with a difference',
      custodyMoves: true,
    });
    expect(actOnHandover(offered, { kind: 'accept with a difference', by: 'bo', comparison: agree })).toMatchObject({
      reason: { kind: 'count-agrees' },
    });
  });

  it('may be taken back by the giver and nobody else, and custody stays', () => {
    expect(actOnHandover(offered, { kind: 'withdraw', by: 'ada' })).toEqual({
      ok: true,
      standing: 'withdrawn',
      custodyMoves: false,
    });
    expect(actOnHandover(offered, { kind: 'withdraw', by: 'bo' })).toMatchObject({ reason: { kind: 'not-the-giver' } });
  });

  it('is declined with a reason', () => {
    expect(actOnHandover(offered, { kind: 'decline', by: 'bo', reason: ' ' })).toMatchObject({
      reason: { kind: 'reason-missing' },
    });
    expect(actOnHandover(offered, { kind: 'decline', by: 'bo', reason: 'tray B is missing' })).toMatchObject({
      standing: 'declined',
      custodyMoves: false,
    });
  });

  it('is no business of a third person', () => {
    for (const act of [
      { kind: 'accept', by: 'cy', comparison: agree },
      { kind: 'decline', by: 'cy', reason: 'no' },
    ] satisfies HandoverAct[]) {
      expect(actOnHandover(offered, act)).toMatchObject({ reason: { kind: 'not-the-receiver' } });
    }
  });

  it('accepted a second time changes nothing, and once answered takes no other act', () => {
    const accepted: OfferedHandover = { ...offered, standing: 'accepted' };
    for (const act of [
      { kind: 'accept', by: 'bo', comparison: agree },
      { kind: 'withdraw', by: 'ada' },
      { kind: 'decline', by: 'bo', reason: 'too late' },
    ] satisfies HandoverAct[]) {
      expect(actOnHandover(accepted, act)).toEqual({
        ok: false,
        reason: { kind: 'already-answered', standing: 'accepted' },
      });
    }
  });
});

const period = (from: number, until: number | null, changes: Partial<CustodyPeriod> = {}): CustodyPeriod => ({
  subjectId: 'engine',
  holder: { kind: 'person', personId: `p${from}` },
  placeBayId: 'strip',
  from,
  until,
  ...changes,
});

describe('custody', () => {
  const day = [period(0, 10), period(10, 25), period(25, null)];

  it('of one after another without a gap is without fault, in whatever order it is read', () => {
    expect(custodyFaults(day, null)).toEqual([]);
    expect(custodyFaults(day.toReversed(), null)).toEqual([]);
  });

  it('belongs at every instant to exactly one', () => {
    expect(heldAt(day, 9)?.from).toBe(0);
    expect(heldAt(day, 10)?.from).toBe(10);
    expect(heldAt(day, 1_000_000)?.from).toBe(25);
    expect(heldAt(day, -1)).toBeUndefined();
  });

  it('tells gaps, overlaps, empty periods and an unheld end', () => {
    expect(custodyFaults([period(0, 10), period(12, null)], null)).toEqual([{ kind: 'gap', from: 10, until: 12 }]);
    expect(custodyFaults([period(0, 10), period(8, null)], null)).toEqual([{ kind: 'overlap', from: 8, until: 10 }]);
    expect(custodyFaults([period(0, null), period(8, null)], null)).toEqual([
      { kind: 'overlap', from: 8, until: null },
    ]);
    expect(custodyFaults([period(0, 0), period(0, null)], null)).toEqual([{ kind: 'empty', at: 0 }]);
    expect(custodyFaults([period(0, 10)], null)).toEqual([{ kind: 'unheld', since: 10 }]);
  });

  it('of a tray may end when the tray is emptied', () => {
    expect(custodyFaults([period(0, 10)], 10)).toEqual([]);
    expect(custodyFaults([period(0, 10)], 12)).toEqual([{ kind: 'unheld', since: 10 }]);
  });

  it('has a bay as its place, and none with a vendor or the owner', () => {
    expect(placeFits({ kind: 'person', personId: 'ada' }, 'wash')).toBe(true);
    expect(placeFits({ kind: 'person', personId: 'ada' }, null)).toBe(false);
    expect(placeFits({ kind: 'bay', bayId: 'wash' }, 'wash')).toBe(true);
    expect(placeFits({ kind: 'bay', bayId: 'wash' }, 'rack')).toBe(false);
    expect(placeFits({ kind: 'vendor', vendorId: 'v' }, null)).toBe(true);
    expect(placeFits({ kind: 'owner' }, 'rack')).toBe(false);
    expect(custodyFaults([period(0, null, { placeBayId: null })], null)).toEqual([
      { kind: 'place-does-not-fit', at: 0 },
    ]);
  });

  it('faults are found exactly when some instant has none or more than one holder', () => {
    const bounds = fc.array(fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 1, max: 6 })), {
      minLength: 1,
      maxLength: 5,
    });
    fc.assert(
      fc.property(bounds, fc.boolean(), (spans, lastIsOpen) => {
        const periods = spans.map(([from, length], index) =>
          period(from, lastIsOpen && index === spans.length - 1 ? null : from + length),
        );
        const first = Math.min(...periods.map(({ from }) => from));
        const instants = Array.from({ length: 40 - first }, (_, index) => first + index);
        const always = instants.every(
          (instant) =>
            periods.filter(({ from, until }) => from <= instant && (until === null || instant < until)).length === 1,
        );
        expect(custodyFaults(periods, null).length === 0).toBe(always);
      }),
    );
  });
});
