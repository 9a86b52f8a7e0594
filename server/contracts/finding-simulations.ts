import { z } from 'zod';
import { fewestTrials } from '#domain/metrology/monte-carlo.ts';
import { Id, Instant, Named, Quantity } from './wire.ts';

export const DrawFinding = z
  .strictObject({
    /** Trials times readings of the finding are 500 000 at most. Left out: 20 000, or as many as that leaves. */
    trials: z.int().min(fewestTrials).max(200_000).optional(),
    /** The same seed gives the same answer. Left out: one is chosen, and kept. */
    seed: z.int().min(0).max(4_294_967_295).optional(),
  })
  .meta({ id: 'DrawFinding', examples: [{ trials: 20_000, seed: 20261126 }] });
export type DrawFinding = z.infer<typeof DrawFinding>;

const interval = z.strictObject({ low: Quantity, high: Quantity });

export const FindingSimulation = z
  .strictObject({
    id: Id,
    findingId: Id,
    trials: z.int(),
    seed: z.int(),
    /** Which end was drawn of a result that varies from place to place: what lies against that limit. */
    side: z.enum(['lower', 'upper']),
    mean: Quantity,
    standardUncertainty: Quantity,
    /** 95 of 100 trials: as many left out below as above; the shortest interval that holds them. */
    symmetric: interval,
    shortest: interval,
    /** Share of the trials past a limit; null: there is none. */
    probabilityPast: z.number().nullable(),
    /** Bins of one width from low to high; below and above: trials further out. */
    histogram: z.strictObject({
      low: Quantity,
      high: Quantity,
      counts: z.array(z.int()),
      below: z.int(),
      above: z.int(),
    }),
    /** What the verdict rests on, beside it; null for a feeler's interval, where no curve is taken for granted. */
    closedForm: z
      .strictObject({
        value: Quantity,
        standardUncertainty: Quantity,
        interval,
        tolerance: Quantity,
        holds: z.boolean(),
      })
      .nullable(),
    words: z.string(),
    /** Gauges of which the finding had kept too little, so that the register of the day stood in. */
    fromRegister: z.array(z.string()),
    formulaVersion: z.int(),
    madeBy: Named,
    madeAt: Instant,
  })
  .meta({
    id: 'FindingSimulation',
    description:
      'A kept finding drawn many times by chance (JCGM 101); the verdict rests on the closed form all the same',
  });
export type FindingSimulation = z.infer<typeof FindingSimulation>;

export const FindingSimulations = z
  .strictObject({ items: z.array(FindingSimulation) })
  .meta({ id: 'FindingSimulations' });
export type FindingSimulations = z.infer<typeof FindingSimulations>;
