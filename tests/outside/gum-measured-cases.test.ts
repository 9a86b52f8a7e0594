// Source: JCGM 100:2008 (GUM) 4.3 and NIST TN 1297 (standard uncertainty of a mean from resolution, permissible error
// and scatter): a worked case by hand. ISO 1 (20 °C) with handbook coefficients of expansion. Out-of-round, taper and
// clearance of a measured bore, and ring gap against taper: plain geometry, worked by hand.

import { describe, expect, it } from 'vitest';
import { gapAfterGrowth, gapsAgainstTaper } from '#domain/metrology/cross-checks.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { ReadingTemperature } from '#domain/metrology/reading.ts';
import { thermalCorrection } from '#domain/metrology/thermal.ts';
import { millikelvin } from '#domain/units/quantity.ts';
import {
  bore,
  boreGauge,
  boreLimits,
  boreReadings,
  dimension,
  findingOf,
  micrometer,
  mm,
  readingOf,
  repeated,
  shown,
  upTo,
} from '../domain/metrology/measuring-bench.ts';

const single = dimension('size', { type: 'single' }, { limits: boreLimits });
const at = (celsius: number): ReadingTemperature => ({
  part: millikelvin(273_150 + celsius * 1000),
  instrument: millikelvin(273_150 + celsius * 1000),
  uncertaintyKelvin: 0.5,
});

describe('standard uncertainty of a mean of three', () => {
  const { uncertainty, guardBand } = findingOf('size', [single], repeated('size', [mm(96.01), mm(96.01), mm(96.01)]));

  it('resolution 0.001, MPE 0.003, s 0.0012: u = 0.001888, U = 0.003775 mm', () => {
    expect((uncertainty.standard / 1e6).toFixed(6)).toBe('0.001888');
    expect(((2 * uncertainty.standard) / 1e6).toFixed(6)).toBe('0.003775');
  });

  it('names each part of the budget', () => {
    const [resolution, mpe, repeatability, master] = uncertainty.budget.map(({ contribution }) => contribution);
    expect(resolution).toBeCloseTo(1000 / Math.sqrt(12), 9);
    expect(mpe).toBeCloseTo(3000 / Math.sqrt(3), 9);
    expect(repeatability).toBeCloseTo(1200 / Math.sqrt(3), 9);
    expect(master).toBe(0);
  });

  it('keeps 1.65 u off a limit', () => {
    expect(guardBand).toBe(Math.ceil(1.65 * uncertainty.standard));
  });
});

describe('correction to 20 °C', () => {
  const steelGauge = boreGauge;
  const rigid: Instrument = { ...boreGauge, alphaPerKelvin: 0 };
  const correct = (length: number, alpha: number, celsius: number, gauge: Instrument): number => {
    const outcome = thermalCorrection(at(celsius), { alphaPerKelvin: alpha, alphaUncertaintyPerKelvin: 0 }, gauge);
    if (!outcome.ok) throw new Error(outcome.missing);
    return length * (1 - outcome.correction.factor);
  };

  it('an 88 mm aluminium bore at 28 °C is 0.0162 mm over, of which a steel gauge hides 0.0081', () => {
    expect(correct(88, 23e-6, 28, rigid)).toBeCloseTo(0.016192, 9);
    expect(correct(88, 23e-6, 28, rigid) - correct(88, 23e-6, 28, steelGauge)).toBeCloseTo(0.008096, 9);
  });

  it.each([
    [96, 2.36e-5, 30, 22.656, 11.616],
    [96, 2.15e-5, 5, -30.96, -14.4],
    [77, 1.14e-5, 35, 13.167, -0.1155],
    [50, 1.15e-5, 25, 2.875, 0],
  ])('%d mm, α %d, %d °C: over by %d µm, a steel gauge shows %d of it', (length, alpha, celsius, over, withSteel) => {
    expect(correct(length, alpha, celsius, rigid) * 1000).toBeCloseTo(over, 3);
    expect(correct(length, alpha, celsius, steelGauge) * 1000).toBeCloseTo(withSteel, 3);
  });

  it('the finding carries the correction and both thermal lines: L·ΔT·u(α) and L·Δα·u(T)', () => {
    const aluminium = dimension(
      'size',
      { type: 'single' },
      { limits: boreLimits, material: { alphaPerKelvin: 23e-6, alphaUncertaintyPerKelvin: 1e-6 } },
    );
    const finding = findingOf('size', [aluminium], repeated('size', [mm(96)], { temperature: at(28) }));
    if (finding.value.type !== 'point') throw new Error(finding.value.type);
    expect(finding.value.value).toBeCloseTo(96e6 * (1 - (23e-6 - 11.5e-6) * 8), 3);
    const line = (name: string) => finding.uncertainty.budget.find((each) => each.name.startsWith(name))?.contribution;
    expect(line('expansion of the part')).toBeCloseTo(96e6 * 8 * 1e-6, 6);
    expect(line('temperature')).toBeCloseTo(96e6 * 11.5e-6 * 0.5, 6);
  });
});

