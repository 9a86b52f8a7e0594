import { z } from 'zod';
import { WorkedOutFinding } from './findings.ts';
import { AverageAndRange } from './gauge-studies.ts';
import { LooseFindings } from './loose-bench.ts';
import { mm, threeRepeats } from './loose-bench-examples.ts';
import { Quantity, QuantityInterval, words } from './wire.ts';

const code = words(60).min(1);
const interval = z.strictObject({ low: Quantity, high: Quantity });

/** Answers are in this unit, with so many decimals (up to three more where they need them); mm and 3. */
const print = { unit: words(12).optional(), decimals: z.int().min(0).max(6).optional() };

const studyReading = z.strictObject({ part: code, person: code, trial: code, value: Quantity });

const exampleStudy = [
  ['88.011', '88.012', '88.013', '88.013'],
  ['88.034', '88.033', '88.036', '88.036'],
  ['88.052', '88.053', '88.053', '88.055'],
  ['88.019', '88.018', '88.021', '88.020'],
].flatMap((values, part) =>
  values.map((value, index) => ({
    part: `bore ${part + 1}`,
    person: index < 2 ? 'Ines' : 'Tom',
    trial: String((index % 2) + 1),
    value: mm(value),
  })),
);

export const LooseGaugeStudy = z
  .strictObject({
    readings: z.array(studyReading).min(1).max(2000),
    /** Width between the limits that the gauge shall serve; left out: judged by the spread of the parts alone. */
    tolerance: Quantity.optional(),
    /** The interaction is pooled with the repeatability when its p-value is above this; left out: 0.25. */
    poolingAlpha: z.number().min(0).max(1).optional(),
    ...print,
  })
  .meta({
    id: 'LooseGaugeStudy',
    examples: [{ readings: exampleStudy, tolerance: mm('0.050') }],
  });
export type LooseGaugeStudy = z.infer<typeof LooseGaugeStudy>;

const varianceLine = z.strictObject({
  source: z.enum(['part', 'person', 'interaction', 'repeatability', 'total']),
  degreesOfFreedom: z.int(),
  /** In the square of the answer's unit. */
  sumOfSquares: z.number(),
  meanSquare: z.number(),
  /** null: held against nothing, or against no scatter at all. */
  f: z.number().nullable(),
  pValue: z.number().nullable(),
});

const share = z.strictObject({
  source: z.enum(['repeatability', 'reproducibility', 'person', 'interaction', 'gauge', 'part', 'total']),
  standardDeviation: Quantity,
  /** Of the total variance; of the total standard deviation; six standard deviations of the tolerance. Of 1. */
  ofVariance: z.number(),
  ofStudyVariation: z.number(),
  ofTolerance: z.number().nullable(),
});

export const LooseGaugeStudyFound = z
  .strictObject({
    parts: z.int(),
    people: z.int(),
    trials: z.int(),
    /** What the figures rest on. */
    method: z.literal('analysis of variance'),
    anova: z.array(varianceLine),
    /** True: the interaction was no more than scatter, and both were pooled. */
    pooled: z.boolean(),
    poolingAlpha: z.number(),
    shares: z.array(share),
    /** Sizes of part that the gauge tells apart; null: it showed no scatter. */
    distinctCategories: z.int().nullable(),
    /** What the register would keep. */
    repeatability: z.strictObject({ standardDeviation: Quantity, degreesOfFreedom: z.number() }),
    standing: z.enum(['fit', 'may do', 'not fit']),
    words: z.string(),
    averageAndRange: AverageAndRange,
  })
  .meta({ id: 'LooseGaugeStudyFound' });
export type LooseGaugeStudyFound = z.infer<typeof LooseGaugeStudyFound>;

