// Source: JCGM 106:2012. Clause 7: breakdown voltage of a diode, burst pressure of a vessel, viscosity of an oil
// [published probabilities from memory; each also by an independent series, given in data/metrology/conformity.json].
// Clause 9.5.4: runout of ball bearings, gamma with shape 4 and scale 1/4 µm, limit 2 µm, u = 0.25 µm [given figures and
// results as seen: 0.042 38 out of limit, 0.008 019 of all wrongly accepted, 0.328 17 µm of guard band for 1 in 1000].
import { describe, expect, it } from 'vitest';
import type { DecisionRule } from '#domain/metrology/dimension.ts';
import { logGamma } from '#domain/metrology/gamma-and-beta.ts';
import { guardBand } from '#domain/metrology/guard-band.ts';
import { pointInterval } from '#domain/metrology/interval.ts';
import { normalCumulative } from '#domain/metrology/normal-distribution.ts';
import { randomSource } from '#domain/metrology/random-source.ts';
import { judge } from '#domain/metrology/verdict.ts';
import { nanometres } from '#domain/units/quantity.ts';

/** Any unit as base units: a millionth of it is far finer than any figure here. */
const base = (value: number) => nanometres(Math.round(value * 1e6));

type Held = { readonly y: number; readonly u: number; readonly rule?: DecisionRule };

const judged = ({ y, u, rule = 'simple' }: Held, { low, high }: { readonly low?: number; readonly high?: number }) => {
  const value = pointInterval(y * 1e6);
  const standard = u * 1e6;
  return judge(
    { upper: value, lower: value, standard, guardBand: guardBand(standard, null, rule), rule },
    {
      standard: {},
      service: {
        ...(low === undefined ? {} : { low: base(low) }),
        ...(high === undefined ? {} : { high: base(high) }),
      },
    },
  );
};

describe('clause 7: how likely it is that a part conforms', () => {
  it.each([
    ['breakdown voltage −5.47 V, u = 0.05, at most −5.40', { y: -5.47, u: 0.05 }, { high: -5.4 }, 0.92],
    ['burst pressure 507.5 kPa, u = 8.6, at least 490', { y: 507.5, u: 8.6 }, { low: 490 }, 0.98],
    ['viscosity 13.6 mm²/s, u = 1.8, from 12.5 to 16.3', { y: 13.6, u: 1.8 }, { low: 12.5, high: 16.3 }, 0.66],
  ])('%s', (_, held, limits, published) => {
    const { probabilityPast } = judged(held, limits);
    expect(1 - probabilityPast.high).toBeCloseTo(published, 2);
  });

  it('at 92 in 100 the 2017 rule leaves the diode undecided, at 98 the vessel passes', () => {
    const rule = 'iso-14253-1-2017';
    expect(judged({ y: -5.47, u: 0.05, rule }, { high: -5.4 }).verdict).toBe('undecided');
    expect(judged({ y: 507.5, u: 8.6, rule }, { low: 490 }).verdict).toMatch(/^within/);
  });
});

describe('clause 9.5.4: ball bearings accepted and out of limit', () => {
  const [shape, scale, limit, u] = [4, 0.25, 2, 0.25];
  const density = (y: number): number =>
    Math.exp((shape - 1) * Math.log(y) - y / scale - logGamma(shape) - shape * Math.log(scale));
  // Simpson's rule from the limit to where nothing is left of the tail.
  const beyondLimit = (of: (y: number) => number): number => {
    const [steps, end] = [8000, 14];
    const width = (end - limit) / steps;
    const weight = (index: number): number => (index === 0 || index === steps ? 1 : index % 2 === 1 ? 4 : 2);
    let sum = 0;
    for (let index = 0; index <= steps; index += 1) sum += weight(index) * of(limit + index * width);
    return (sum * width) / 3;
  };
  const wronglyAccepted = (guard: number): number =>
    beyondLimit((y) => density(y) * normalCumulative((limit - guard - y) / u));

  it('0.042 38 are out of limit, 0.008 019 of all are accepted though they are', () => {
    expect(beyondLimit(density)).toBeCloseTo(0.04238, 5);
    expect(wronglyAccepted(0)).toBeCloseTo(0.008019, 6);
  });

  it('a guard band of 0.328 17 µm leaves 1 in 1000', () => {
    expect(wronglyAccepted(0.32817)).toBeCloseTo(0.001, 7);
  });

  // 0.32817 / 0.25 = 1.3127 u. Accepted: not undecided, not past the limit.
  it.each([
    ['simple' as const, 0.008019],
    ['guard-factor-1.313' as const, 0.001],
  ])('verdicts by %s on 400 000 bearings drawn by chance wrongly accept %d of them', (rule, published) => {
    const random = randomSource(20_121_006);
    const trials = 400_000;
    let accepted = 0;
    for (let trial = 0; trial < trials; trial += 1) {
      let runout = 0;
      for (let part = 0; part < shape; part += 1) runout -= scale * Math.log(1 - random.uniform());
      const shown = runout + u * random.normal();
      const { verdict } = judged({ y: shown, u, rule }, { high: limit });
      if (runout > limit && (verdict === 'within service limit' || verdict === 'within standard')) accepted += 1;
    }
    expect(Math.abs(accepted / trials - published)).toBeLessThan(4 * Math.sqrt(published / trials));
  });
});
