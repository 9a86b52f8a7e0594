import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseShim, type ShimCandidate } from '#domain/lash/choose-shim.ts';
import { type ChoiceInHead, chooseForHeads, type ShimmedHead, type StoredShims } from '#domain/lash/heads.ts';
import type { ShimmedValve } from '#domain/lash/shim.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { headsCase } from '../../support/generated-heads.ts';
import { byTrying, compareScores, countsOf } from './every-way.ts';

const mm = (value: number) => nanometres(Math.round(value * 1e6));
const exactly = (value: number) => ({ value: mm(value), uncertainty: mm(0) });

const valve = (code: string, fitted: number, lash: number | readonly [number, number | null]): ShimmedValve => {
  const [low, high] = typeof lash === 'number' ? [lash, lash] : lash;
  return {
    code,
    fitted: { measured: exactly(fitted), printed: null },
    lash: { low: mm(low), high: high === null ? null : mm(high) },
    wanted: mm(0.13),
    range: { low: mm(0.1), high: mm(0.15) },
    shimDiameter: mm(7.48),
  };
};
const head = (valves: readonly ShimmedValve[], name = 'head'): ShimmedHead => ({
  name,
  valves: valves.map((one) => ({ ...one, makersSizes: { low: mm(1.2), high: mm(3.5) } })),
});
const bin = (lotId: string, thickness: number, count = 1, receivedAt = '2026-03-01'): StoredShims => ({
  source: { kind: 'bin', lotId, receivedAt },
  thickness: exactly(thickness),
  shimDiameter: mm(7.48),
  count,
});
const buy = (partId: string, thickness: number, count = 16): StoredShims => ({
  source: { kind: 'buy', partId },
  thickness: exactly(thickness),
  shimDiameter: mm(7.48),
  count,
});
const told = (choice: ChoiceInHead): string => {
  if (!choice.ok) return `${choice.valve}: ${choice.reason.kind}`;
  const { source } = choice.chosen;
  switch (source.kind) {
    case 'stays':
      return `${choice.valve} stays`;
    case 'engine':
      return `${choice.valve} from ${source.valve}`;
    case 'bin':
      return `${choice.valve} from bin ${source.lotId}`;
    case 'buy':
      return `${choice.valve} bought ${source.partId}`;
  }
};
const chosen = (heads: readonly ShimmedHead[], stored: readonly StoredShims[]) =>
  chooseForHeads(heads, stored).valves.map(told);

describe('the whole head at once', () => {
  it('exchanges two shims of the engine instead of opening a bin', () => {
    const valves = [valve('A', 2.35, 0.08), valve('B', 2.3, 0.18)];
    expect(chosen([head(valves)], [bin('x', 2.3, 9), bin('y', 2.35, 9)])).toEqual(['A from B', 'B from A']);
  });

  it('gives the only shim to the valve that has no other, though it would serve the first one better', () => {
    const valves = [valve('A', 2.35, 0.09), valve('B', 2.35, 0.07)];
    expect(chosen([head(valves)], [bin('only', 2.29), bin('thicker', 2.33)])).toEqual([
      'A from bin thicker',
      'B from bin only',
    ]);
  });

  it('buys one that is sure rather than keeping a valve that may be out', () => {
    const valves = [valve('A', 2.35, [0.08, 0.12])];
    expect(chosen([head(valves)], [buy('p', 2.32)])).toEqual(['A bought p']);
  });

  it('buys nothing where a move within the engine makes room for one of the bin', () => {
    const valves = [valve('A', 2.35, 0.09), valve('B', 2.31, 0.17)];
    // The shim out of B would do for A, and B can have one of the bin or a new one.
    expect(chosen([head(valves)], [buy('p', 2.31), bin('b', 2.35)])).toEqual(['A from B', 'B from A']);
    expect(chosen([head(valves)], [buy('p', 2.31)])).toEqual(['A from B', 'B from A']);
  });

  it('gives the first valve the better of two that come to the same for both', () => {
    const valves = [valve('A', 2.35, 0.09), valve('B', 2.35, 0.09)];
    const better = bin('m', 2.31, 1);
    expect(chosen([head(valves)], [bin('n', 2.3), better])).toEqual(['A from bin m', 'B from bin n']);
    expect(chosen([head(valves)], [better, bin('n', 2.3)])).toEqual(['A from bin m', 'B from bin n']);
  });

  it('serves the first valve when one shim would do for either', () => {
    const valves = [valve('A', 2.35, 0.09), valve('B', 2.35, 0.09)];
    const { valves: choices } = chooseForHeads([head(valves)], [bin('n', 2.31)]);
    expect(choices.map(told)).toEqual(['A from bin n', 'B: others-have-them']);
    expect(choices[1]).toMatchObject({ ok: false, reason: { others: [{ head: 'head', valve: 'A' }] } });
  });

  it('never moves a shim from one engine to another, but lets both draw on one bin', () => {
    const first = head([valve('A', 2.35, 0.08)], 'first');
    const second = head([valve('A', 2.3, 0.18)], 'second');
    expect(chosen([first, second], [])).toEqual(['A: not-stocked', 'A: not-stocked']);
    expect(chosen([first, second], [bin('x', 2.3, 1), bin('y', 2.35, 1)])).toEqual(['A from bin x', 'A from bin y']);
  });

  it('tells which shims come out, and what else would do', () => {
    const found = chooseForHeads([head([valve('A', 2.35, 0.09)])], [bin('m', 2.31), bin('n', 2.3), buy('p', 2.32)]);
    expect(found.comeOut).toEqual([{ head: 'head', valve: 'A' }]);
    expect(found.valves[0]).toMatchObject({ ok: true, before: 'out', chosen: { source: { lotId: 'm' } } });
    const [first] = found.valves;
    expect(first?.ok && first.alternatives.map(({ candidate }) => candidate.source)).toEqual([
      { kind: 'bin', lotId: 'n', receivedAt: '2026-03-01' },
      { kind: 'buy', partId: 'p' },
    ]);
  });

  it('takes nothing from a valve whose lash has no upper end, and asks for it to be measured again', () => {
    const valves = [valve('A', 2.35, 0.08), valve('B', 2.3, [0.3, null])];
    expect(chosen([head(valves)], [])).toEqual(['A: not-stocked', 'B: lash-has-no-upper-bound']);
  });

  it('points at valve and seat when the maker has no shim for it', () => {
    const receded = { ...valve('A', 1.3, 0.0), range: { low: mm(0.15), high: mm(0.2) } };
    expect(chosen([head([receded])], [bin('x', 1.2)])).toEqual(['A: outside-makers-sizes']);
  });

  it('serves shims on the bucket the same way, by their own diameter', () => {
    const onBucket = { ...valve('A', 2.7, 0.09), shimDiameter: mm(25) };
    const shim = { ...bin('top', 2.65), shimDiameter: mm(25) };
    expect(chosen([head([onBucket])], [bin('small', 2.66), shim])).toEqual(['A from bin top']);
  });

  it('has nothing to say of no valves', () => {
    expect(chooseForHeads([], [bin('x', 2)])).toEqual({ valves: [], comeOut: [] });
  });
});

