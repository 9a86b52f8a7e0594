import { z } from 'zod';
import { OpenVoice } from './opening-rules.ts';
import { Layer } from './procedures.ts';
import { PutInThing } from './searches.ts';
import { Id, Instant, Named, RackPlaces, someWords, words } from './wire.ts';

const Count = z.int().min(0).max(9999);
const CountOfSome = z.int().min(1).max(9999);

const exampleId = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b';
const exampleTray = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c';

/** A line the procedure does not know: a piece found on this engine, or a rag or plug put in (`fromWhere`: "put in"). */
export const PieceByHand = z
  .strictObject({
    name: someWords(120),
    fromWhere: words(200).optional(),
    why: words(200).optional(),
    /** How many there should be; as many as were counted when left out. */
    expected: Count.optional(),
    layer: Layer.optional(),
    oneTime: z.boolean().optional(),
    matchedSet: someWords(60).optional(),
  })
  .meta({ id: 'PieceByHand' });
export type PieceByHand = z.infer<typeof PieceByHand>;

/** Of a line kept in order, the places of its rack these pieces lie in; needed when some of a set go. */
const places = RackPlaces.optional();

export const CountOff = z
  .strictObject({
    pieces: z
      .array(
        z.union([
          z.strictObject({ stepPieceId: Id, count: Count, places }),
          z.strictObject({ pieceId: Id, count: Count, places }),
          z.strictObject({ byHand: PieceByHand, count: Count, places }),
        ]),
      )
      .min(1)
      .max(60),
    /** The tray they go into; without one they stay with the engine. */
    trayId: Id.optional(),
    /** Needed when more come off than are expected. */
    reason: words(500).optional(),
  })
  .meta({
    id: 'CountOff',
    examples: [
      { pieces: [{ stepPieceId: exampleId, count: 8 }], trayId: exampleTray },
      { pieces: [{ byHand: { name: 'rag', fromWhere: 'put in', why: 'keeps the case clean' }, count: 1 }] },
    ],
  });
export type CountOff = z.infer<typeof CountOff>;

/** Out of which tray they come (null: from beside the engine); needed only when they lie in several and not all go. */
const fromTrayId = Id.nullable().optional();

const takenPieces = z
  .array(z.strictObject({ pieceId: Id, count: CountOfSome, fromTrayId, places }))
  .min(1)
  .max(100);

const somePieces = z
  .array(z.strictObject({ pieceId: Id, count: CountOfSome, places }))
  .min(1)
  .max(100);

const explainedPieces = z
  .array(z.strictObject({ pieceId: Id, count: CountOfSome }))
  .min(1)
  .max(100);

/** Pieces that were missing and have turned up. */
export const FindPieces = z.strictObject({ pieces: somePieces, trayId: Id.optional(), reason: someWords(500) }).meta({
  id: 'FindPieces',
  examples: [{ pieces: [{ pieceId: exampleId, count: 1 }], reason: 'It was in the head, second dowel hole' }],
});
/** Back on, the same or new. */
export const PutBack = z
  .strictObject({ pieces: takenPieces, reason: words(500).optional() })
  .meta({ id: 'PutBack', examples: [{ pieces: [{ pieceId: exampleId, count: 8 }] }] });
/** Pieces that don't go back on: where they are, by name. */
export const AccountForPieces = z.strictObject({ pieces: takenPieces, reason: someWords(500) }).meta({
  id: 'AccountForPieces',
  examples: [{ pieces: [{ pieceId: exampleId, count: 1 }], reason: 'Kept for the owner in bag 2418·6' }],
});
/** Said by name, with a reason: never there or possibly inside. */
export const ExplainPieces = z.strictObject({ pieces: explainedPieces, reason: someWords(500) }).meta({
  id: 'ExplainPieces',
  examples: [{ pieces: [{ pieceId: exampleId, count: 1 }], reason: 'The stud hole never had a dowel, photo taken' }],
});
/** So many of some lines (all that lie elsewhere when no count is said) into another tray or bag; null: beside the engine. */
export const MovePieces = z
  .strictObject({
    pieces: z
      .array(z.strictObject({ pieceId: Id, count: CountOfSome.optional(), fromTrayId, places }))
      .min(1)
      .max(100),
    trayId: Id.nullable(),
    reason: words(500).optional(),
  })
  .meta({
    id: 'MovePieces',
    examples: [{ pieces: [{ pieceId: exampleId, count: 2 }], trayId: exampleTray, reason: 'sorted into bags' }],
  });

/** What a write on the tally answers: the lines as they stand now, and what it opened or ended. */
export const TallyChange = z
  .strictObject({
    pieces: z.array(
      z.strictObject({ id: Id, name: z.string(), expected: z.int(), off: z.int(), loose: z.int(), missing: z.int() }),
    ),
    obligationsOpened: z.array(Id),
    obligationsDischarged: z.array(Id),
  })
  .meta({ id: 'TallyChange' });
export type TallyChange = z.infer<typeof TallyChange>;

export const SetCover = z
  .strictObject({ covered: z.boolean() })
  .meta({ id: 'SetCover', examples: [{ covered: true }] });

