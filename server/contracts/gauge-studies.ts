import { z } from 'zod';
import { Id, Instant, Named, Quantity, someWords, words } from './wire.ts';

export const StartStudy = z
  .strictObject({
    instrumentId: Id,
    name: someWords(120),
    /** So many different parts, spread over what the gauge meets at work. */
    parts: z.int().min(2).max(20),
    /** How often each person reads each part. */
    trials: z.int().min(2).max(10),
    personIds: z.array(Id).min(1).max(6),
    /** Width between the limits that the gauge shall serve. */
    tolerance: Quantity.optional(),
  })
  .meta({
    id: 'StartStudy',
    examples: [
      {
        instrumentId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b',
        name: 'Bore gauge on ten cylinders',
        parts: 10,
        trials: 3,
        personIds: ['019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b'],
        tolerance: { value: '0.050', unit: 'mm' },
      },
    ],
  });
export type StartStudy = z.infer<typeof StartStudy>;

const Cell = { part: z.int().min(1).max(20), personId: Id, trial: z.int().min(1).max(10) };

export const KeyStudy = z
  .strictObject({
    readings: z
      .array(
        z.strictObject({
          ...Cell,
          value: Quantity,
          /** Why an earlier reading of the same part, person and trial is replaced. */
          reason: words(300).optional(),
        }),
      )
      .min(1)
      .max(1200),
  })
  .meta({
    id: 'KeyStudy',
    examples: [
      {
        readings: [
          {
            part: 1,
            personId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b',
            trial: 1,
            value: { value: '88.012', unit: 'mm' },
          },
        ],
      },
    ],
  });
export type KeyStudy = z.infer<typeof KeyStudy>;

export const CloseStudy = z
  .strictObject({
    /** True: the register takes the study's repeatability for this instrument from now on. */
    adopt: z.boolean(),
  })
  .meta({ id: 'CloseStudy', examples: [{ adopt: true }] });
export type CloseStudy = z.infer<typeof CloseStudy>;

/** A line of the analysis of variance; squares in the study's unit squared. */
const VarianceLine = z.strictObject({
  source: z.enum(['part', 'person', 'part × person', 'repeatability', 'total']),
  degreesOfFreedom: z.int(),
  sumOfSquares: z.number(),
  meanSquare: z.number(),
  /** Null for scatter and total; also where nothing scatters, so that no ratio can be told. */
  f: z.number().nullable(),
  pValue: z.number().nullable(),
});

const Share = z.strictObject({
  source: z.enum(['repeatability', 'reproducibility', 'person', 'part × person', 'gauge', 'part', 'total']),
  standardDeviation: Quantity,
  /** Share of the whole variance, of 1. */
  contribution: z.number(),
  /** Share of the whole standard deviation, of 1. */
  ofStudyVariation: z.number(),
  /** Six standard deviations over the tolerance, of 1; null without one. */
  ofTolerance: z.number().nullable(),
});

/** The same readings by the older method of shop floors; set beside the analysis of variance, nothing rests on it. */
export const AverageAndRange = z
  .strictObject({
    shares: z.array(
      z.strictObject({
        source: z.enum(['gauge', 'repeatability', 'reproducibility', 'part', 'total']),
        standardDeviation: Quantity,
        /** Of the whole standard deviation, and six standard deviations of the tolerance; of 1. */
        ofStudyVariation: z.number(),
        ofTolerance: z.number().nullable(),
      }),
    ),
    /** Mean difference between the largest and the least reading of one part by one person. */
    meanRange: Quantity,
    distinctCategories: z.int().nullable(),
    /** What it comes to beside the analysis of variance, and why they differ. */
    words: z.string(),
  })
  .meta({ id: 'AverageAndRange' });
export type AverageAndRange = z.infer<typeof AverageAndRange>;

export const StudyResult = z
  .strictObject({
    /** What the figures, the standing and the register's repeatability rest on. */
    method: z.literal('analysis of variance'),
    anova: z.array(VarianceLine),
    /** True: the interaction was no more than scatter, and is counted with it. */
    pooled: z.boolean(),
    poolingAlpha: z.number(),
    shares: z.array(Share),
    /** How many sizes of part the gauge can tell apart; null where it shows no scatter at all. */
    distinctCategories: z.int().nullable(),
    repeatability: Quantity,
    degreesOfFreedom: z.number(),
    standing: z.enum(['fit', 'may do', 'not fit']),
    words: z.string(),
    averageAndRange: AverageAndRange,
  })
  .meta({
    id: 'StudyResult',
    description:
      'Repeatability and reproducibility by the ANOVA method. Fit to 10 %, may do to 30 %, else not fit (common practice).',
  });
export type StudyResult = z.infer<typeof StudyResult>;

const facts = {
  id: Id,
  instrument: Named,
  name: z.string(),
  parts: z.int(),
  trials: z.int(),
  people: z.array(Named),
  tolerance: Quantity.nullable(),
  startedBy: Named,
  startedAt: Instant,
  closed: z.strictObject({ by: Named, at: Instant }).nullable(),
  /** True: the register took its repeatability over. */
  adopted: z.boolean(),
  readingsTaken: z.int(),
  readingsWanted: z.int(),
};

export const StudyLine = z.strictObject(facts).meta({ id: 'StudyLine' });
export type StudyLine = z.infer<typeof StudyLine>;
export const Studies = z
  .strictObject({ items: z.array(StudyLine) })
  .meta({ id: 'GaugeStudies', description: 'Newest first, 200 at most' });
export type Studies = z.infer<typeof Studies>;
export const StudiesQuery = z.object({ instrument: Id.optional() });

export const Study = z
  .strictObject({
    ...facts,
    unit: z.string(),
    decimals: z.int(),
    /** Values are null until all are taken: nobody is to read by an earlier figure. */
    readings: z.array(z.strictObject({ ...Cell, value: Quantity.nullable(), replaced: z.boolean() })),
    /** Null until every part was read by every person in every trial. */
    result: StudyResult.nullable(),
  })
  .meta({ id: 'GaugeStudy' });
export type Study = z.infer<typeof Study>;
