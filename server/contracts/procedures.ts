import { z } from 'zod';
import { facts, hazards, readingRounds } from '#domain/procedures/document.ts';
import { Id, Instant, pageOf } from './wire.ts';

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

export const StepCaution = z.strictObject({ hazard: z.enum(hazards), words: z.string() }).meta({ id: 'StepCaution' });

/** What a step stands on: a fact of the job, or the answer to a question an earlier step asks. */
export const StepCondition = z
  .union([
    z.strictObject({ fact: z.enum(facts), oneOf: z.array(z.string()) }),
    z.strictObject({ question: z.string(), oneOf: z.array(z.string()) }),
  ])
  .meta({ id: 'StepCondition' });
export type StepCondition = z.infer<typeof StepCondition>;

/** Which dimension a step has measured, and when. */
export const reading = { dimension: z.string(), round: z.enum(readingRounds) };

/** What a step is, in a version of its procedure and in a run of it. */
export const stepFields = {
  id: Id,
  ordinal: z.int(),
  section: z.string(),
  title: z.string(),
  words: z.string(),
  cautions: z.array(StepCaution),
  /** Another person than the one who did it has to mark it too; the work stops here until then. */
  secondPerson: z.boolean(),
  /** The engine is turned over in it: it waits while something may be inside. */
  turnsEngine: z.boolean(),
  fastenerSet: z.string().nullable(),
  /** What a photograph taken here has to show; empty: none is asked for. */
  photo: z.string(),
  /** Rags and plugs this step puts in. */
  putIn: z.array(z.strictObject({ name: z.string(), count: z.int(), where: z.string() })),
  asks: z
    .strictObject({
      code: z.string(),
      words: z.string(),
      choices: z.array(z.strictObject({ code: z.string(), words: z.string() })),
    })
    .nullable(),
  onlyIf: z.array(StepCondition),
};

export const ProcedureVersion = z
  .strictObject({
    id: Id,
    procedure: z.strictObject({ id: Id, code: z.string(), name: z.string(), kind: z.enum(procedureKinds) }),
    number: z.int(),
    publishedAt: Instant.nullable(),
    note: z.string(),
    steps: z.array(
      z.strictObject({ ...stepFields, readings: z.array(z.strictObject(reading)), pieces: z.array(StepPiece) }),
    ),
  })
  .meta({ id: 'ProcedureVersion' });
export type ProcedureVersion = z.infer<typeof ProcedureVersion>;
