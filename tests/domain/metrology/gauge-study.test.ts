import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gaugeStudyOf, type StudyOptions } from '#domain/metrology/gauge-study.ts';
import type { StudyReading } from '#domain/metrology/gauge-study-table.ts';
import { studyFaultText, studyWords } from '#domain/metrology/gauge-study-words.ts';
import { oneWayAnova } from '#domain/metrology/one-way-anova.ts';

type Drawn = readonly (readonly (readonly number[])[])[];

const readingsOf = (drawn: Drawn): readonly StudyReading[] =>
  drawn.flatMap((row, part) =>
    row.flatMap((cell, person) =>
      cell.map((value, trial) => ({ part: `p${part}`, person: `o${person}`, trial: `t${trial}`, value })),
    ),
  );

const study = (readings: readonly StudyReading[], options: StudyOptions = {}) => {
  const found = gaugeStudyOf(readings, options);
  if (!found.ok) throw new Error(JSON.stringify(found.fault));
  return found;
};

const faultOf = (readings: readonly StudyReading[], options: StudyOptions = {}) => {
  const found = gaugeStudyOf(readings, options);
  return found.ok ? undefined : found.fault;
};

const drawnStudies = fc
  .record({
    parts: fc.integer({ min: 2, max: 6 }),
    people: fc.integer({ min: 1, max: 4 }),
    trials: fc.integer({ min: 2, max: 4 }),
  })
  .chain(({ parts, people, trials }) =>
    fc.array(
      fc.array(fc.array(fc.integer({ min: -500, max: 500 }), { minLength: trials, maxLength: trials }), {
        minLength: people,
        maxLength: people,
      }),
      { minLength: parts, maxLength: parts },
    ),
  );