describe('a bore of 96.008, 96.006, 96.002 along and 96.015, 96.011, 96.004 mm across the pin', () => {
  const readings = boreReadings([96.008, 96.006, 96.002], [96.015, 96.011, 96.004]);
  const from = { readingsOf: 'bore', positions: [], limits: upTo(0.02, 0.05) };
  const valueIn = (code: string, type: 'out-of-round' | 'taper' | 'size', rule: 'per-level' | 'extremes') => {
    const limits = type === 'size' ? boreLimits : from.limits;
    const { value } = findingOf(code, [bore, dimension(code, { type, rule }, { ...from, limits })], readings);
    return value.type === 'point' ? value.value : value;
  };

  it('by level: size 96.015, out-of-round 0.007, taper 0.011', () => {
    expect(valueIn('size', 'size', 'per-level')).toBe(96_015_000);
    expect(valueIn('oor', 'out-of-round', 'per-level')).toBe(7000);
    expect(valueIn('taper', 'taper', 'per-level')).toBe(11_000);
  });

  it('by extremes: size 96.015, out-of-round 96.015 − 96.002, taper 96.015 − 96.004', () => {
    expect(valueIn('size', 'size', 'extremes')).toBe(96_015_000);
    expect(valueIn('oor', 'out-of-round', 'extremes')).toBe(13_000);
    expect(valueIn('taper', 'taper', 'extremes')).toBe(11_000);
  });

  it('out-of-round: zero, setting and master cancel, u² = 2(res²/12 + s²/n) + 2·(MPE/√3)²', () => {
    const oor = dimension('oor', { type: 'out-of-round', rule: 'per-level' }, from);
    const off: Instrument = { ...boreGauge, zeroError: 5000, masterUncertainty: 900 };
    const finding = findingOf('oor', [bore, oor], readings, [off]);
    expect(finding.value).toEqual({ type: 'point', value: 7000 });
    expect(finding.uncertainty.standard).toBeCloseTo(
      Math.sqrt(2 * (1000 ** 2 / 12 + 1200 ** 2) + (2 * 3000 ** 2) / 3),
      6,
    );
  });

  it('clearance to a piston of 95.955: 0.060 at most, 0.047 at least, two gauges root-sum-square', () => {
    const piston = dimension('piston', { type: 'single' }, { limits: { standard: {}, service: {} } });
    const clearance = dimension(
      'clearance',
      { type: 'difference', minuend: 'bore', subtrahend: 'piston' },
      { positions: [], limits: upTo(0.07, 0.1) },
    );
    const pistonReading = readingOf('piston', 'p1', shown(mm(95.955)), { instrument: micrometer.code });
    const finding = findingOf('clearance', [bore, piston, clearance], [...readings, pistonReading]);
    expect(finding.value).toEqual({ type: 'span', low: 47_000, high: 60_000 });
    const one = Math.hypot(1000 / Math.sqrt(12), 3000 / Math.sqrt(3), 1200);
    expect(finding.uncertainty.standard).toBeCloseTo(Math.SQRT2 * one, 6);
  });
});

describe('ring gap and bore', () => {
  const exactly = (value: number) => ({ low: mm(value), high: mm(value) });

  it('a bore 0.03 mm larger opens the gap by 0.094', () => {
    const { low, high } = gapAfterGrowth(exactly(0.33), mm(0.03));
    expect((low / 1e6).toFixed(3)).toBe('0.424');
    expect(high).toBe(low);
    expect(gapAfterGrowth({ low: 0, high: null }, 1000).high).toBeNull();
  });

  it('gaps of 0.42 on top and 0.33 below stand for a taper of 0.0286', () => {
    const gaps = { top: exactly(0.42), bottom: exactly(0.33) };
    const check = gapsAgainstTaper(gaps, { value: mm(0.0286), standard: 100 });
    expect(check.agrees).toBe(true);
    expect(((check.impliedLow ?? 0) / 1e6).toFixed(4)).toBe('0.0286');
    expect(gapsAgainstTaper(gaps, { value: mm(0.011), standard: mm(0.002) }).agrees).toBe(false);
  });
});
