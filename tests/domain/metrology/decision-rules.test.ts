import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DecisionRule, decisionRuleOf, guardFactorRule, statedGuardFactor } from '#domain/metrology/dimension.ts';
import type { Verdict } from '#domain/metrology/finding.ts';
import { guardBand, neededConformance } from '#domain/metrology/guard-band.ts';
import { type Interval, pointInterval } from '#domain/metrology/interval.ts';
import { judge } from '#domain/metrology/verdict.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { nanometres } from '#domain/units/quantity.ts';

const inches = (text: string): number => {
  const parsed = parseQuantity(text, 'in', 'length');
  if (!parsed.ok || parsed.rounded) throw new Error(`${text} in`);
  return parsed.value;
};

const held = (
  value: number | Interval,
  by: { readonly rule: DecisionRule; readonly standard: number; readonly degreesOfFreedom?: number },
  limits: { readonly low?: number; readonly high?: number },
) => {
  const at = typeof value === 'number' ? pointInterval(value) : value;
  const guard = guardBand(by.standard, by.degreesOfFreedom ?? null, by.rule);
  return judge(
    { upper: at, lower: at, standard: by.standard, guardBand: guard, rule: by.rule },
    {
      standard: {},
      service: {
        ...(limits.low === undefined ? {} : { low: nanometres(limits.low) }),
        ...(limits.high === undefined ? {} : { high: nanometres(limits.high) }),
      },
    },
  );
};

const rules: readonly DecisionRule[] = ['iso-14253-1-2017', 'iso-14253-1-1998', 'guard-factor-1.3'];
const anyRule = fc.constantFrom(...rules, 'simple' as const);

describe('a stated guard factor', () => {
  it('is read from its text, and what is no rule is judged by the newest edition', () => {
    expect(statedGuardFactor('guard-factor-1.3')).toBe(1.3);
    expect(guardFactorRule(1.3)).toBe('guard-factor-1.3');
    for (const text of ['guard-factor-0', 'guard-factor-7', 'guard-factor-', 'guard-factor-1e2', 'guard-factor--1'])
      expect(decisionRuleOf(text)).toBe('iso-14253-1-2017');
    expect(decisionRuleOf('guard-factor-2.5')).toBe('guard-factor-2.5');
    expect(() => guardFactorRule(0)).toThrow(RangeError);
    expect(() => guardFactorRule(7)).toThrow(RangeError);
  });

  it('keeps so many u off the limit, and with few readings the t of the same probability', () => {
    expect(guardBand(1000, null, 'guard-factor-1.3')).toBe(1300);
    // One-sided 90.32 % at ν = 2: t = 2.0089 by the closed form for two degrees of freedom.
    const a = 2 * 0.9031995154143897 - 1;
    expect(guardBand(1000, 2, 'guard-factor-1.3')).toBe(Math.ceil(1000 * a * Math.sqrt(2 / (1 - a * a))));
  });

  it('of 1.65 decides as the 2017 edition does, of 2 as the older', () => {
    fc.assert(
      fc.property(fc.integer({ min: -5000, max: 15_000 }), fc.integer({ min: 1, max: 3000 }), (value, standard) => {
        const limits = { high: 10_000 };
        const of = (rule: DecisionRule) => held(value, { rule, standard }, limits).verdict;
        expect(of('guard-factor-1.65')).toBe(of('iso-14253-1-2017'));
        expect(of('guard-factor-2')).toBe(of('iso-14253-1-1998'));
      }),
    );
  });
});

describe('right on a limit', () => {
  it.each([
    ['iso-14253-1-2017', 'undecided'],
    ['iso-14253-1-1998', 'undecided'],
    ['guard-factor-1.3', 'undecided'],
    ['simple', 'within service limit'],
  ] as const)('by %s it is %s, and one in two past it', (rule, verdict) => {
    const found = held(3_000_000, { rule, standard: 700 }, { high: 3_000_000 });
    expect(found.verdict).toBe(verdict);
    expect(found.margin).toBe(0);
    expect(found.probabilityPast.high).toBeCloseTo(0.5, 12);
  });

  it('limits in inches are met to the nanometre: 3.4650 in with a guard band of 0.0001 in', () => {
    const limit = inches('3.4650');
    // 1.65 u = 2 540 nm.
    const standard = 2540 / 1.65;
    const at = (text: string): Verdict =>
      held(inches(text), { rule: 'iso-14253-1-2017', standard }, { high: limit }).verdict;
    expect(at('3.4649')).toBe('within service limit');
    expect(at('3.46491')).toBe('undecided');
    expect(at('3.4651')).toBe('undecided');
    expect(at('3.46511')).toBe('past the limit');
    expect(inches('3.4650')).toBe(88_011_000);
  });
});

