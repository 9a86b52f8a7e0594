import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  askFor,
  type DemandLine,
  type DemandPlace,
  moveDemand,
  newDemand,
  wantedCount,
  wantMore,
} from '#domain/stock/demand.ts';

const line = (changes: Partial<DemandLine> = {}): DemandLine => ({
  reserved: 0,
  short: 0,
  issued: 0,
  cancelled: 0,
  notAsked: 0,
  ...changes,
});

describe('a demand line', () => {
  it('starts with nothing asked for', () => {
    expect(newDemand(3)).toEqual({ ok: true, line: line({ notAsked: 3 }) });
    expect(newDemand(0)).toMatchObject({ reason: { kind: 'count-not-whole' } });
    expect(newDemand(1.5)).toMatchObject({ ok: false });
  });

  it('asked for is never refused for want of stock: the rest is short', () => {
    expect(askFor(line({ notAsked: 5 }), 3)).toEqual({ ok: true, line: line({ reserved: 3, short: 2 }) });
    expect(askFor(line({ notAsked: 5 }), 0)).toEqual({ ok: true, line: line({ short: 5 }) });
    expect(askFor(line({ reserved: 3, short: 2 }), 9)).toEqual({ ok: true, line: line({ reserved: 5 }) });
  });

  it('is handed out only from what is reserved', () => {
    expect(moveDemand(line({ reserved: 2 }), 'reserved', { to: 'issued', count: 2 })).toMatchObject({ ok: true });
    expect(moveDemand(line({ reserved: 2 }), 'reserved', { to: 'issued', count: 3 })).toEqual({
      ok: false,
      reason: { kind: 'not-so-many', from: 'reserved', there: 2, count: 3 },
    });
    expect(moveDemand(line({ short: 2 }), 'short', { to: 'issued', count: 1 })).toEqual({
      ok: false,
      reason: { kind: 'no-such-move', from: 'short', to: 'issued' },
    });
  });

  it('that was handed out and came back unused can be cancelled', () => {
    expect(moveDemand(line({ issued: 1 }), 'issued', { to: 'cancelled', count: 1 })).toMatchObject({
      line: line({ cancelled: 1 }),
    });
  });

  it('wanted is always the sum of its five places, none below zero, through any moves', () => {
    const place = fc.constantFrom<DemandPlace>('reserved', 'short', 'issued', 'cancelled', 'notAsked');
    const count = fc.integer({ min: -1, max: 6 });
    const act = fc.oneof(
      fc.record({ kind: fc.constant('move' as const), from: place, to: place, count }),
      fc.record({ kind: fc.constant('ask' as const), count }),
      fc.record({ kind: fc.constant('more' as const), count }),
    );
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 9 }), fc.array(act, { maxLength: 40 }), (wanted, acts) => {
        let now = line({ notAsked: wanted });
        let expected = wanted;
        for (const made of acts) {
          const step =
            made.kind === 'move'
              ? moveDemand(now, made.from, { to: made.to, count: made.count })
              : made.kind === 'ask'
                ? askFor(now, made.count)
                : wantMore(now, made.count);
          if (step.ok) {
            now = step.line;
            if (made.kind === 'more') expected += made.count;
          }
          expect(wantedCount(now)).toBe(expected);
          expect(Math.min(...Object.values(now))).toBeGreaterThanOrEqual(0);
        }
      }),
    );
  });
});
