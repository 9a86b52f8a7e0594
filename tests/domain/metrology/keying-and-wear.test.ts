import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agreementOf, meaningfulDecimals, questionsAbout, slipIn } from '#domain/metrology/blunders.ts';
import { exactishSum, standardDeviation } from '#domain/metrology/sample-statistics.ts';
import { fitStraightLine } from '#domain/metrology/straight-line.ts';
import { type WearLimit, wearOf } from '#domain/metrology/wear.ts';
import { baseQuantity } from '#domain/units/quantity.ts';
import { mm } from './measuring-bench.ts';

const plausible = { nominal: mm(88), span: mm(1) };
const keyed = (value: number, parts: { unit?: 'mm' | 'in'; decimals?: number } = {}) => ({
  kind: 'length' as const,
  value: mm(value),
  unit: 'mm' as const,
  decimals: 3,
  ...parts,
});

describe('a reading that can’t be right is asked about at once', () => {
  it('3.4650 keyed as millimetres was inches', () => {
    expect(questionsAbout(keyed(3.465), { plausible })).toEqual([
      { code: 'unit-slip', keyedTimes: '1/25.4', suggested: mm(88.011), meantUnit: 'in' },
    ]);
  });

  it('88.011 keyed as inches was millimetres', () => {
    expect(questionsAbout(keyed(88.011 * 25.4, { unit: 'in' }), { plausible })).toEqual([
      { code: 'unit-slip', keyedTimes: '25.4', suggested: mm(88.011), meantUnit: 'mm' },
    ]);
  });

  it.each([
    ['88 011 mm, read in µm', 'length', 88_011_000_000, 'mm', 88_011_000, 'um', '1000'],
    ['88.011 µm, read in mm', 'length', 88_011, 'um', 88_011_000, 'mm', '1/1000'],
    ['150 kPa, read in psi', 'pressure', 150_000, 'kPa', 1_034_214, 'psi', '1/6.89'],
    ['10.3 psi, read in bar', 'pressure', 71_016, 'psi', 1_030_000, 'bar', '1/14.5'],
    ['1030 bar, read in kPa', 'pressure', 103_000_000, 'bar', 1_030_000, 'kPa', '100'],
    ['7.4 N·m, read in lbf·ft', 'torque', 7_400_000, 'N.m', 10_033_053, 'lbf.ft', '1/1.36'],
    ['1 N·m, read in kgf·m', 'torque', 1_000_000, 'N.m', 9_806_650, 'kgf.m', '1/9.81'],
  ] as const)('%s', (_, kind, value, unit, suggested, meantUnit, keyedTimes) => {
    const nominals = { length: 88_000_000, pressure: 1_030_000, torque: 10_000_000 };
    const span = nominals[kind] * 0.02;
    const slip = slipIn(
      { kind, value: baseQuantity(kind, value), unit, decimals: 3 },
      { nominal: baseQuantity(kind, nominals[kind]), span: baseQuantity(kind, span) },
    );
    expect(slip).toEqual({ code: 'unit-slip', meantUnit, keyedTimes, suggested });
  });

  it.each([
    [880.11, '10'],
    [8.8011, '1/10'],
    [8801.1, '100'],
    [0.88011, '1/100'],
  ])('%d mm: the decimal point stands elsewhere, %s times off', (value, keyedTimes) => {
    expect(questionsAbout(keyed(value), { plausible })).toEqual([
      { code: 'decimal-slip', keyedTimes, suggested: mm(88.011) },
    ]);
  });

  it('a temperature is shifted, not slipped; nothing is never a slip', () => {
    const near = { nominal: baseQuantity('temperature', 293_150), span: baseQuantity('temperature', 5000) };
    expect(
      slipIn({ kind: 'temperature', value: baseQuantity('temperature', 68_000), unit: 'K', decimals: 0 }, near),
    ).toBe(undefined);
    expect(slipIn(keyed(0), plausible)).toBe(undefined);
  });

  it('what is neither is asked about as it stands; what is plausible is not asked about', () => {
    expect(questionsAbout(keyed(70.011), { plausible })).toEqual([{ code: 'implausible', low: mm(87), high: mm(89) }]);
    expect(questionsAbout(keyed(89), { plausible })).toEqual([]);
    expect(questionsAbout(keyed(3), {})).toEqual([]);
  });

  it.each([
    [0.001, 'mm', 3],
    [0.005, 'mm', 3],
    [0.01, 'mm', 2],
    [0.00254, 'in', 4],
    [0.0127, 'in', 4],
    [0.001, 'um', 0],
    [0.0025, 'mm', 4],
  ] as const)('an instrument that reads to %d mm fills so many decimals of %s: %d', (resolution, unit, decimals) => {
    expect(meaningfulDecimals(mm(resolution), unit)).toBe(decimals);
  });

  it('more decimals than the instrument shows are asked about', () => {
    const resolution = mm(0.01);
    expect(questionsAbout(keyed(88.011), { resolution })).toEqual([
      { code: 'too-many-decimals', keyed: 3, meaningful: 2 },
    ]);
    expect(questionsAbout(keyed(88.01, { decimals: 2 }), { resolution })).toEqual([]);
  });

  it('two people agree within both uncertainties, or are told', () => {
    expect(agreementOf({ value: mm(88.01), standard: 1500 }, { value: mm(88.014), standard: 1500 }).agree).toBe(true);
    const apart = agreementOf({ value: mm(88.01), standard: 1500 }, { value: mm(88.015), standard: 1500 });
    expect(apart.agree).toBe(false);
    expect(apart.normalisedError).toBeCloseTo(5000 / (2 * 1500 * Math.SQRT2), 12);
    expect(agreementOf({ value: 5, standard: 0 }, { value: 5, standard: 0 }).agree).toBe(true);
  });
});

