import { z } from 'zod';
import { BoreLine, CalculationName, LiftLine } from './build-arithmetic.ts';
import { calculationExamples } from './build-arithmetic-examples.ts';
import { Id, Instant, Named, Quantity, someWords, words } from './wire.ts';

/** What chooses instead of reckoning: each is given what its operation under /api/bench takes. */
export const PaneName = z.enum(['fastener-set', 'wrench', 'ring-clock', 'whole-head', 'bearing-shells']);
export type PaneName = z.infer<typeof PaneName>;

const figuresGiven = z.record(
  z.string().max(40),
  z.union([Quantity, z.number(), z.array(LiftLine).max(1000), z.array(BoreLine).max(200)]),
);
const Given = z
  .union([figuresGiven, z.record(z.string().max(40), z.unknown())])
  .meta({ description: 'The inputs by name, as the calculation’s own operation under /api/bench takes them' });

const writtenFigures = z.record(z.string(), Quantity.nullable());
const rows = z.array(z.strictObject({ name: z.string(), figures: writtenFigures }));
const cautions = z.array(z.strictObject({ code: z.string(), words: z.string() }));

export const KeepWorkedFigure = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: CalculationName, given: figuresGiven, note: words(300).optional() }),
    z.strictObject({ kind: PaneName, given: z.record(z.string().max(40), z.unknown()), note: words(300).optional() }),
  ])
  .meta({
    id: 'KeepWorkedFigure',
    examples: [
      { kind: 'port-timing', given: calculationExamples['port-timing'], note: 'As measured, before any work' },
    ],
  });
export type KeepWorkedFigure = z.infer<typeof KeepWorkedFigure>;

/** A calculation as it was kept: what was given and what this server worked out then. */
const kept = {
  id: Id,
  kind: z.string(),
  given: Given,
  figures: writtenFigures,
  rows,
  cautions,
  note: z.string(),
  by: Named,
  at: Instant,
};

export const WorkedFigure = z
  .strictObject({
    ...kept,
    /** null: it stands. */
    struck: z.strictObject({ reason: z.string(), by: Named, at: Instant }).nullable(),
  })
  .meta({ id: 'WorkedFigure' });
export type WorkedFigure = z.infer<typeof WorkedFigure>;

export const WorkedFigures = z.strictObject({ items: z.array(WorkedFigure) }).meta({ id: 'WorkedFigures' });
export type WorkedFigures = z.infer<typeof WorkedFigures>;

/** One that stands, for the build sheet. */
export const StandingFigure = z.strictObject(kept).meta({ id: 'StandingFigure' });

export const StrikeWorkedFigure = z
  .strictObject({ reason: someWords(300) })
  .meta({ id: 'StrikeWorkedFigure', examples: [{ reason: 'Measured from the gasket, not from the edge' }] });
