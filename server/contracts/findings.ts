import { z } from 'zod';
import { verdicts } from '#domain/metrology/finding.ts';
import { rounds } from '#domain/obligations/disposition.ts';
import { Limits, Rule } from './specs.ts';
import { Id, Instant, Named, Quantity } from './wire.ts';

export const Round = z.enum(rounds).meta({ id: 'Round', description: 'When it was measured' });
export type Round = z.infer<typeof Round>;
export const Verdict = z.enum(verdicts).meta({ id: 'Verdict' });

/**
 * point: low = high. interval: it lies in [low, high). span: from the least to the greatest (a clearance from place to
 * place). high null: no upper end. felt: play says it, low and high are null.
 */
export const FoundValue = z
  .strictObject({
    type: z.enum(['point', 'interval', 'span', 'felt']),
    low: z.string().nullable(),
    high: z.string().nullable(),
    unit: z.string(),
    play: z.boolean().nullable(),
  })
  .meta({ id: 'FoundValue', examples: [{ type: 'point', low: '88.048', high: '88.048', unit: 'mm', play: null }] });
export type FoundValue = z.infer<typeof FoundValue>;

export const BudgetLine = z
  .strictObject({
    name: z.string(),
    formula: z.string(),
    /** Who or what vouches for it; null with the next four: judged before these were kept. */
    source: z.string().nullable(),
    distribution: z.string().nullable(),
    /** Of the source itself; an expansion is in 1/K, a temperature in K. */
    standardUncertainty: z.strictObject({ value: z.string(), unit: z.string() }).nullable(),
    /** Change of the result per unit of the source. */
    sensitivity: z.number().nullable(),
    /** How the readings share it, where there are several. */
    correlation: z.string().nullable(),
    /** Standard uncertainty that it brings to the result: |sensitivity| × standard uncertainty. */
    contribution: Quantity,
    /** null: taken as certain. */
    degreesOfFreedom: z.number().nullable(),
  })
  .meta({ id: 'BudgetLine' });
export type BudgetLine = z.infer<typeof BudgetLine>;

const facts = {
  dimension: z.string(),
  name: z.string(),
  verdict: Verdict,
  words: z.string(),
  value: FoundValue,
  /** u, and U = k · u for 95.45 %. */
  standardUncertainty: Quantity,
  expandedUncertainty: Quantity,
  /** k: 2, or Student's t where u rests on fewer than 30 degrees of freedom. */
  coverageFactor: z.number(),
  /** Effective, by Welch and Satterthwaite; null: unlimited. */
  degreesOfFreedom: z.number().nullable(),
  rule: Rule,
  /** Kept off a limit before it is met: g. */
  guardBand: Quantity,
  /** Room left to the nearest limit at worst; below zero: past it. */
  margin: Quantity.nullable(),
  nearestLimit: z.strictObject({ side: z.enum(['lower', 'upper']), value: Quantity }).nullable(),
  /** One figure for a point; least and greatest for an interval. */
  probabilityPast: z.strictObject({ low: z.number(), high: z.number() }),
  limits: Limits,
  budget: z.array(BudgetLine),
  warnings: z.array(z.strictObject({ code: z.string(), words: z.string() })),
  formulaVersion: z.int(),
};

export const WorkedOutFinding = z
  .strictObject(facts)
  .meta({ id: 'WorkedOutFinding', description: 'A dimension worked out and judged, not kept' });
export type WorkedOutFinding = z.infer<typeof WorkedOutFinding>;

export const CrossCheck = z
  .strictObject({
    agrees: z.boolean(),
    words: z.string(),
    /** Codes of the dimensions that were read for it. */
    about: z.array(z.string()),
  })
  .meta({ id: 'CrossCheck', description: 'One measurement held against another that should agree with it' });
export type CrossCheck = z.infer<typeof CrossCheck>;

export const Finding = z
  .strictObject({
    id: Id,
    jobId: Id,
    round: Round,
    ...facts,
    fittedPartId: Id.nullable(),
    /** True: one of its readings was struck, and nothing has taken its place yet. */
    withdrawn: z.boolean(),
    supersedesId: Id.nullable(),
    readingIds: z.array(Id),
    instruments: z.array(z.string()),
    /** Engine hours, and hours of the fitted part, when it was measured. */
    hours: z.string(),
    partHours: z.string().nullable(),
    judgedBy: Named,
    judgedAt: Instant,
    /** What its readings were held against when it was judged. */
    crossChecks: z.array(CrossCheck),
  })
  .meta({ id: 'Finding', description: 'A snapshot: what was found, with what, by which limits and rule' });
export type Finding = z.infer<typeof Finding>;

export const Findings = z.strictObject({ items: z.array(Finding) }).meta({ id: 'Findings' });
export type Findings = z.infer<typeof Findings>;

export const MissingPositions = z
  .strictObject({ dimension: z.string(), name: z.string(), positions: z.array(z.string()), words: z.string() })
  .meta({ id: 'MissingPositions', description: 'A dimension that cannot be worked out yet, and why' });
export type MissingPositions = z.infer<typeof MissingPositions>;