export const LooseMonteCarlo = z
  .strictObject({
    ...LooseFindings.shape,
    /** The dimension to draw. */
    dimension: code,
    /** Trials times readings are 500 000 at most. Left out: 20 000. */
    trials: z.int().min(1000).max(200_000).optional(),
    /** The same seed gives the same answer. Left out: 1. */
    seed: z.int().min(0).max(4_294_967_295).optional(),
    /** Share that the coverage intervals hold; left out: 0.95. */
    level: z.number().min(0.5).max(0.999).optional(),
  })
  .meta({ id: 'LooseMonteCarlo', examples: [{ ...threeRepeats, dimension: 'pin', seed: 20261125 }] });
export type LooseMonteCarlo = z.infer<typeof LooseMonteCarlo>;

const distribution = z.strictObject({
  mean: Quantity,
  standardUncertainty: Quantity,
  /** As much is left out below as above. */
  symmetric: interval,
  /** The shortest interval that holds so much. */
  shortest: interval,
});

export const LooseMonteCarloFound = z
  .strictObject({
    dimension: z.string(),
    trials: z.int(),
    seed: z.int(),
    level: z.number(),
    /** What is held against the upper limit, and what against the lower: different where the result varies by place. */
    upper: distribution,
    lower: distribution,
    /** Share of the trials past a limit; null: there is none. */
    probabilityPast: z.number().nullable(),
    /** What the verdict rests on: the same in closed form. null: it can't be judged. */
    closedForm: WorkedOutFinding.nullable(),
  })
  .meta({ id: 'LooseMonteCarloFound' });
export type LooseMonteCarloFound = z.infer<typeof LooseMonteCarloFound>;

const wearPoint = z.strictObject({ hours: z.number().min(0).max(100_000), value: Quantity });
const worn = (values: readonly (readonly [number, string])[]) =>
  values.map(([hours, value]) => ({ hours, value: mm(value) }));

export const LooseWear = z
  .strictObject({
    /** Of one part since it was fitted or machined. */
    points: z.array(wearPoint).min(1).max(500),
    limit: z.strictObject({ side: z.enum(['upper', 'lower']), value: Quantity }),
    /** Of the prediction interval; left out: 0.95. */
    level: z.number().min(0.5).max(0.999).optional(),
    /** Other engines of its family. */
    family: z
      .array(z.strictObject({ engine: code, points: z.array(wearPoint).max(500) }))
      .max(200)
      .optional(),
    ...print,
  })
  .meta({
    id: 'LooseWear',
    examples: [
      {
        points: worn([
          [0, '88.012'],
          [62, '88.019'],
          [118, '88.024'],
          [171, '88.031'],
        ]),
        limit: { side: 'upper', value: mm('88.050') },
        family: ['88.020', '88.021', '88.023', '88.024', '88.026'].map((value, index) => ({
          engine: `E-${index + 1}`,
          points: worn([
            [0, '88.010'],
            [60, index < 3 ? '88.015' : '88.016'],
            [120, value],
          ]),
        })),
      },
    ],
  });
export type LooseWear = z.infer<typeof LooseWear>;

export const LooseWearFound = z
  .strictObject({
    perHundredHours: Quantity,
    residualStandardDeviation: Quantity,
    rSquared: z.number(),
    /** Hours left from the last reading: the line's own crossing, and the range of the prediction interval. null: not in sight. */
    hoursLeft: z.strictObject({
      estimate: z.number().nullable(),
      earliest: z.number().nullable(),
      latest: z.number().nullable(),
    }),
    /** null: fewer than four others have a line. */
    family: z
      .strictObject({
        engines: z.int(),
        median: Quantity,
        lowerQuartile: Quantity,
        upperQuartile: Quantity,
        /** Share of the others that wear more slowly. */
        quantile: z.number(),
        standing: z.enum(['slow', 'usual', 'fast', 'odd']),
        words: z.string(),
      })
      .nullable(),
  })
  .meta({ id: 'LooseWearFound' });
export type LooseWearFound = z.infer<typeof LooseWearFound>;

