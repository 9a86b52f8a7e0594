import { describe, expect, it } from 'vitest';
import { histogramOf } from '#domain/metrology/histogram.ts';
import { distributionOf } from '#domain/metrology/monte-carlo.ts';
import { normalCheckOf } from '#domain/metrology/normal-check.ts';
import { randomSource } from '#domain/metrology/random-source.ts';
import { simulationWords } from '#domain/metrology/simulation-words.ts';

const drawn = (count: number, draw: (random: ReturnType<typeof randomSource>) => number) => {
  const random = randomSource(11);
  return distributionOf(
    Float64Array.from({ length: count }, () => draw(random)),
    0.95,
  );
};

describe('a histogram of draws', () => {
  it('counts every value once, those far out beside the bins', () => {
    const { histogram } = drawn(20_000, (random) => random.normal());
    const inBins = histogram.counts.reduce((sum, count) => sum + count, 0);
    expect(inBins + histogram.below + histogram.above).toBe(20_000);
    expect([histogram.below, histogram.above]).toEqual([9, 9]);
  });

  it('bins are of one width, from the lowest value to the highest', () => {
    const { low, high, counts } = histogramOf(Float64Array.from({ length: 401 }, (_, index) => index));
    expect([low, high]).toEqual([0, 400]);
    expect(counts).toEqual([...new Array(39).fill(10), 11]);
  });

  it('one value drawn again and again fills one bin of no width', () => {
    expect(histogramOf(new Float64Array(1000).fill(5))).toEqual({
      low: 5,
      high: 5,
      counts: [1000],
      below: 0,
      above: 0,
    });
  });
});

describe('the normal assumption', () => {
  it('holds of what is normal, at half a unit of u’s one digit', () => {
    const check = normalCheckOf(
      { value: 0, standard: 1888, degreesOfFreedom: null },
      drawn(20_000, (random) => 1888 * random.normal()),
    );
    expect(check?.tolerance).toBe(500);
    expect(check?.interval.high).toBeCloseTo(1.959964 * 1888, 2);
    expect(check?.holds).toBe(true);
  });

  it('does not hold of a rectangle, whose 95 % interval is narrower: 0.95 · √3 u against 1.96 u', () => {
    const distribution = drawn(20_000, (random) => random.between(-1000 * Math.sqrt(3), 1000 * Math.sqrt(3)));
    const check = normalCheckOf({ value: 0, standard: 1000, degreesOfFreedom: null }, distribution);
    // 1960 − 1645 = 315 < 500: to one digit of u it serves; with u = 900 half a unit is 50.
    expect(check?.holds).toBe(true);
    const finer = drawn(20_000, (random) => random.between(-900 * Math.sqrt(3), 900 * Math.sqrt(3)));
    expect(normalCheckOf({ value: 0, standard: 900, degreesOfFreedom: null }, finer)).toMatchObject({
      tolerance: 50,
      holds: false,
    });
  });

  it('u rounds to one digit before half of it is taken: 960 is 1000', () => {
    const check = normalCheckOf(
      { value: 0, standard: 960, degreesOfFreedom: null },
      drawn(1000, () => 0),
    );
    expect(check?.tolerance).toBe(500);
  });

  it('few degrees of freedom widen the interval by Student’s t: 3.182 u at three', () => {
    const check = normalCheckOf(
      { value: 0, standard: 1000, degreesOfFreedom: 3.9 },
      drawn(1000, () => 0),
    );
    expect(check?.interval.high).toBeCloseTo(3182.45, 1);
  });

  it('nothing unsure, nothing to check', () => {
    expect(
      normalCheckOf({ value: 0, standard: 0, degreesOfFreedom: null }, { symmetric: { low: 0, high: 0 } }),
    ).toBeUndefined();
  });

  it('is said in one sentence, and what both say of the limit in another', () => {
    const of = {
      symmetric: { low: -2000, high: 2000 },
      drawnPast: 0.123,
      closedPast: { low: 0.12, high: 0.12 },
      printed: (base: number) => `${base / 1000} µm`,
      near: '0.05 µm',
    };
    const interval = { low: -2500, high: 2500 };
    expect(simulationWords({ interval, tolerance: 50, holds: false }, of)).toBe(
      'The normal assumption does not hold: its 95 % interval is -2.5 µm to 2.5 µm, drawn it is -2 µm to 2 µm, more than 0.05 µm apart. Past the limit: 12.3 % of the trials, 12 % by the closed form.',
    );
    expect(simulationWords(undefined, { ...of, drawnPast: null })).toBe(
      'No normal curve is taken for granted here: 95 of 100 trials lie from -2 µm to 2 µm.',
    );
  });
});
