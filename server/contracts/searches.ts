import { z } from 'zod';
import { JobName } from './parts.ts';
import { Id, Instant, Named, RackPlaces, someWords, words } from './wire.ts';

const exampleId = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b';

/** The search for a piece, rag or plug that may be inside. While one is open, nobody turns the engine over. */
export const Search = z
  .strictObject({
    id: Id,
    openingId: Id,
    jobId: Id,
    engineId: Id,
    serial: z.string(),
    obligationId: Id,
    /** What is looked for: its name and where it belongs. */
    what: z.string(),
    /** How many are still missing; null while its tray is counted blind. */
    missing: z.int().nullable(),
    openedAt: Instant,
    openedBy: Named,
    steps: z.array(
      z.strictObject({
        code: z.string(),
        title: z.string(),
        words: z.string(),
        caution: z.string(),
        /** Done only when nothing else has found it. */
        lastResort: z.boolean(),
        ticked: z.strictObject({ by: Named, at: Instant, words: z.string() }).nullable(),
      }),
    ),
    ended: z
      .strictObject({ outcome: z.enum(['found', 'not inside']), by: Named, at: Instant, reason: z.string() })
      .nullable(),
  })
  .meta({ id: 'Search', description: 'Ends when it is found, or when a lead decides by name that it is not inside' });
export type Search = z.infer<typeof Search>;

export const Searches = z.strictObject({ items: z.array(Search) }).meta({ id: 'Searches' });
export type Searches = z.infer<typeof Searches>;

export const TickSearch = z
  .strictObject({ step: someWords(40), words: words(300).optional() })
  .meta({ id: 'TickSearch', examples: [{ step: 'magnet', words: 'Chain tunnel and sump: nothing came' }] });
export type TickSearch = z.infer<typeof TickSearch>;

export const DecideSearch = z.strictObject({ reason: someWords(500) }).meta({
  id: 'DecideSearch',
  examples: [{ reason: 'Borescope pictures show every corner; the owner had a spare ring missing before' }],
});

export const PutInKind = z.enum(['rag', 'plug', 'tool', 'other']);

/** Something put into an open engine: where, how many, by whom, and what has come out again. */
export const PutInThing = z
  .strictObject({
    id: Id,
    kind: PutInKind,
    name: z.string(),
    where: z.string(),
    count: z.int(),
    stillIn: z.int(),
    /** Not found when it was to be taken out: it may be inside, and a search is open. */
    notFound: z.int(),
    by: Named,
    at: Instant,
    acts: z.array(
      z.strictObject({
        act: z.enum(['taken out', 'not found', 'found', 'not inside']),
        count: z.int(),
        reason: z.string(),
        by: Named,
        at: Instant,
      }),
    ),
  })
  .meta({ id: 'PutInThing' });
export type PutInThing = z.infer<typeof PutInThing>;

export const PutIn = z
  .strictObject({
    kind: PutInKind,
    /** "Blue rag"; the kind when left out. */
    name: someWords(120).optional(),
    where: someWords(200),
    count: z.int().min(1).max(99),
  })
  .meta({ id: 'PutIn', examples: [{ kind: 'rag', where: 'under the piston, in the case mouth', count: 1 }] });
export type PutIn = z.infer<typeof PutIn>;

export const TakeOut = z
  .strictObject({ count: z.int().min(1).max(99), reason: words(500).optional() })
  .meta({ id: 'TakeOut', examples: [{ count: 1 }] });
export const NotFound = z
  .strictObject({ count: z.int().min(1).max(99), reason: someWords(500) })
  .meta({ id: 'NotFound', examples: [{ count: 1, reason: 'Gone from the intake port, perhaps down the runner' }] });
export const PutInChange = z.strictObject({ thing: PutInThing, searchId: Id.nullable() }).meta({ id: 'PutInChange' });
export type PutInChange = z.infer<typeof PutInChange>;

