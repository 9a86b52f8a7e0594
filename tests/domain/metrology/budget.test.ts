import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agreementOf } from '#domain/metrology/blunders.ts';
import type { BudgetLine, Finding } from '#domain/metrology/finding.ts';
import { coverageFactor, guardFactor } from '#domain/metrology/guard-band.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import {
  bore,
  boreGauge,
  boreLimits,
  borePositions,
  boreReadings,
  dimension,
  findingOf,
  micrometer,
  mm,
  readingOf,
  repeated,
  shown,
  upTo,
} from './measuring-bench.ts';

const size = dimension('size', { type: 'single' }, { limits: boreLimits });
const piston = dimension('piston', { type: 'single' }, { limits: { standard: {}, service: {} } });
const clearance = dimension(
  'clearance',
  { type: 'difference', minuend: 'size', subtrahend: 'piston' },
  { positions: [], limits: upTo(0.07, 0.1) },
);

const line = (finding: Finding, name: string): BudgetLine => {
  const found = finding.uncertainty.budget.find((each) => each.name.startsWith(name));
  if (found === undefined) throw new Error(`No line ${name} in ${JSON.stringify(finding.uncertainty.budget)}`);
  return found;
};

const clearanceBy = (instrument: string, more: readonly Instrument[] = []): Finding =>
  findingOf(
    'clearance',
    [size, piston, clearance],
    [
      readingOf('size', 'p1', shown(mm(96.01)), { setting: 'today' }),
      readingOf('piston', 'p1', shown(mm(95.96)), { setting: 'today', instrument }),
    ],
    more,
  );

describe('a budget, line by line', () => {
  const gauges = fc.record({
    resolution: fc.integer({ min: 1, max: 10_000 }),
    mpe: fc.nat(8000),
    masterUncertainty: fc.nat(3000),
    repeatability: fc.record({ sd: fc.nat(4000), degreesOfFreedom: fc.integer({ min: 1, max: 80 }) }),
  });

  it('every contribution is sensitivity times standard uncertainty, and their root-sum-square is u', () => {
    fc.assert(
      fc.property(gauges, fc.constantFrom(boreGauge.code, micrometer.code), (gauge, instrument) => {
        const { uncertainty } = clearanceBy(instrument, [{ ...boreGauge, ...gauge }]);
        let squares = 0;
        let weight = 0;
        for (const { standard, sensitivity, contribution, degreesOfFreedom } of uncertainty.budget) {
          expect(contribution).toBeCloseTo(Math.abs(sensitivity) * standard, 9);
          squares += contribution ** 2;
          if (degreesOfFreedom !== null) weight += contribution ** 4 / degreesOfFreedom;
        }
        expect(uncertainty.standard).toBeCloseTo(Math.sqrt(squares), 6);
        const { effectiveDegreesOfFreedom } = uncertainty;
        if (weight > 0) expect(Number(effectiveDegreesOfFreedom) / (squares ** 2 / weight)).toBeCloseTo(1, 9);
        else expect(effectiveDegreesOfFreedom).toBeNull();
      }),
    );
  });

  it('names who vouches for each line', () => {
    const finding = findingOf('size', [size], repeated('size', [mm(96.01), mm(96.011)]));
    expect(finding.uncertainty.budget.map(({ source }) => source)).toEqual([
      'instrument register',
      'instrument register',
      'gauge study',
      'check of the day',
    ]);
    expect(finding.uncertainty.budget.every(({ correlation }) => correlation === null)).toBe(true);
  });
});

describe('what two readings share', () => {
  const mastered: Instrument = { ...boreGauge, masterUncertainty: 2500 };

  it('one gauge at one setting: the master and the permissible error as a whole cancel, the local error does not', () => {
    const finding = clearanceBy(boreGauge.code, [mastered]);
    expect(line(finding, 'setting master')).toMatchObject({ contribution: 0, correlation: 'one setting: cancels' });
    expect(line(finding, 'local error').sensitivity).toBeCloseTo(Math.SQRT2, 12);
    expect(line(finding, 'local error').correlation).toMatch(/does not cancel/);
  });

  it('two gauges share nothing: each brings all its lines whole', () => {
    const finding = clearanceBy(micrometer.code, [mastered]);
    expect(finding.uncertainty.budget).toHaveLength(8);
    expect(finding.uncertainty.budget.every(({ sensitivity }) => Math.abs(sensitivity) === 1)).toBe(true);
    expect(line(finding, 'setting master, bore gauge').contribution).toBe(2500);
  });

  it('a mean of six by one gauge: what they share stays whole, their scatter shrinks by √6', () => {
    const mean = dimension('mean', { type: 'mean' }, { positions: borePositions, limits: boreLimits });
    const readings = borePositions.map(({ code }) => readingOf('mean', code, shown(mm(96.01))));
    const finding = findingOf('mean', [mean], readings, [mastered]);
    expect(line(finding, 'setting master').contribution).toBeCloseTo(2500, 9);
    expect(line(finding, 'maximum permissible error').contribution).toBeCloseTo(3000 / Math.sqrt(3), 9);
    expect(line(finding, 'repeatability').contribution).toBeCloseTo(1200 / Math.sqrt(6), 9);
  });

  it('the largest of six readings says in the budget how far it lies out by chance', () => {
    const finding = findingOf('bore', [bore], boreReadings([96.01, 96.01, 96.01], [96.01, 96.01, 96.01]));
    expect(line(finding, 'picked from 6 positions')).toMatchObject({ contribution: 0, source: 'choice of positions' });
    expect(line(finding, 'picked from 6 positions').standard).toBeCloseTo(1.26721 * 1200, 0);
  });
});

describe('few readings', () => {
  const { repeatability: _, ...unstudied } = boreGauge;
  const bare: Instrument = { ...unstudied, mpe: 0, resolution: 10 };

  it('three repeats and nothing else: ν = 2, k = 4.53 and a guard band of 2.92 u', () => {
    const finding = findingOf('size', [size], repeated('size', [mm(96.04), mm(96.042), mm(96.038)]), [bare]);
    expect(line(finding, 'scatter of these repeats')).toMatchObject({ degreesOfFreedom: 2, distribution: 't' });
    const dof = finding.uncertainty.effectiveDegreesOfFreedom;
    expect(coverageFactor(dof)).toBeCloseTo(4.527, 2);
    expect(guardFactor(dof, 'iso-14253-1-2017')).toBeCloseTo(2.92, 2);
  });

  it('two people with three repeats each may differ by more before it says anything', () => {
    const one = { value: 10_000, standard: 1000 };
    const other = { value: 14_000, standard: 1000 };
    expect(agreementOf(one, other).agree).toBe(false);
    expect(agreementOf({ ...one, degreesOfFreedom: 2 }, { ...other, degreesOfFreedom: 2 }).agree).toBe(true);
  });
});
