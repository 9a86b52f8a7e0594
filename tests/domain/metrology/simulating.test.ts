import { describe, expect, it } from 'vitest';
import type { DimensionDefinition } from '#domain/metrology/dimension.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import { distributionOf } from '#domain/metrology/monte-carlo.ts';
import type { Reading } from '#domain/metrology/reading.ts';
import { simulateDimension } from '#domain/metrology/simulating.ts';
import { millikelvin } from '#domain/units/quantity.ts';
import {
  bore,
  boreGauge,
  boreLimits,
  boreReadings,
  dimension,
  feelers,
  findingOf,
  gap,
  micrometer,
  mm,
  readingOf,
  repeated,
  shown,
  upTo,
} from './measuring-bench.ts';

const size = dimension('size', { type: 'single' }, { limits: boreLimits });
const simulate = (
  code: string,
  sheet: readonly DimensionDefinition[],
  readings: readonly Reading[],
  more: { readonly instruments?: readonly Instrument[]; readonly seed?: number; readonly trials?: number } = {},
) =>
  simulateDimension({
    dimension: code,
    sheet,
    readings,
    instruments: [...(more.instruments ?? []), boreGauge, micrometer, feelers],
    trials: more.trials ?? 20_000,
    seed: more.seed ?? 1,
    level: 0.95,
  });
const simulated = (...of: Parameters<typeof simulate>) => {
  const found = simulate(...of);
  if (!found.ok) throw new Error(JSON.stringify(found));
  return found;
};

describe('a working-out drawn many times', () => {
  it('the seed determines it and is kept with it', () => {
    const readings = repeated('size', [mm(96.05)]);
    const one = simulated('size', [size], readings, { seed: 99 });
    expect(simulated('size', [size], readings, { seed: 99 })).toEqual(one);
    expect(one.seed).toBe(99);
    expect(simulated('size', [size], readings, { seed: 100 }).upper.mean).not.toBe(one.upper.mean);
  });

  it.each([
    ['one reading', repeated('size', [mm(96.05)])],
    ['three repeats', repeated('size', [mm(96.05), mm(96.051), mm(96.049)])],
    [
      'an aluminium bore at 28 °C',
      repeated('size', [mm(96.05)], {
        temperature: { part: millikelvin(301_150), instrument: millikelvin(301_150), uncertaintyKelvin: 1 },
      }),
    ],
  ])('%s: the same uncertainty as in closed form', (_, readings) => {
    const sheet = [{ ...size, material: { alphaPerKelvin: 23e-6, alphaUncertaintyPerKelvin: 1e-6 } }];
    const gauge: Instrument = { ...boreGauge, masterUncertainty: 900, alphaUncertaintyPerKelvin: 1e-6 };
    const closed = findingOf('size', sheet, readings, [gauge]);
    const { upper, probabilityPast } = simulated('size', sheet, readings, { instruments: [gauge] });
    expect(upper.sd / closed.uncertainty.standard).toBeCloseTo(1, 1);
    if (closed.value.type !== 'point') throw new Error(closed.value.type);
    expect(Math.abs(upper.mean - closed.value.value)).toBeLessThan(60);
    expect(Math.abs((probabilityPast ?? 0) - closed.probabilityPast.high)).toBeLessThan(0.02);
  });

  it('a clearance by two gauges, and a lift by one whose setting cancels, agree with their budgets', () => {
    const piston = dimension('piston', { type: 'single' }, { limits: { standard: {}, service: {} } });
    const clearance = dimension(
      'clearance',
      { type: 'difference', minuend: 'size', subtrahend: 'piston' },
      { positions: [], limits: upTo(0.07, 0.1) },
    );
    const gauge: Instrument = { ...boreGauge, masterUncertainty: 6000 };
    for (const instrument of [gauge.code, micrometer.code]) {
      const readings = [
        readingOf('size', 'p1', shown(mm(96.01)), { setting: 'today' }),
        readingOf('piston', 'p1', shown(mm(95.93)), { setting: 'today', instrument }),
      ];
      const closed = findingOf('clearance', [size, piston, clearance], readings, [gauge]);
      const { upper } = simulated('clearance', [size, piston, clearance], readings, { instruments: [gauge] });
      expect(upper.sd / closed.uncertainty.standard).toBeCloseTo(1, 1);
    }
  });

  it('two repeats and no study: the tails are those of few readings', () => {
    const { repeatability: _, ...unstudied } = boreGauge;
    const bare: Instrument = { ...unstudied, mpe: 0, resolution: 10 };
    const readings = repeated('size', [mm(96.04), mm(96.042), mm(96.038)]);
    const closed = findingOf('size', [size], readings, [bare]);
    const { symmetric } = simulated('size', [size], readings, { instruments: [bare] }).upper;
    // t of ν = 2 at 97.5 %: 4.303.
    expect((symmetric.high - symmetric.low) / 2 / closed.uncertainty.standard).toBeCloseTo(4.303, 0);
  });

  it('the largest of six equal readings lies as far out as the budget says, and scatters less than one', () => {
    const quiet: Instrument = { ...boreGauge, mpe: 0, resolution: 1, repeatability: { sd: 2000 } };
    const readings = boreReadings([96.01, 96.01, 96.01], [96.01, 96.01, 96.01]);
    const { upper } = simulated('bore', [bore], readings, { instruments: [quiet] });
    expect((upper.mean - mm(96.01)) / 2000).toBeCloseTo(1.267, 1);
    expect(upper.sd).toBeLessThan(2000);
  });

  it('gaps by feeler are drawn evenly, and every trial lies within the interval worked out', () => {
    const ring = dimension('gap', { type: 'interval' }, { limits: upTo(0.4, 0.5) });
    const readings = [readingOf('gap', 'p1', gap(0.45, 0.5), { instrument: feelers.code })];
    const { upper, probabilityPast } = simulated('gap', [ring], readings);
    const [low, high] = [mm(0.448), mm(0.502)];
    expect(upper.mean / ((low + high) / 2)).toBeCloseTo(1, 2);
    expect(upper.sd / ((high - low) / Math.sqrt(12))).toBeCloseTo(1, 1);
    expect(upper.symmetric.low).toBeGreaterThanOrEqual(low);
    expect(upper.symmetric.high).toBeLessThanOrEqual(high);
    expect(probabilityPast).toBeCloseTo(2000 / 54_000, 1);
  });
});

