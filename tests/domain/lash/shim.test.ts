import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseShim, type ShimCandidate, type ShimSource } from '#domain/lash/choose-shim.ts';
import { standingIn } from '#domain/lash/interval.ts';
import { screwTurn } from '#domain/lash/screw.ts';
import { lashWith, type ShimmedValve, shimsThatCouldDo, wantedShim } from '#domain/lash/shim.ts';
import { nanometres } from '#domain/units/quantity.ts';

const mm = (value: number) => nanometres(Math.round(value * 1e6));
const exactly = (value: number) => ({ value: mm(value), uncertainty: mm(0) });
const between = (low: number, high: number | null) => ({ low: mm(low), high: high === null ? null : mm(high) });

const valve = (changes: Partial<ShimmedValve> = {}): ShimmedValve => ({
  code: 'IL',
  fitted: { measured: exactly(2.35), printed: mm(2.4) },
  lash: between(0.09, 0.09),
  wanted: mm(0.13),
  range: { low: mm(0.1), high: mm(0.15) },
  shimDiameter: mm(7.48),
  ...changes,
});

const inBin: ShimSource = { kind: 'bin', lotId: 'lot-1', receivedAt: '2026-03-01' };
const shim = (thickness: number, changes: Partial<ShimCandidate> = {}): ShimCandidate => ({
  source: inBin,
  thickness: exactly(thickness),
  shimDiameter: mm(7.48),
  count: 1,
  ...changes,
});
const makersSizes = { low: mm(1.6), high: mm(3) };

const chosen = (candidates: readonly ShimCandidate[], changed: Partial<ShimmedValve> = {}) => {
  const choice = chooseShim(valve(changed), candidates, makersSizes);
  return choice.ok ? choice.chosen : choice.reason;
};

describe('the shim that is wanted', () => {
  it('is the fitted one plus the lash less what is wanted: 2.35 + 0.09 − 0.13 = 2.31', () => {
    const { fitted, lash, wanted } = valve();
    expect(wantedShim(fitted.measured, lash, wanted)).toEqual(between(2.31, 2.31));
  });

  it('is an interval when the lash is one, wider by what the micrometer may be off', () => {
    const fitted = { value: mm(2.35), uncertainty: mm(0.004) };
    expect(wantedShim(fitted, between(0.08, 0.1), mm(0.13))).toEqual(between(2.296, 2.324));
    expect(wantedShim(fitted, between(0.3, null), mm(0.13))).toEqual(between(2.516, null));
  });

  it('goes by the measured thickness, not by what is printed on it', () => {
    const { fitted, lash, wanted } = valve({ fitted: { measured: exactly(2.33), printed: mm(2.35) } });
    expect(wantedShim(fitted.measured, lash, wanted).low).toBe(mm(2.29));
  });
});

describe('the lash afterwards', () => {
  it('is 0.14 and in range with 2.30, and stays 0.09 and out with 2.35', () => {
    expect(lashWith(valve(), exactly(2.3))).toEqual(between(0.14, 0.14));
    expect(standingIn(lashWith(valve(), exactly(2.3)), valve().range)).toBe('guaranteed');
    expect(lashWith(valve(), exactly(2.35))).toEqual(between(0.09, 0.09));
    expect(standingIn(lashWith(valve(), exactly(2.35)), valve().range)).toBe('out');
  });

  it('is only possibly in range when the blades leave a step as wide as the range', () => {
    const after = lashWith(valve({ lash: between(0.05, 0.1) }), exactly(2.31));
    expect(after).toEqual(between(0.09, 0.14));
    expect(standingIn(after, valve().range)).toBe('possible');
  });

  it('adds up the uncertainties of both shims', () => {
    const unsure = valve({ fitted: { measured: { value: mm(2.35), uncertainty: mm(0.003) }, printed: null } });
    const after = lashWith(unsure, { value: mm(2.31), uncertainty: mm(0.002) });
    expect(after).toEqual(between(0.125, 0.135));
  });

  it('reaches the upper end of the blades only just below it', () => {
    expect(standingIn(between(0.05, 0.1), valve().range)).toBe('out');
    expect(standingIn(between(0.1, 0.15), valve().range)).toBe('guaranteed');
    expect(standingIn(between(0.15, 0.2), valve().range)).toBe('possible');
    expect(standingIn(between(0.2, null), valve().range)).toBe('out');
    expect(standingIn(between(0.12, null), valve().range)).toBe('possible');
  });
});