describe('a gauge study', () => {
  it('the lines add up to the whole, and the shares to one', () => {
    fc.assert(
      fc.property(drawnStudies, (drawn) => {
        const { anova, shares } = study(readingsOf(drawn));
        const { part, person, interaction, repeatability, total } = anova;
        const lines = [part, person, interaction, repeatability];
        const sum = lines.reduce((held, line) => held + (line?.sumOfSquares ?? 0), 0);
        expect(sum).toBeCloseTo(total.sumOfSquares, 4);
        expect(lines.reduce((held, line) => held + (line?.degreesOfFreedom ?? 0), 0)).toBe(total.degreesOfFreedom);
        if (shares.total.variance > 0) expect(shares.gauge.contribution + shares.part.contribution).toBeCloseTo(1, 12);
      }),
    );
  });

  it('what all readings share, and the unit, change no share; the order of keying changes nothing', () => {
    fc.assert(
      fc.property(drawnStudies, fc.integer({ min: -1e6, max: 1e6 }), (drawn, offset) => {
        const readings = readingsOf(drawn);
        const one = study(readings).shares;
        const moved = study(readings.map((each) => ({ ...each, value: 25.4 * (each.value + offset) }))).shares;
        const turned = study(readings.toReversed()).shares;
        for (const name of ['repeatability', 'gauge', 'part'] as const) {
          expect(moved[name].ofStudyVariation).toBeCloseTo(one[name].ofStudyVariation, 6);
          expect(turned[name].variance).toBeCloseTo(one[name].variance, 6);
        }
      }),
    );
  });

  it('by average and range too, the unit and what all share change no share, and no scatter tells no sizes', () => {
    fc.assert(
      fc.property(drawnStudies, fc.integer({ min: -1e6, max: 1e6 }), (drawn, offset) => {
        const readings = readingsOf(drawn);
        const one = study(readings).averageAndRange;
        const moved = study(readings.map((each) => ({ ...each, value: 25.4 * (each.value + offset) }))).averageAndRange;
        for (const name of ['repeatability', 'reproducibility', 'gauge', 'part'] as const) {
          expect(moved.shares[name].ofStudyVariation).toBeCloseTo(one.shares[name].ofStudyVariation, 4);
        }
        const { gauge, repeatability, reproducibility, part, total } = one.shares;
        expect(Math.hypot(repeatability.sd, reproducibility.sd)).toBeCloseTo(gauge.sd, 8);
        expect(Math.hypot(gauge.sd, part.sd)).toBeCloseTo(total.sd, 8);
      }),
    );
    expect(study(readingsOf([[[1, 1]], [[2, 2]]])).averageAndRange.distinct).toBeNull();
  });

  it('by average and range few ranges are divided by more than many are: one part’s scatter is not sure', () => {
    // Two parts, one person, readings 4 apart each: 4 / √(1.12838² + 0.8525² / 2).
    const { shares } = study(readingsOf([[[0, 4]], [[10, 14]]])).averageAndRange;
    expect(shares.repeatability.sd).toBeCloseTo(4 / Math.sqrt(1.12838 ** 2 + 0.8525 ** 2 / 2), 4);
    expect(shares.reproducibility.sd).toBe(0);
    // Means 2 and 12: 10 / √2.
    expect(shares.part.sd).toBeCloseTo(10 / Math.SQRT2, 8);
  });

  it('one person alone tells the repeatability, as a one-way analysis of the parts does', () => {
    const drawn = [[[3, 5, 4]], [[9, 8, 9]], [[1, 2, 2]], [[6, 6, 7]]];
    const found = study(readingsOf(drawn));
    const oneWay = oneWayAnova(drawn.map(([cell]) => cell ?? []));
    if (!oneWay.ok) throw new Error(oneWay.reason);
    expect(found.anova.person).toBeNull();
    expect(found.shares.reproducibility.variance).toBe(0);
    expect(found.repeatability.sd).toBeCloseTo(oneWay.residualSd, 12);
    expect(found.repeatability.degreesOfFreedom).toBe(8);
    expect(found.anova.part.f).toBeCloseTo(oneWay.f, 9);
  });

  it('a gauge without scatter is fit and tells all sizes apart', () => {
    const found = study(
      readingsOf([
        [
          [1, 1],
          [1, 1],
        ],
        [
          [2, 2],
          [2, 2],
        ],
      ]),
      { tolerance: 10 },
    );
    expect(found).toMatchObject({ distinct: null, standing: 'fit' });
  });

  it('people who disagree by more than the tolerance allows make it not fit, though each repeats well', () => {
    const drawn = [0, 10, 20, 30].map((size) => [
      [size, size + 1],
      [size + 40, size + 41],
    ]);
    const found = study(readingsOf(drawn), { tolerance: 60 });
    expect(found.standing).toBe('not fit');
    expect(studyWords(found, (value) => `${value.toFixed(1)} µm`)).toMatch(
      /standard deviation of 0\.\d µm.*not fit for it/,
    );
    expect(found.shares.reproducibility.sd).toBeGreaterThan(20 * found.shares.repeatability.sd);
  });

  const square = readingsOf([
    [
      [1, 2],
      [3, 4],
    ],
    [
      [5, 6],
      [7, 9],
    ],
  ]);
  const [first, ...others] = square;

  it('asks for every part by every person in every trial, once', () => {
    if (first === undefined) throw new Error('no reading');
    const at = { part: 'p0', person: 'o0', trial: 't0' };
    expect(faultOf(others)).toEqual({ reason: 'missing-reading', ...at });
    expect(faultOf([...square, first])).toEqual({ reason: 'read-twice', ...at });
    expect(faultOf([{ ...first, value: Number.NaN }, ...others])).toEqual({ reason: 'not-a-number', ...at });
    expect(studyFaultText({ reason: 'missing-reading', ...at })).toContain('Part p0 has no reading by o0 in trial t0');
    expect(faultOf([])).toEqual({ reason: 'too-few', of: 'parts', least: 2 });
    expect(
      faultOf(
        readingsOf([
          [[1], [2]],
          [[3], [4]],
        ]),
      ),
    ).toEqual({ reason: 'too-few', of: 'trials', least: 2 });
  });

  it('an option that can’t be is refused by its name', () => {
    expect(faultOf(square, { tolerance: 0 })).toEqual({ reason: 'wrong-option', option: 'tolerance' });
    expect(faultOf(square, { poolingAlpha: 1.5 })).toEqual({ reason: 'wrong-option', option: 'poolingAlpha' });
  });
});

describe('a one-way analysis', () => {
  it.each([
    ['fewer-than-two-groups', [[1, 2]]],
    ['empty-group', [[1, 2], []]],
    ['no-repeats', [[1], [2]]],
    ['not-a-number', [[1, Number.POSITIVE_INFINITY], [2]]],
  ])('refuses %s', (reason, groups) => {
    expect(oneWayAnova(groups)).toEqual({ ok: false, reason });
  });
});
