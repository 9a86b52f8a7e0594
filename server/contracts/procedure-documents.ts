import { z } from 'zod';
import { facts, hazards, readingRounds } from '#domain/procedures/document.ts';
import { Layer, procedureKinds } from './procedures.ts';
import { Id, Instant, Named, someWords, words } from './wire.ts';

/** Letters, digits and dashes: written by hand, sorted and searched. */
const Code = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9-]{0,39}$/, 'needs letters, digits and dashes, 40 at most');
const values = z.array(someWords(60)).max(20);

const Condition = z.union([
  z.strictObject({ fact: z.enum(facts), oneOf: values }),
  z.strictObject({ question: Code, oneOf: values }),
]);

const Step = z
  .strictObject({
    section: words(80),
    title: words(120),
    words: words(2000),
    cautions: z.array(z.strictObject({ hazard: z.enum(hazards), words: someWords(500) })).max(10),
    pieces: z
      .array(
        z.strictObject({
          name: words(120),
          expected: z.int().min(1).max(999),
          from: words(120),
          why: words(200),
          layer: Layer.nullable(),
          oneTime: z.boolean(),
          matchedSet: someWords(80).nullable(),
        }),
      )
      .max(60),
    putIn: z.array(z.strictObject({ name: words(120), count: z.int().min(1).max(99), where: words(120) })).max(10),
    fastenerSet: someWords(40).nullable(),
    readings: z.array(z.strictObject({ dimension: someWords(60), round: z.enum(readingRounds) })).max(40),
    secondPerson: z.boolean(),
    /** The engine is turned over in it; left out: it is not. */
    turnsEngine: z.literal(true).optional(),
    photo: words(300),
    asks: z
      .strictObject({
        code: Code,
        words: someWords(200),
        choices: z.array(z.strictObject({ code: Code, words: someWords(120) })).max(12),
      })
      .nullable(),
    onlyIf: z.array(Condition).max(10),
  })
  .meta({ id: 'WrittenStep' });

const example = {
  shape: 1,
  code: 'H355-CHAIN',
  name: 'Look at the cam chain, Halden 355',
  kind: 'strip',
  family: 'H355',
  note: 'The maker’s manual, local rules and qualified people decide.',
  steps: [
    {
      section: 'Look',
      title: 'Cover off to see the chain',
      words: 'Cover bolts criss-cross, cover straight up.',
      cautions: [{ hazard: 'hot parts', words: 'Engine cold to the hand.' }],
      pieces: [
        {
          name: 'Cover bolt',
          expected: 4,
          from: 'valve cover',
          why: '',
          layer: null,
          oneTime: false,
          matchedSet: null,
        },
      ],
      putIn: [{ name: 'rag', count: 1, where: 'chain tunnel' }],
      fastenerSet: 'cover-bolts',
      readings: [],
      secondPerson: false,
      photo: 'Chain and both sprockets from above',
      asks: {
        code: 'chain',
        words: 'How is the chain?',
        choices: [
          { code: 'tight', words: 'Tight, every link free' },
          { code: 'slack', words: 'Slack, or a stiff link' },
        ],
      },
      onlyIf: [],
    },
    {
      section: 'Look',
      title: 'Chain to be renewed: tell the counter',
      words: 'Say what was found, so that it is quoted.',
      cautions: [],
      pieces: [],
      putIn: [],
      fastenerSet: null,
      readings: [],
      secondPerson: false,
      photo: '',
      asks: null,
      onlyIf: [{ question: 'chain', oneOf: ['slack'] }],
    },
  ],
};

/** A whole procedure in our documented shape (docs/procedures.md). */
export const ProcedureDocument = z
  .strictObject({
    shape: z.literal(1),
    code: Code,
    name: someWords(120),
    kind: z.enum(procedureKinds),
    family: someWords(12),
    note: words(500),
    steps: z.array(Step).max(200),
  })
  .meta({ id: 'ProcedureDocument', examples: [example] });
export type ProcedureDocument = z.infer<typeof ProcedureDocument>;

const ProcedureFault = z
  .strictObject({
    /** JSON pointer into the document. */
    pointer: z.string(),
    /** The step it is in, counted from 1; null: the procedure as a whole. */
    step: z.int().nullable(),
    field: z.string(),
    detail: z.string(),
  })
  .meta({ id: 'ProcedureFault' });
/** What keeps a version from being published; none: nothing does. */
export const ProcedureFaults = z.strictObject({ items: z.array(ProcedureFault) }).meta({ id: 'ProcedureFaults' });
export type ProcedureFaults = z.infer<typeof ProcedureFaults>;

const Coded = z.strictObject({ code: z.string(), name: z.string() });
/** What a version's codes are called on the newest sheet of its family. */
export const ProcedureNames = z
  .strictObject({ dimensions: z.array(Coded), fastenerSets: z.array(Coded) })
  .meta({ id: 'ProcedureNames' });
export type ProcedureNames = z.infer<typeof ProcedureNames>;

/** Every version of every procedure, drafts too, newest first within a procedure. */
const VersionInList = z
  .strictObject({
    id: Id,
    number: z.int(),
    publishedAt: Instant.nullable(),
    draftedAt: Instant,
    by: Named.nullable(),
    note: z.string(),
    steps: z.int(),
    runs: z.int(),
    openRuns: z.int(),
  })
  .meta({ id: 'ProcedureVersionInList' });
export const ProcedureShelf = z
  .strictObject({
    items: z.array(
      z.strictObject({
        id: Id,
        code: z.string(),
        name: z.string(),
        kind: z.enum(procedureKinds),
        family: Named,
        versions: z.array(VersionInList),
      }),
    ),
  })
  .meta({ id: 'ProcedureShelf' });
export type ProcedureShelf = z.infer<typeof ProcedureShelf>;

/** The head of a new procedure; its first draft is empty. */
export const NewProcedure = z
  .strictObject({ code: Code, name: someWords(120), kind: z.enum(procedureKinds), familyId: Id })
  .meta({
    id: 'NewProcedure',
    examples: [
      {
        code: 'H355-FILTER',
        name: 'Oil filter, Halden 355',
        kind: 'strip',
        familyId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b',
      },
    ],
  });
export type NewProcedure = z.infer<typeof NewProcedure>;

export const DraftMade = z
  .strictObject({ id: Id, procedureId: Id, number: z.int(), edit: z.int() })
  .meta({ id: 'ProcedureDrafted' });
export type DraftMade = z.infer<typeof DraftMade>;

/** What was kept, and what still keeps it from being published. */
export const ProcedureKept = z
  .strictObject({ edit: z.int(), steps: z.int(), faults: z.array(ProcedureFault) })
  .meta({ id: 'ProcedureKept' });
export type ProcedureKept = z.infer<typeof ProcedureKept>;

export const ProcedurePublished = z
  .strictObject({ number: z.int(), publishedAt: Instant })
  .meta({ id: 'ProcedurePublished' });
export type ProcedurePublished = z.infer<typeof ProcedurePublished>;