describe('choosing a shim for one valve', () => {
  it('takes 2.30 out of shims in steps of 0.05', () => {
    const choice = chooseShim(
      valve(),
      [2.2, 2.25, 2.3, 2.35, 2.4].map((size) => shim(size)),
      makersSizes,
    );
    expect(choice).toMatchObject({
      ok: true,
      chosen: { thickness: { value: mm(2.3) } },
      after: between(0.14, 0.14),
      standing: 'guaranteed',
    });
  });

  it('rather buys one that is sure than takes one from the bin that may be out', () => {
    const bought = shim(2.31, { source: { kind: 'buy', partId: 'p' } });
    const vague = shim(2.31, { thickness: { value: mm(2.31), uncertainty: mm(0.04) } });
    expect(chosen([vague, bought])).toBe(bought);
  });

  it('rather takes a worse one from the bin than buys a better one', () => {
    const bought = shim(2.31, { source: { kind: 'buy', partId: 'p' } });
    expect(chosen([bought, shim(2.3)])).toEqual(shim(2.3));
  });

  it('rather moves one over within the engine than takes one from the bin', () => {
    const moved = shim(2.3, { source: { kind: 'engine', valve: 'ER' } });
    expect(chosen([shim(2.31), moved])).toBe(moved);
  });

  it('leaves the shim in when the lash is in range, however its thickness was measured', () => {
    const stays = shim(2.35, {
      source: { kind: 'stays' },
      thickness: { value: mm(2.35), uncertainty: mm(0.2) },
    });
    const choice = chooseShim(valve({ lash: between(0.11, 0.13) }), [shim(2.34), stays], makersSizes);
    expect(choice).toMatchObject({ ok: true, chosen: stays, after: between(0.11, 0.13) });
  });

  it('takes one from the bin when the lash with the shim that is in only touches its range', () => {
    const stays = shim(2.35, { source: { kind: 'stays' } });
    // 0.05 goes, 0.10 does not, each blade 2 µm unsure: in range at most by those 2 µm.
    const choice = chooseShim(valve({ lash: between(0.048, 0.102) }), [stays, shim(2.3)], makersSizes);
    expect(choice).toMatchObject({ ok: true, chosen: shim(2.3), standing: 'possible' });
  });

  it('of two that are as near to what is wanted takes the looser', () => {
    expect(chosen([shim(2.32), shim(2.3)])).toEqual(shim(2.3));
  });

  it('of two lots of one thickness takes the older, whatever the order they are offered in', () => {
    const older = shim(2.3, { source: { kind: 'bin', lotId: 'z', receivedAt: '2025-01-01' } });
    expect(chosen([shim(2.3), older])).toBe(older);
    expect(chosen([older, shim(2.3)])).toBe(older);
  });

  it('looks past shims of another diameter and empty bins', () => {
    expect(chosen([shim(2.31, { shimDiameter: mm(9.48) }), shim(2.31, { count: 0 }), shim(2.29)])).toEqual(shim(2.29));
  });
});

describe('when no shim brings the lash into range', () => {
  it('says which sizes would do when none of them is there', () => {
    expect(chosen([shim(2.1), shim(2.5)])).toEqual({ kind: 'not-stocked', needed: between(2.29, 2.34) });
  });

  it('points at the valve and its seat when the maker has no shim so thin', () => {
    const receded = { fitted: { measured: exactly(1.62), printed: null }, lash: between(0, 0.03) };
    expect(chosen([shim(1.6)], receded)).toEqual({
      kind: 'outside-makers-sizes',
      side: 'thinner',
      needed: between(1.47, 1.55),
      makersSizes,
    });
  });

  it('points at it too when the maker has no shim so thick', () => {
    const loose = { fitted: { measured: exactly(2.95), printed: null }, lash: between(0.4, 0.4) };
    expect(chosen([shim(2.95)], loose)).toMatchObject({ kind: 'outside-makers-sizes', side: 'thicker' });
  });
});

