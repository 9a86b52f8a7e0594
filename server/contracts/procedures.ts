import { z } from 'zod';
import { Id, Instant, Named, pageOf, words } from './wire.ts';

export const procedureKinds = ['strip', 'assemble', 'prove'] as const;
export const Layer = z.enum(['cover', 'head', 'cylinder', 'case']);

/** A procedure with the newest version of it that is published. */
export const ProcedureInList = z
  .strictObject({
    id: Id,
    code: z.string(),
    name: z.string(),
    kind: z.enum(procedureKinds),
    familyId: Id,
    versionId: Id,
    version: z.int(),
    steps: z.int(),
  })
  .meta({ id: 'ProcedureInList' });
export type ProcedureInList = z.infer<typeof ProcedureInList>;
export const ProcedurePage = pageOf(ProcedureInList).meta({ id: 'ProcedurePage' });
export type ProcedurePage = z.infer<typeof ProcedurePage>;

export const StepPiece = z
  .strictObject({
    id: Id,
    name: z.string(),
    expected: z.int(),
    fromWhere: z.string(),
    why: z.string(),
    layer: Layer.nullable(),
    oneTime: z.boolean(),
    matchedSet: z.string().nullable(),
  })
  .meta({ id: 'StepPiece' });

const stepFields = {
  id: Id,
  ordinal: z.int(),
  title: z.string(),
  words: z.string(),
  caution: z.string(),
  /** Another person than the one who did it has to mark it too. */
  secondPerson: z.boolean(),
  fastenerSet: z.string().nullable(),
  dimensionCode: z.string().nullable(),
};

export const ProcedureVersion = z
  .strictObject({
    id: Id,
    procedure: z.strictObject({ id: Id, code: z.string(), name: z.string(), kind: z.enum(procedureKinds) }),
    number: z.int(),
    publishedAt: Instant.nullable(),
    note: z.string(),
    steps: z.array(z.strictObject({ ...stepFields, pieces: z.array(StepPiece) })),
  })
  .meta({ id: 'ProcedureVersion' });
export type ProcedureVersion = z.infer<typeof ProcedureVersion>;

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
  })
  .meta({ id: 'MarkStep', examples: [{ mark: 'done' }, { mark: 'skipped', reason: 'No fuel tank on this engine' }] });
export type MarkStep = z.infer<typeof MarkStep>;

/** A piece a step asks for, as it stands on the tally. `off` is null while its tray is being counted blind. */
export const RunPiece = StepPiece.extend({
  pieceId: Id.nullable(),
  counted: z.boolean(),
  off: z.int().nullable(),
  /** How many are neither off nor spoken for; null while its tray is being counted blind. */
  short: z.int().nullable(),
}).meta({ id: 'RunPiece' });
export type RunPiece = z.infer<typeof RunPiece>;

export const stepStandings = ['to do', 'waits for a second person', 'done', 'skipped'] as const;
export const RunStep = z
  .strictObject({
    ...stepFields,
    /** As the job's spec sheet calls the dimension; null: the step measures none, or the sheet has no such. */
    dimensionName: z.string().nullable(),
    standing: z.enum(stepStandings),
    next: z.boolean(),
    marks: z.array(z.strictObject({ mark: z.enum(marks), reason: z.string(), by: Named, at: Instant })),
    pieces: z.array(RunPiece),
  })
  .meta({ id: 'RunStep' });
export type RunStep = z.infer<typeof RunStep>;

export const ProcedureRun = z
  .strictObject({
    id: Id,
    versionId: Id,
    procedure: z.strictObject({ id: Id, code: z.string(), name: z.string(), kind: z.enum(procedureKinds) }),
    version: z.int(),
    startedAt: Instant,
    startedBy: Named,
    steps: z.array(RunStep),
    /** Pieces of steps not skipped that are short now, by name. */
    shortPieces: z.array(z.strictObject({ stepId: Id, name: z.string(), short: z.int() })),
  })
  .meta({ id: 'ProcedureRun' });
export type ProcedureRun = z.infer<typeof ProcedureRun>;
export const ProcedureRuns = z.strictObject({ items: z.array(ProcedureRun) }).meta({ id: 'ProcedureRuns' });

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
export const Made = z.strictObject({ id: Id }).meta({ id: 'Made' });