const range = z.strictObject({ low: Quantity.optional(), high: Quantity.optional() });

export const LoosePredictions = z
  .strictObject({
    /** The same ring once the bore is opened. */
    ringGap: z
      .strictObject({ gap: QuantityInterval, boreNow: Quantity, boreThen: Quantity, standard: range })
      .optional(),
    /** Pistons at hand, in the bore as it is and as each would have it. */
    pistons: z
      .strictObject({
        bore: z.strictObject({
          narrowest: Quantity,
          widest: Quantity,
          expandedUncertainty: Quantity.optional(),
          largest: Quantity.optional(),
          plated: z.boolean().optional(),
        }),
        clearance: range,
        atHand: z
          .array(
            z.strictObject({
              code,
              sizeClass: words(40),
              low: Quantity,
              high: Quantity,
              available: z.int().min(0).max(10_000).optional(),
            }),
          )
          .min(1)
          .max(200),
      })
      .optional(),
    /** Head or cylinder face taken down. */
    resurfacing: z
      .strictObject({
        sweptVolume: Quantity,
        clearanceVolume: Quantity,
        /** Diameter of the chamber's opening. */
        opening: Quantity,
        remove: Quantity,
        removedBefore: Quantity.optional(),
        allowed: Quantity.optional(),
      })
      .optional(),
  })
  .meta({
    id: 'LoosePredictions',
    examples: [
      {
        ringGap: {
          gap: { low: '0.30', high: '0.35', unit: 'mm' },
          boreNow: mm('88.020'),
          boreThen: mm('88.050'),
          standard: { low: mm('0.25'), high: mm('0.50') },
        },
        pistons: {
          bore: {
            narrowest: mm('88.020'),
            widest: mm('88.048'),
            expandedUncertainty: mm('0.004'),
            largest: mm('88.550'),
          },
          clearance: { low: mm('0.030'), high: mm('0.060') },
          atHand: [
            { code: 'P-88', sizeClass: 'standard', low: mm('87.955'), high: mm('87.962'), available: 2 },
            { code: 'P-8825', sizeClass: '+0.25', low: mm('88.205'), high: mm('88.215'), available: 1 },
          ],
        },
        resurfacing: {
          sweptVolume: { value: '355.80', unit: 'cm3' },
          clearanceVolume: { value: '27.4', unit: 'cm3' },
          opening: mm('88.0'),
          remove: mm('0.20'),
          allowed: mm('0.30'),
        },
      },
    ],
  });
export type LoosePredictions = z.infer<typeof LoosePredictions>;

const outlook = z.enum(['inside', 'partly', 'outside']).meta({ description: 'Against the standard range' });

export const LoosePredictionsFound = z
  .strictObject({
    ringGap: z.strictObject({ gap: QuantityInterval, outlook }).nullable(),
    /** Least metal to remove first. */
    pistons: z.array(
      z.strictObject({
        code: z.string(),
        sizeClass: z.string(),
        available: z.int(),
        clearance: QuantityInterval,
        outlook,
        /** Bore sizes with which every piston of this kind has a standard clearance; null: none. */
        boreTo: interval.nullable(),
        /** Off the narrowest diameter, so that the widest place is cleaned up; null: it can't be bored for it. */
        remove: z.strictObject({ least: Quantity, most: Quantity }).nullable(),
      }),
    ),
    /** What is left of the bore's metal, over the diameter; null: the largest bore was not given. */
    metalLeft: Quantity.nullable(),
    resurfacing: z
      .strictObject({
        ratioBefore: z.number(),
        ratioAfter: z.number(),
        clearanceVolume: Quantity,
        /** Below zero: more than is allowed. null: no limit was given. */
        left: Quantity.nullable(),
      })
      .nullable(),
    caution: z.string(),
  })
  .meta({ id: 'LoosePredictionsFound' });
export type LoosePredictionsFound = z.infer<typeof LoosePredictionsFound>;