describe('any choice of a shim', () => {
  it('is the same whatever the order of the candidates, and never out of range', () => {
    const candidate = fc.record({
      source: fc.oneof(
        fc.record({
          kind: fc.constant('bin' as const),
          lotId: fc.constantFrom('a', 'b', 'c'),
          receivedAt: fc.constantFrom('2025-01-01', '2026-01-01'),
        }),
        fc.record({ kind: fc.constant('buy' as const), partId: fc.constantFrom('p', 'q') }),
      ),
      thickness: fc.record({
        value: fc.integer({ min: 215, max: 245 }).map((hundredths) => mm(hundredths / 100)),
        uncertainty: fc.constantFrom(mm(0), mm(0.003)),
      }),
      shimDiameter: fc.constant(mm(7.48)),
      count: fc.integer({ min: 0, max: 3 }),
    });
    const offers = fc.uniqueArray(candidate, { selector: ({ source }) => JSON.stringify(source), maxLength: 8 });
    fc.assert(
      fc.property(offers, fc.nat(), fc.integer({ min: 0, max: 20 }), (candidates, turn, lashHundredths) => {
        const lash = between(lashHundredths / 100, lashHundredths / 100 + 0.02);
        const turned = candidates.map((_, index) => candidates[(index + turn) % candidates.length] ?? shim(0));
        const choice = chooseShim(valve({ lash }), candidates, makersSizes);
        expect(chooseShim(valve({ lash }), turned, makersSizes)).toEqual(choice);
        const anyWouldDo = candidates.some(
          (offered) =>
            offered.count > 0 && standingIn(lashWith(valve({ lash }), offered.thickness), valve().range) !== 'out',
        );
        expect(choice.ok).toBe(anyWouldDo);
        if (choice.ok) expect(standingIn(choice.after, valve().range)).toBe(choice.standing);
      }),
    );
  });

  it('names sizes that could do exactly as far as they could', () => {
    const needed = shimsThatCouldDo(valve({ lash: between(0.08, 0.1) }));
    expect(needed).toEqual(between(2.28, 2.35));
    const one = 0.000001;
    expect(standingIn(lashWith(valve({ lash: between(0.08, 0.1) }), exactly(2.28)), valve().range)).toBe('possible');
    expect(standingIn(lashWith(valve({ lash: between(0.08, 0.1) }), exactly(2.28 - one)), valve().range)).toBe('out');
    expect(standingIn(lashWith(valve({ lash: between(0.08, 0.1) }), exactly(2.35 - one)), valve().range)).toBe(
      'possible',
    );
  });
});

describe('a screw adjuster', () => {
  it('is turned in by the surplus lash over the pitch: 0.10 of 0.75 mm is 48°', () => {
    const outcome = screwTurn({ lash: between(0.2, 0.2), wanted: mm(0.1), pitch: mm(0.75) });
    expect(outcome).toEqual({ ok: true, turn: { least: 48e6, middle: 48e6, most: 48e6 } });
  });

  it('is turned out when the lash is too tight, by an amount known as well as the lash', () => {
    const outcome = screwTurn({ lash: between(0.05, 0.06), wanted: mm(0.1), pitch: mm(0.5) });
    expect(outcome).toEqual({ ok: true, turn: { least: -36e6, middle: -32.4e6, most: -28.8e6 } });
  });

  it('is not reckoned when even the thickest blade went in', () => {
    expect(screwTurn({ lash: between(0.3, null), wanted: mm(0.1), pitch: mm(0.5) })).toEqual({
      ok: false,
      reason: { kind: 'lash-has-no-upper-bound' },
    });
    expect(screwTurn({ lash: between(0.2, 0.2), wanted: mm(0.1), pitch: mm(0) })).toMatchObject({ ok: false });
  });
});