describe('wear of one fitted part', () => {
  const straight = [0, 50, 100].map((hours) => ({ hours, value: mm(88) + 200 * hours }));
  const limit: WearLimit = { side: 'upper', value: mm(88.05) };
  const left = (points: readonly { hours: number; value: number }[], to = limit) => {
    const wear = wearOf(points, to);
    if (!wear.ok) throw new Error(wear.reason);
    return wear.hoursLeft;
  };

  it('is never told from two points, nor from one day', () => {
    expect(wearOf(straight.slice(1), limit)).toEqual({ ok: false, reason: 'fewer-than-three-points' });
    expect(
      wearOf(
        [5, 5, 5].map((hours) => ({ hours, value: 1 })),
        limit,
      ),
    ).toEqual({
      ok: false,
      reason: 'all-at-one-place',
    });
  });

  it('0.2 µm an hour has 150 hours from 0.02 to 0.05', () => {
    const { estimate, earliest, latest } = left(straight);
    for (const hours of [estimate, earliest, latest]) expect(hours).toBeCloseTo(150, 6);
  });

  it('scatter opens the range about the estimate', () => {
    const rough = [0, 30, 60, 90, 120].map((hours, index) => ({
      hours,
      value: mm(88) + 200 * hours + (index % 2 === 0 ? 300 : -300),
    }));
    const { estimate, earliest, latest } = left(rough);
    expect(Number(earliest)).toBeLessThan(Number(estimate));
    expect(Number(latest)).toBeGreaterThan(Number(estimate));
    const falling = rough.map(({ hours, value }) => ({ hours, value: 2 * mm(88) - value }));
    const mirrored = left(falling, { side: 'lower', value: 2 * mm(88) - limit.value });
    expect(Number(mirrored.estimate)).toBeCloseTo(Number(estimate), 4);
    expect(Number(mirrored.earliest)).toBeCloseTo(Number(earliest), 4);
  });

  it('a slope drowned by its scatter has no latest, one that goes away from the limit no estimate', () => {
    const drowned = [
      { hours: 0, value: mm(88.002) },
      { hours: 50, value: mm(88.0) },
      { hours: 100, value: mm(88.004) },
    ];
    expect(left(drowned).latest).toBeNull();
    expect(left(drowned).estimate).not.toBeNull();
    const growingBack = straight.map(({ hours, value }) => ({ hours, value: 2 * mm(88) - value }));
    expect(left(growingBack)).toEqual({ estimate: null, earliest: null, latest: null });
  });

  it('already past: nothing left', () => {
    expect(left(straight, { ...limit, value: mm(88.01) })).toEqual({ estimate: 0, earliest: 0, latest: 0 });
  });

  it('earliest, estimate and latest are in that order whatever the readings', () => {
    const point = fc.record({
      hours: fc.integer({ min: 0, max: 500 }),
      value: fc.integer({ min: mm(88), max: mm(88.1) }),
    });
    fc.assert(
      fc.property(fc.array(point, { minLength: 3, maxLength: 8 }), (points) => {
        const wear = wearOf(points, limit);
        fc.pre(wear.ok);
        if (!wear.ok) return;
        const { earliest, estimate, latest } = wear.hoursLeft;
        const never = Number.POSITIVE_INFINITY;
        expect((earliest ?? never) - 1e-6).toBeLessThanOrEqual(estimate ?? never);
        expect((estimate ?? never) - 1e-6).toBeLessThanOrEqual(latest ?? never);
      }),
    );
  });
});

describe('statistics', () => {
  it('moving every value by a constant moves no deviation', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 2, maxLength: 20 }), (values) => {
        const moved = values.map((value) => value + 1e12);
        expect(standardDeviation(moved)).toBeCloseTo(standardDeviation(values), 9);
      }),
    );
  });

  it('a sum keeps the small beside the great', () => {
    expect(exactishSum([1e16, 1, -1e16])).toBe(1);
  });

  it('a line through points on a line is that line', () => {
    fc.assert(
      fc.property(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -1e6, max: 1e6 }), (slope, intercept) => {
        const fit = fitStraightLine([1, 2, 5, 9].map((x) => ({ x, y: intercept + slope * x })));
        if (!fit.ok) throw new Error(fit.reason);
        expect(fit.line.slope).toBeCloseTo(slope, 9);
        expect(fit.line.intercept).toBeCloseTo(intercept, 6);
      }),
    );
  });
});