/** One line of the tally. Counts are null (`hidden`) while its tray waits for a receiver's blind count. */
export const TallyPiece = z
  .strictObject({
    id: Id,
    stepPieceId: Id.nullable(),
    name: z.string(),
    fromWhere: z.string(),
    why: z.string(),
    layer: Layer.nullable(),
    oneTime: z.boolean(),
    matchedSet: z.string().nullable(),
    expected: z.int().nullable(),
    hidden: z.boolean(),
    off: z.int().nullable(),
    fitted: z.int().nullable(),
    renewed: z.int().nullable(),
    accounted: z.int().nullable(),
    loose: z.int().nullable(),
    missing: z.int().nullable(),
    /** Of the missing, so many were declared possibly inside: while it is not 0 nobody turns the engine over. */
    inside: z.int().nullable(),
    /** Where its loose pieces lie; `tray` null: with the engine, in no tray. */
    lying: z.array(z.strictObject({ tray: Named.nullable(), count: z.int().nullable() })),
  })
  .meta({ id: 'TallyPiece' });
export type TallyPiece = z.infer<typeof TallyPiece>;

export const Opening = z
  .strictObject({
    id: Id,
    jobId: Id,
    engineId: Id,
    openedAt: Instant,
    openedBy: Named,
    closedAt: Instant.nullable(),
    closedBy: Named.nullable(),
    closingNote: z.string(),
    /** How far open; null once it is closed. */
    depth: Layer.nullable(),
    covered: z.boolean(),
    coveredSince: Instant.nullable(),
    minutesOpen: z.int(),
    /** Who did the last act at the open engine, and what kind of event it was; null once it is closed. */
    seen: z.strictObject({ by: Named, at: Instant, words: z.string() }).nullable(),
    /** Why it raises its voice now, the worst first. */
    voices: z.array(OpenVoice),
    /** Rags, plugs and tools put in, the latest first. */
    putIn: z.array(PutInThing),
    pieces: z.array(TallyPiece),
    /** By tray; `tray` null: with the engine, in no tray. Sums are null while the tray is counted blind. */
    trays: z.array(z.strictObject({ tray: Named.nullable(), lines: z.int(), loose: z.int().nullable() })),
    /** By step of the strip procedures that run on this job, pieces not counted yet included. */
    steps: z.array(
      z.strictObject({
        stepId: Id,
        ordinal: z.int(),
        title: z.string(),
        expected: z.int().nullable(),
        off: z.int().nullable(),
      }),
    ),
    /** Matched sets of which some pieces went back on and others were renewed. */
    brokenSets: z.array(
      z.strictObject({ matchedSet: z.string(), fitted: z.array(z.string()), renewed: z.array(z.string()) }),
    ),
  })
  .meta({ id: 'Opening' });
export type Opening = z.infer<typeof Opening>;

/** One thing that keeps the opening from being closed. `count` is null while its tray is counted blind. */
export const ReasonAgainstClosing = z
  .strictObject({
    kind: z.enum([
      'layer-off',
      'piece-loose',
      'piece-missing',
      'obligation-open',
      'torque-incomplete',
      'ring-not-placed',
      'ring-against-rule',
      'rings-unsigned',
      'lash-not-verified',
      'lash-undecided',
      'lash-out',
      'procedure-left',
      'assembly-unfinished',
      'stop-unsigned',
      'may-be-inside',
      'put-in-still-in',
      'not-checked',
    ]),
    /** A sentence: what and how many. */
    words: z.string(),
    /** What it is about: a piece, an obligation, a step; a code for a fastener set, ring or valve; a layer. */
    subject: z.string(),
    count: z.int().nullable(),
    stage: z.int().optional(),
    positions: z.array(z.int()).optional(),
    /** The page where it is mended. */
    href: z.string(),
  })
  .meta({ id: 'ReasonAgainstClosing' });
export type ReasonAgainstClosing = z.infer<typeof ReasonAgainstClosing>;

export const Closing = z
  .strictObject({
    openingId: Id,
    mayClose: z.boolean(),
    reasons: z.array(ReasonAgainstClosing),
    closed: z
      .strictObject({
        by: Named,
        at: Instant,
        /** A lead's reason for closing it over what stood against it, and what that was; null: nothing did. */
        override: z.strictObject({ words: z.string(), reasons: z.array(z.string()) }).nullable(),
      })
      .nullable()
      .describe('Who closed it and signed for it, and when'),
  })
  .meta({ id: 'Closing' });
export type Closing = z.infer<typeof Closing>;

export const CloseOpening = z
  .strictObject({
    note: words(500).optional(),
    /** A lead's reason for closing although something is still against it; kept with the opening, printed on the build sheet. */
    override: someWords(500).optional(),
  })
  .meta({ id: 'CloseOpening', examples: [{ note: 'Turned over by hand twice, free' }] });
export const Closed = z.strictObject({ id: Id, closedAt: Instant, minutesOpen: z.int() }).meta({ id: 'Closed' });
export type Closed = z.infer<typeof Closed>;
