import { z } from 'zod';
import { procedureKinds, reading, StepPiece, stepFields } from './procedures.ts';
import { Id, Instant, Named, someWords, words } from './wire.ts';

export const StartRun = z
  .strictObject({ versionId: Id })
  .meta({ id: 'StartRun', examples: [{ versionId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b' }] });
export type StartRun = z.infer<typeof StartRun>;

export const marks = ['done', 'skipped', 'second person'] as const;
export const MarkStep = z
  .strictObject({
    mark: z.enum(marks),
    /** Needed when a step is skipped. */
    reason: words(500).optional(),
    /** Why a step that asks for a photo is done without one. */
    noPhoto: words(300).optional(),
  })
  .meta({
    id: 'MarkStep',
    examples: [
      { mark: 'done' },
      { mark: 'done', noPhoto: 'The camera’s battery is flat' },
      { mark: 'skipped', reason: 'No fuel tank on this engine' },
    ],
  });
export type MarkStep = z.infer<typeof MarkStep>;

/** A piece a step asks for, as it stands on the tally. `off` is null while its tray is being counted blind. */
export const RunPiece = StepPiece.extend({
  /** The places of the rack its pieces are kept in, in order; none: it is not kept in order. */
  places: z.array(z.strictObject({ code: z.string(), name: z.string(), side: z.enum(['', 'intake', 'exhaust']) })),
  pieceId: Id.nullable(),
  counted: z.boolean(),
  off: z.int().nullable(),
  /** How many are neither off nor spoken for; null while its tray is being counted blind. */
  short: z.int().nullable(),
}).meta({ id: 'RunPiece' });
export type RunPiece = z.infer<typeof RunPiece>;

export const stepStandings = [
  'to do',
  'waits for a second person',
  'done',
  'skipped',
  /** A fact of the job or an answer speaks against it. */
  'left out',
  /** What it stands on was not answered yet. */
  'not known yet',
] as const;
export const RunStep = z
  .strictObject({
    ...stepFields,
    /** As the job’s spec sheet has it; null: the step names none, or the sheet has no such set. */
    fastenerSetName: z.string().nullable(),
    /** Required before the step is done; `name` as the job’s spec sheet has it, null: the sheet has no such dimension. */
    readings: z.array(z.strictObject({ ...reading, name: z.string().nullable(), measured: z.boolean() })),
    standing: z.enum(stepStandings),
    /** In words, of a step left out or not known yet. */
    because: z.string().nullable(),
    next: z.boolean(),
    /** How often the step was begun: 2 when it was asked to be done again once. */
    round: z.int(),
    /** Of all rounds, oldest first. */
    marks: z.array(
      z.strictObject({
        mark: z.enum(marks),
        round: z.int(),
        reason: z.string(),
        noPhoto: z.string(),
        by: Named,
        at: Instant,
      }),
    ),
    /** Photos of it that stand, taken since its newest round began. */
    photos: z.int(),
    redos: z.array(z.strictObject({ round: z.int(), reason: z.string(), by: Named, at: Instant })),
    /** Oldest first; the last one stands. */
    answers: z.array(z.strictObject({ choice: z.string(), reason: z.string(), by: Named, at: Instant })),
    pieces: z.array(RunPiece),
  })
  .meta({ id: 'RunStep' });
export type RunStep = z.infer<typeof RunStep>;

export const RunInterruption = z
  .strictObject({
    id: Id,
    stepId: Id,
    why: z.string(),
    loose: z.string(),
    by: Named,
    at: Instant,
    resumed: z.strictObject({ by: Named, at: Instant }).nullable(),
  })
  .meta({ id: 'RunInterruption' });
export type RunInterruption = z.infer<typeof RunInterruption>;

export const ProcedureRun = z
  .strictObject({
    id: Id,
    versionId: Id,
    procedure: z.strictObject({ id: Id, code: z.string(), name: z.string(), kind: z.enum(procedureKinds) }),
    version: z.int(),
    startedAt: Instant,
    startedBy: Named,
    steps: z.array(RunStep),
    /** Of the steps that stand, or may: how many are done or skipped. */
    settled: z.int(),
    all: z.int(),
    /** The stop point that holds the work: what comes after it waits. */
    heldAtStepId: Id.nullable(),
    /** Oldest first; while the last one is not resumed, no step is marked. */
    interruptions: z.array(RunInterruption),
    /** Pieces of steps not skipped that are short now, by name. */
    shortPieces: z.array(z.strictObject({ stepId: Id, name: z.string(), short: z.int() })),
  })
  .meta({ id: 'ProcedureRun' });
export type ProcedureRun = z.infer<typeof ProcedureRun>;
export const ProcedureRuns = z.strictObject({ items: z.array(ProcedureRun) }).meta({ id: 'ProcedureRuns' });

export const AnswerStep = z
  .strictObject({
    choice: someWords(40),
    /** Needed when it changes an earlier answer. */
    reason: words(500).optional(),
  })
  .meta({ id: 'AnswerStep', examples: [{ choice: 'top-end' }] });
export type AnswerStep = z.infer<typeof AnswerStep>;

export const RedoStep = z
  .strictObject({ reason: someWords(500) })
  .meta({ id: 'RedoStep', examples: [{ reason: 'The gasket had slipped: head off and on again' }] });

export const InterruptRun = z
  .strictObject({
    /** Where the work was left; without it, the next step. */
    stepId: Id.optional(),
    why: someWords(300),
    /** What is loose, untorqued or half done; "nothing" where nothing is. */
    loose: someWords(500),
  })
  .meta({
    id: 'InterruptRun',
    examples: [{ why: 'End of my shift', loose: 'Two cam caps loosened, six still tight' }],
  });
export type InterruptRun = z.infer<typeof InterruptRun>;

/** A step somebody did that waits for another person's mark. */
export const StopPoint = z
  .strictObject({
    runId: Id,
    stepId: Id,
    ordinal: z.int(),
    title: z.string(),
    procedure: z.string(),
    job: z.strictObject({ id: Id, number: z.int() }),
    engine: z.strictObject({ id: Id, serial: z.string() }),
    doneBy: Named,
    doneAt: Instant,
  })
  .meta({ id: 'StopPoint' });
export type StopPoint = z.infer<typeof StopPoint>;
export const StopPoints = z.strictObject({ items: z.array(StopPoint) }).meta({ id: 'StopPoints' });

/** Says in the reply which mark was set. */
export const Marked = z.strictObject({ id: Id, standing: z.enum(stepStandings) }).meta({ id: 'Marked' });