/** The closing check: the tally in reverse order of removal, each line ticked by another person than who worked on it. */
export const ClosingCheck = z
  .strictObject({
    openingId: Id,
    lines: z.array(
      z.strictObject({
        /** A piece line or something put in. */
        id: Id,
        kind: z.enum(['piece', 'put in']),
        name: z.string(),
        /** "8 back on", "1 renewed, 1 kept for the owner": what the checker has to see. Null while counted blind. */
        words: z.string().nullable(),
        /**
         * Where pieces of it lie that are still loose: the tray (null: beside the engine), how many, and of a set kept in
         * order from which places. Counts and places are null while it is counted blind.
         */
        lying: z.array(
          z.strictObject({
            tray: Named.nullable(),
            count: z.int().nullable(),
            places: z.array(z.string()).nullable(),
          }),
        ),
        /** Neither loose, missing nor still in: it can be checked. */
        ready: z.boolean(),
        /** Who put it back, took it out, accounted for it, or changed the places of its rack: none of them ticks it. */
        doneBy: z.array(Named),
        ticked: z.strictObject({ by: Named, at: Instant }).nullable(),
        /** The next to be ticked. */
        next: z.boolean(),
      }),
    ),
    left: z.int(),
  })
  .meta({ id: 'ClosingCheck' });
export type ClosingCheck = z.infer<typeof ClosingCheck>;

export const TickLines = z
  .strictObject({ lines: z.array(Id).min(1).max(200) })
  .meta({ id: 'TickLines', examples: [{ lines: [exampleId] }] });
export type TickLines = z.infer<typeof TickLines>;

/** The places of a line that is kept in order: where each piece came from and where it lies or went. */
export const Rack = z
  .strictObject({
    pieceId: Id,
    name: z.string(),
    fromWhere: z.string(),
    oneTime: z.boolean(),
    /** Off, and neither back on, renewed nor accounted for; null while its tray is counted blind. */
    loose: z.int().nullable(),
    /** The trays its loose pieces lie in, and how many in each; `tray` null: beside the engine. */
    lying: z.array(z.strictObject({ tray: Named.nullable(), count: z.int().nullable() })),
    places: z.array(
      z.strictObject({
        code: z.string(),
        name: z.string(),
        side: z.enum(['', 'intake', 'exhaust']),
        /** Whether a piece lies in it; null while its tray is counted blind. */
        filled: z.boolean().nullable(),
        /** The tray its piece lies in; null: beside the engine, nothing lies in it, or it is not told. */
        tray: Named.nullable(),
        /** Who filled or emptied it last; null: it never was. */
        since: z.strictObject({ by: Named, at: Instant }).nullable(),
        /** The place whose piece lies here now; its own code when it is where it belongs. */
        from: z.string(),
        fromName: z.string(),
        swapped: z.strictObject({ reason: z.string(), by: Named, at: Instant }).nullable(),
      }),
    ),
  })
  .meta({ id: 'Rack' });
export type Rack = z.infer<typeof Rack>;
/** One rack by its label, and whose it is. */
export const RackInShop = Rack.extend({
  job: JobName,
  openingId: Id,
  /** Null: its engine is still open. */
  closedAt: Instant.nullable(),
}).meta({ id: 'RackInShop' });
export type RackInShop = z.infer<typeof RackInShop>;
export const Racks = z.strictObject({ items: z.array(Rack) }).meta({ id: 'Racks' });
export type Racks = z.infer<typeof Racks>;

export const SwapPlaces = z.strictObject({ one: someWords(24), other: someWords(24), reason: someWords(500) }).meta({
  id: 'SwapPlaces',
  examples: [{ one: 'in-l', other: 'in-r', reason: 'shims chosen across: the left bucket measured right' }],
});
export type SwapPlaces = z.infer<typeof SwapPlaces>;

/** Which places pieces lie in, and which are empty, by their codes; nothing goes on or off the engine. */
export const FillRack = z
  .strictObject({
    filled: RackPlaces.optional(),
    emptied: RackPlaces.optional(),
    /** The tray the filled ones lie in, null: beside the engine; needed only when loose ones lie in several. */
    trayId: Id.nullable().optional(),
  })
  .meta({ id: 'FillRack', examples: [{ filled: ['in-l', 'in-r'] }] });
export type FillRack = z.infer<typeof FillRack>;

export const LookAtOpening = z
  .strictObject({ covered: z.boolean(), words: words(300).optional() })
  .meta({ id: 'LookAtOpening', examples: [{ covered: true, words: 'cloth tight, nothing loose' }] });
export type LookAtOpening = z.infer<typeof LookAtOpening>;
