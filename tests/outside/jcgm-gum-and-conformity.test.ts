// Source: JCGM 100:2008 (GUM), example H.1 (end-gauge calibration: u = 32 nm, ν = 16, t₉₉ = 2.92, U = 93 nm) and G.4;
// JCGM 106:2012, conformance probabilities of clause 7 [given figures from memory]; ISO 14253-1, decision zones of both editions.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { DecisionRule } from '#domain/metrology/dimension.ts';
import { guardBand, guardFactor } from '#domain/metrology/guard-band.ts';
import { pointInterval } from '#domain/metrology/interval.ts';
import { studentQuantile } from '#domain/metrology/student-distribution.ts';
import { combineBudget } from '#domain/metrology/uncertainty.ts';
import { judge } from '#domain/metrology/verdict.ts';
import { nanometres } from '#domain/units/quantity.ts';

type Zone = 'conforms' | 'does not conform' | 'indeterminate';
type Case = { id: string; y: number; u: number; TL?: number; TU?: number; pc: number };
const data = JSON.parse(readFileSync(join(import.meta.dirname, 'data', 'metrology', 'conformity.json'), 'utf8')) as {
  conformance_probability: Case[];
  iso14253_zones: {
    L: number;
    H: number;
    U: number;
    cases: { y: number; zone: Zone }[];
    cases_2017_guard_0p825U: { y: number; g: number; zone: Zone }[];
  };
  gum_H1_end_gauge: {
    components: Record<string, number>;
    dof: number[];
    uc: number;
    nu_eff: number;
    published: { uc: number; nu_eff: number; k99: number; U99: number };
  };
  t_coverage_95_45: Record<string, number>;
};

describe('GUM example H.1', () => {
  const { components, dof, uc, nu_eff, published } = data.gum_H1_end_gauge;
  const lines = Object.entries(components).map(([name, contribution], index) => ({
    name,
    formula: '',
    source: 'instrument register' as const,
    distribution: 't' as const,
    standard: contribution,
    unit: 'base units' as const,
    sensitivity: 1,
    contribution,
    degreesOfFreedom: dof[index] ?? null,
    correlation: null,
  }));
  const { standard, effectiveDegreesOfFreedom } = combineBudget(lines);

  it('combines six components to 32 nm', () => {
    expect(standard).toBeCloseTo(uc, 9);
    expect(Math.round(standard)).toBe(published.uc);
  });

  it('has 16 effective degrees of freedom, cut to a whole number', () => {
    expect(effectiveDegreesOfFreedom).toBeCloseTo(nu_eff, 9);
    expect(Math.floor(effectiveDegreesOfFreedom ?? Number.NaN)).toBe(published.nu_eff);
  });

  it('expands to 93 nm at 99 %', () => {
    const factor = studentQuantile(0.995, 16);
    expect(factor).toBeCloseTo(published.k99, 2);
    // The GUM multiplies the figures it has rounded: 2.92 × 32 = 93.
    expect(Math.round(published.k99 * Math.round(standard))).toBe(published.U99);
  });
});

describe('t factors of GUM G.4', () => {
  it.each(Object.entries(data.t_coverage_95_45))(
    '95.45 per cent coverage at ν = %s is the 1998 guard factor',
    (dof, factor) => {
      // Their table is for 95.45 %, two units of a normal deviation are 95.449 97 %.
      const expected = Number(dof) < 30 ? factor : 2;
      expect(guardFactor(Number(dof), 'iso-14253-1-1998') / expected).toBeCloseTo(1, 4);
    },
  );

  it.each([
    [1, 6.314],
    [2, 2.92],
    [4, 2.132],
    [9, 1.833],
    [20, 1.725],
    [29, 1.699],
  ])('95 per cent one-sided at ν = %d is %d, the 2017 guard factor (table of t in any handbook)', (dof, factor) => {
    expect(guardFactor(dof, 'iso-14253-1-2017')).toBeCloseTo(factor, 3);
    expect(guardFactor(dof + 0.9, 'iso-14253-1-2017')).toBeCloseTo(factor, 3);
  });

  it('from ν = 30 on the normal factors hold', () => {
    expect([30, 1000, null].map((dof) => guardFactor(dof, 'iso-14253-1-2017'))).toEqual([1.65, 1.65, 1.65]);
    expect(guardFactor(null, 'iso-14253-1-1998')).toBe(2);
    expect(guardFactor(3, 'simple')).toBe(0);
  });
});

describe('JCGM 106 conformance probability', () => {
  // Any unit will do; thousandths of it as base units keep the figures whole.
  const base = (value: number) => nanometres(Math.round(value * 1e9));
  it.each(data.conformance_probability)('$id', ({ y, u, TL, TU, pc }) => {
    const value = pointInterval(y * 1e9);
    const { probabilityPast } = judge(
      { upper: value, lower: value, standard: u * 1e9, guardBand: 0, rule: 'simple' },
      {
        standard: {},
        service: {
          ...(TL === undefined ? {} : { low: base(TL) }),
          ...(TU === undefined ? {} : { high: base(TU) }),
        },
      },
    );
    expect(1 - probabilityPast.high).toBeCloseTo(pc, 10);
    expect(probabilityPast.low).toBeCloseTo(probabilityPast.high, 14);
  });
});

describe('ISO 14253-1 decision zones', () => {
  const { L, H, U, cases, cases_2017_guard_0p825U } = data.iso14253_zones;
  const nm = (millimetres: number) => nanometres(Math.round(millimetres * 1e6));
  const zoneOf = (y: number, rule: DecisionRule): Zone => {
    const standard = nm(U) / 2;
    const value = pointInterval(nm(y));
    const judged = { upper: value, lower: value, standard, guardBand: guardBand(standard, null, rule), rule };
    const { verdict } = judge(judged, { standard: {}, service: { low: nm(L), high: nm(H) } });
    if (verdict === 'undecided') return 'indeterminate';
    return verdict === 'past the limit' ? 'does not conform' : 'conforms';
  };

  // At y = L − U and H + U exactly nothing is proven yet: past is strictly beyond.
  it.each(cases)('guard band 2 u, $y mm: $zone', ({ y, zone }) => {
    expect(zoneOf(y, 'iso-14253-1-1998')).toBe(zone);
  });

  it.each(cases_2017_guard_0p825U)('guard band 1.65 u, $y mm: $zone', ({ y, zone }) => {
    expect(zoneOf(y, 'iso-14253-1-2017')).toBe(zone);
  });
});

describe('JCGM 106 guarded rejection', () => {
  // A speed of 100 must be exceeded with 99.9 % confidence at a relative standard uncertainty of 2 %: 100/(1 − 3.09 · 0.02)
  // = 106.59; the standard tells about 107 [from memory].
  it('a speed limit of 100 is past for certain only from 106.6 on', () => {
    const verdictAt = (speed: number) => {
      const value = pointInterval(speed * 1e6);
      const standard = 0.02 * speed * 1e6;
      const rule = 'guard-factor-3.09';
      const judged = {
        upper: value,
        lower: value,
        standard,
        guardBand: guardBand(standard, null, rule),
        rule,
      } as const;
      return judge(judged, { standard: {}, service: { high: nanometres(100e6) } });
    };
    expect(verdictAt(106.58).verdict).toBe('undecided');
    expect(verdictAt(106.6).verdict).toBe('past the limit');
    expect(verdictAt(106.6).probabilityPast.low).toBeGreaterThan(0.999);
  });
});