describe('what can’t be drawn', () => {
  it('is told', () => {
    const ring = dimension('gap', { type: 'interval' }, { limits: upTo(0.4, 0.5) });
    const open = [readingOf('gap', 'p1', gap(0.5, null), { instrument: feelers.code })];
    expect(simulate('gap', [ring], open)).toEqual({ ok: false, reason: 'no-upper-end' });
    expect(simulate('size', [size], [])).toMatchObject({ ok: false, reason: 'refused' });
    const readings = repeated('size', [mm(96)]);
    expect(simulate('size', [size], readings, { trials: 10 })).toEqual({ ok: false, reason: 'trials' });
    expect(simulate('size', [size], readings, { seed: 0.5 })).toEqual({ ok: false, reason: 'seed' });
    const play = dimension('play', { type: 'felt' }, { limits: { standard: {}, service: {} } });
    expect(simulate('play', [play], [])).toEqual({ ok: false, reason: 'felt' });
  });
});

describe('coverage intervals', () => {
  it('of a skewed quantity the shortest leaves more out above than below', () => {
    const squares = Float64Array.from({ length: 10_000 }, (_, index) => (index / 10_000) ** 4);
    const { symmetric, shortest } = distributionOf(squares, 0.9);
    expect(shortest.low).toBe(0);
    expect(shortest.high).toBeLessThan(symmetric.high);
    expect(squares.filter((value) => value >= shortest.low && value <= shortest.high).length).toBeGreaterThanOrEqual(
      9000,
    );
    expect(squares.filter((value) => value >= symmetric.low && value <= symmetric.high).length).toBeGreaterThanOrEqual(
      9000,
    );
  });
});