describe('between two limits', () => {
  it.each(rules)('%s: u wider than what lies between them never passes, wherever it lies', (rule) => {
    fc.assert(
      fc.property(
        fc.integer({ min: -9000, max: 19_000 }),
        fc.integer({ min: 10_000, max: 40_000 }),
        (value, standard) => {
          const { verdict } = held(value, { rule, standard }, { low: 0, high: 10_000 });
          expect(verdict.startsWith('within')).toBe(false);
        },
      ),
    );
  });

  it('no more may be past both together than the rule lets past one', () => {
    fc.assert(
      fc.property(
        anyRule,
        fc.integer({ min: 0, max: 10_000 }),
        fc.integer({ min: 1, max: 6000 }),
        (rule, value, standard) => {
          const { verdict, probabilityPast } = held(value, { rule, standard }, { low: 0, high: 10_000 });
          if (verdict.startsWith('within'))
            expect(1 - probabilityPast.high).toBeGreaterThanOrEqual(neededConformance(rule) - 1e-12);
        },
      ),
    );
  });

  it('the middle of a band of ±1.7 u conforms to 91 in 100: undecided by 2017, a pass by 1.3 u stated', () => {
    const limits = { low: -1700, high: 1700 };
    expect(held(0, { rule: 'iso-14253-1-2017', standard: 1000 }, limits).verdict).toBe('undecided');
    expect(held(0, { rule: 'guard-factor-1.3', standard: 1000 }, limits).verdict).toBe('within service limit');
    expect(held(0, { rule: 'guard-factor-1.3', standard: 1000 }, limits).probabilityPast.high).toBeCloseTo(0.0891, 4);
  });
});

describe('laws of every rule', () => {
  const kept = ['within service limit', 'undecided', 'past the limit'];

  it('what is turned over, value and limits alike, keeps its verdict', () => {
    fc.assert(
      fc.property(anyRule, fc.integer({ min: -20_000, max: 20_000 }), fc.nat(4000), (rule, value, standard) => {
        const one = held(value, { rule, standard }, { high: 5000 });
        const other = held(-value, { rule, standard }, { low: -5000 });
        expect(other.verdict).toBe(one.verdict);
        expect(other.probabilityPast.high).toBeCloseTo(one.probabilityPast.high, 12);
      }),
    );
  });

  it('what is scaled in everything by a whole number keeps its verdict, but for the nanometre a guard band is rounded by', () => {
    fc.assert(
      fc.property(
        anyRule,
        fc.integer({ min: -20_000, max: 20_000 }),
        fc.integer({ min: 0, max: 4000 }),
        fc.integer({ min: 2, max: 254 }),
        (rule, value, standard, times) => {
          const guard = guardBand(standard, null, rule);
          fc.pre(Math.abs(Math.abs(value - 5000) - guard) > 1);
          const one = held(value, { rule, standard }, { high: 5000 });
          const scaled = held(value * times, { rule, standard: standard * times }, { high: 5000 * times });
          expect(scaled.verdict).toBe(one.verdict);
        },
      ),
    );
  });

  it('an interval holds the verdict of every point in it, or is undecided', () => {
    const drawn = fc.record({ low: fc.integer({ min: -9000, max: 19_000 }), width: fc.nat(9000), share: fc.nat(1000) });
    fc.assert(
      fc.property(anyRule, drawn, fc.nat(3000), (rule, { low, width, share }, standard) => {
        const limits = { low: 0, high: 10_000 };
        const whole = held({ low, high: low + width, highOpen: false }, { rule, standard }, limits);
        const point = held(low + Math.floor((width * share) / 1000), { rule, standard }, limits);
        if (whole.verdict !== 'undecided') expect(point.verdict).toBe(whole.verdict);
        expect(kept).toContain(point.verdict);
        expect(point.probabilityPast.high).toBeLessThanOrEqual(whole.probabilityPast.high + 1e-12);
      }),
    );
  });

  it('fewer readings behind the same u never make a verdict firmer', () => {
    fc.assert(
      fc.property(
        anyRule,
        fc.integer({ min: -20_000, max: 20_000 }),
        fc.integer({ min: 1, max: 29 }),
        (rule, value, degreesOfFreedom) => {
          const sure = held(value, { rule, standard: 1000 }, { high: 5000 }).verdict;
          const few = held(value, { rule, standard: 1000, degreesOfFreedom }, { high: 5000 }).verdict;
          if (few !== 'undecided') expect(few).toBe(sure);
        },
      ),
    );
  });
});