describe('any whole head', () => {
  const small = headsCase({ heads: 2, valves: 3, stored: 4 });

  it('is served as by trying every way there is', () => {
    fc.assert(
      fc.property(small, ({ heads, stored }) => {
        expect(chosen(heads, stored)).toEqual(byTrying(heads, stored));
      }),
      { numRuns: 300 },
    );
  });

  it('is served in the order of its valves where many ways come to the same', () => {
    fc.assert(
      fc.property(headsCase({ heads: 1, valves: 4, stored: 5, alike: true }), ({ heads, stored }) => {
        expect(chosen(heads, stored)).toEqual(byTrying(heads, stored));
      }),
      { numRuns: 200 },
    );
  });

  it('is served the same whatever the order of the lots', () => {
    fc.assert(
      fc.property(headsCase({ heads: 2, valves: 8, stored: 30 }), fc.nat(), ({ heads, stored }, turn) => {
        const turned = stored
          .map((_, index) => stored[(index + turn) % stored.length])
          .filter((one) => one !== undefined);
        expect(chosen(heads, turned)).toEqual(chosen(heads, stored));
        expect(chosen(heads, stored.toReversed())).toEqual(chosen(heads, stored));
      }),
    );
  });

  it('is served no worse when a lot is added', () => {
    fc.assert(
      fc.property(headsCase({ heads: 2, valves: 8, stored: 30 }), ({ heads, stored }) => {
        const fewer = countsOf(chooseForHeads(heads, stored.slice(1)), heads);
        const more = countsOf(chooseForHeads(heads, stored), heads);
        expect(compareScores(more, fewer)).toBeLessThanOrEqual(0);
      }),
    );
  });

  it('takes no shim twice and no more of a lot than there are', () => {
    fc.assert(
      fc.property(headsCase({ heads: 2, valves: 8, stored: 30 }), ({ heads, stored }) => {
        const { valves } = chooseForHeads(heads, stored);
        const keys = valves.flatMap((choice) =>
          choice.ok ? [JSON.stringify([choice.head, choice.valve, choice.chosen.source])] : [],
        );
        for (const shim of stored) {
          const taken = keys.filter((key) => key.includes(JSON.stringify(shim.source)));
          expect(taken.length).toBeLessThanOrEqual(shim.count);
        }
        const fromEngine = valves.flatMap((choice) => {
          if (!choice.ok) return [];
          const { source } = choice.chosen;
          if (source.kind === 'stays') return [`${choice.head} ${choice.valve}`];
          return source.kind === 'engine' ? [`${choice.head} ${source.valve}`] : [];
        });
        expect(new Set(fromEngine).size).toBe(fromEngine.length);
      }),
    );
  });

  it('of one valve only is served as one valve alone is', () => {
    fc.assert(
      fc.property(headsCase({ heads: 1, valves: 1, stored: 8 }), ({ heads, stored }) => {
        const [only] = heads;
        const [one] = only?.valves ?? [];
        if (only === undefined || one === undefined || one.lash.high === null) return;
        const stays: ShimCandidate = {
          source: { kind: 'stays' },
          thickness: one.fitted.measured,
          shimDiameter: one.shimDiameter,
          count: 1,
        };
        const alone = chooseShim(one, [stays, ...stored], one.makersSizes);
        const [choice] = chooseForHeads(heads, stored).valves;
        expect(choice).toMatchObject(
          alone.ok ? { ok: true, chosen: alone.chosen, after: alone.after } : { ok: false, reason: alone.reason },
        );
      }),
    );
  });
});
