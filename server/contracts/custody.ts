import { z } from 'zod';
import { Layer } from './procedures.ts';
import { Day, Id, Instant, Named, pageOf, someWords, words } from './wire.ts';

const exampleId = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b';
const exampleOther = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5c';
const Count = z.int().min(0).max(9999);

export const NewTray = z
  .strictObject({
    label: z
      .string()
      .regex(/^[\p{L}\p{N}][\p{L}\p{N} ·.\-/]{0,23}$/u, 'must be up to 24 letters, digits, spaces, dots or dashes')
      .optional(),
    name: someWords(120),
    /** A head or cylinder that travels alone. */
    alone: z.boolean().optional(),
    layer: Layer.optional(),
  })
  .meta({
    id: 'NewTray',
    examples: [{ name: 'Cam caps, dowels, chain' }, { name: 'Cylinder', alone: true, layer: 'cylinder' }],
  });
export type NewTray = z.infer<typeof NewTray>;

export const HolderKind = z.enum(['person', 'bay', 'vendor', 'owner']);
/** Who answers for it, and the bay it is in (none when a vendor or the owner has it). */
export const HeldBy = z
  .strictObject({ kind: HolderKind, id: Id, name: z.string(), place: Named.nullable(), since: Instant })
  .meta({ id: 'HeldBy' });
export type HeldBy = z.infer<typeof HeldBy>;

export const Tray = z
  .strictObject({
    id: Id,
    label: z.string(),
    name: z.string(),
    alone: z.boolean(),
    layer: Layer.nullable(),
    madeAt: Instant,
    emptiedAt: Instant.nullable(),
    held: HeldBy.nullable(),
    /** The handover it is offered in, while it is. */
    offeredIn: Id.nullable(),
    /** Loose pieces in it; `count` is null while a receiver is to count them blind. */
    pieces: z.array(z.strictObject({ pieceId: Id, name: z.string(), count: z.int().nullable() })),
  })
  .meta({ id: 'Tray' });
export type Tray = z.infer<typeof Tray>;
export const Trays = z
  .strictObject({
    items: z.array(Tray),
    /** Loose pieces beside the engine in no tray: counted whenever the engine itself changes hands. */
    withEngine: Tray.shape.pieces,
  })
  .meta({ id: 'Trays' });
export type Trays = z.infer<typeof Trays>;
/** A tray of an engine in the shop, without what is in it. */
export const TrayInShop = z
  .strictObject({
    id: Id,
    label: z.string(),
    name: z.string(),
    alone: z.boolean(),
    job: z.strictObject({ id: Id, number: z.int() }),
    engine: z.strictObject({ id: Id, serial: z.string() }),
    held: HeldBy.nullable(),
    offeredIn: Id.nullable(),
  })
  .meta({ id: 'TrayInShop' });
export type TrayInShop = z.infer<typeof TrayInShop>;
export const TraysInShop = z
  .strictObject({ items: z.array(TrayInShop) })
  .meta({ id: 'TraysInShop', description: 'Every tray in use, by job' });
export type TraysInShop = z.infer<typeof TraysInShop>;
export const TrayMade = z.strictObject({ id: Id, label: z.string() }).meta({ id: 'TrayMade' });

/**
 * What somebody counted of one piece in one tray. Every piece that is loose in a tray that moves has to be counted; when
 * the engine itself moves, those that lie beside it in no tray too, with the engine's id as their `trayId`.
 */
const counts = z
  .array(z.strictObject({ trayId: Id, pieceId: Id, counted: Count }))
  .max(400)
  .optional();
const moving = {
  /** Whether the engine itself is moved; true when left out. */
  engine: z.boolean().optional(),
  trayIds: z.array(Id).max(60),
  counts,
  /** Goes on though a count differs. Each difference has its obligation from the first count on, also when it is refused. */
  withDifference: z.boolean().optional(),
};

export const Take = z
  .strictObject({
    /** The bay where it rests. */
    bayId: Id,
    /** The bay where it is worked on, when that is another. */
    toBayId: Id.optional(),
    ...moving,
  })
  .meta({
    id: 'Take',
    examples: [
      { bayId: exampleId, trayIds: [exampleOther], counts: [{ trayId: exampleOther, pieceId: exampleId, counted: 8 }] },
    ],
  });
export type Take = z.infer<typeof Take>;

export const Leave = z
  .strictObject({ bayId: Id, ...moving })
  .meta({ id: 'Leave', examples: [{ bayId: exampleId, trayIds: [] }] });
export type Leave = z.infer<typeof Leave>;

export const Move = z
  .strictObject({
    to: z.union([z.strictObject({ personId: Id, bayId: Id }), z.strictObject({ bayId: Id })]),
    reason: someWords(500),
    ...moving,
  })
  .meta({
    id: 'Move',
    examples: [{ to: { bayId: exampleId }, reason: 'Nadia is ill, the bench is needed', trayIds: [] }],
  });
export type Move = z.infer<typeof Move>;

export const CountDifference = z
  .strictObject({ trayId: Id, tray: z.string(), piece: z.string(), given: z.int(), counted: z.int() })
  .meta({ id: 'CountDifference' });
export type CountDifference = z.infer<typeof CountDifference>;

export const Moved = z
  .strictObject({ differences: z.array(CountDifference), obligations: z.array(Id) })
  .meta({ id: 'Moved' });
export type Moved = z.infer<typeof Moved>;

export const CustodyQuery = z.object({
  /** Only who held what at this instant. */
  at: Instant.optional(),
  after: z.string().max(300).optional(),
  limit: z.coerce.number().int().min(1).max(200).optional(),
});
export const CustodyPeriod = z
  .strictObject({
    id: Id,
    subject: z.strictObject({ kind: z.enum(['engine', 'tray']), id: Id, name: z.string() }),
    holder: z.strictObject({ kind: HolderKind, id: Id, name: z.string() }),
    place: Named.nullable(),
    from: Instant,
    until: Instant.nullable(),
    reason: z.string(),
    movedBy: Named,
    handoverId: Id.nullable(),
  })
  .meta({ id: 'CustodyPeriod' });
export type CustodyPeriod = z.infer<typeof CustodyPeriod>;
export const CustodyPage = pageOf(CustodyPeriod).meta({ id: 'CustodyPage' });
export type CustodyPage = z.infer<typeof CustodyPage>;

export const OfferHandover = z
  .strictObject({
    receiverId: Id,
    /** The bay where the receiver will have it. */
    placeId: Id,
    includeEngine: z.boolean(),
    trayIds: z.array(Id).max(60),
    /** What is loose and not torqued. */
    looseWords: words(500).optional(),
  })
  .meta({
    id: 'OfferHandover',
    examples: [
      {
        receiverId: exampleId,
        placeId: exampleOther,
        includeEngine: true,
        trayIds: [],
        looseWords: 'Base studs, not torqued',
      },
    ],
  });
export type OfferHandover = z.infer<typeof OfferHandover>;

export const handoverOutcomes = ['accepted', 'accepted with a difference', 'declined', 'withdrawn'] as const;
const handoverHead = {
  id: Id,
  job: z.strictObject({ id: Id, number: z.int() }),
  engine: z.strictObject({ id: Id, serial: z.string() }),
  /** Whether the engine itself goes over, not only trays of it. */
  includesEngine: z.boolean(),
  giver: Named,
  receiver: Named,
  place: Named,
  stateWords: z.string(),
  looseWords: z.string(),
  offeredAt: Instant,
  /** By when the shop wants an answer; unanswered after that, it is overdue. */
  answerDueAt: Instant,
  outcome: z.enum(handoverOutcomes).nullable(),
  endedAt: Instant.nullable(),
  endedReason: z.string(),
};
export const HandoverInList = z
  .strictObject({ ...handoverHead, trays: z.int(), traysCounted: z.int() })
  .meta({ id: 'HandoverInList' });
export type HandoverInList = z.infer<typeof HandoverInList>;
export const HandoverPage = pageOf(HandoverInList).meta({ id: 'HandoverPage' });
export type HandoverPage = z.infer<typeof HandoverPage>;
export const HandoverQuery = z.object({
  /** `true`: those I give or receive. */
  mine: z.enum(['true', 'false']).optional(),
  /** `true`: those not answered yet. */
  open: z.enum(['true', 'false']).optional(),
  after: z.string().max(300).optional(),
  limit: z.coerce.number().int().min(1).max(200).optional(),
});
export type HandoverQuery = z.infer<typeof HandoverQuery>;

/** `given` is null until the receiver has counted the tray; the giver alone sees it before. */
export const HandoverLine = z
  .strictObject({
    lineId: Id,
    name: z.string(),
    counted: z.int().nullable(),
    given: z.int().nullable(),
    /** Of a set kept in order: the places of its rack whose pieces lay in this tray; null wherever `given` is. */
    places: z.array(z.string()).nullable(),
    /** The other trays in which more of the same line lay when it was offered; `tray` null: beside the engine. */
    alsoIn: z.array(z.strictObject({ tray: Named.nullable() })),
  })
  .meta({ id: 'HandoverLine' });
export const HandoverTray = z
  .strictObject({
    /** Of what lies beside the engine in no tray: the engine's id. */
    trayId: Id,
    label: z.string(),
    name: z.string(),
    attempts: z.int(),
    counted: z.boolean(),
    lines: z.array(HandoverLine),
    differences: z.array(CountDifference),
    /** What differences opened, as they were first counted; they stand whatever is counted after. */
    obligations: z.array(Id),
  })
  .meta({ id: 'HandoverTray' });
export type HandoverTray = z.infer<typeof HandoverTray>;
export const LooseFastener = z
  .strictObject({
    set: z.string(),
    name: z.string(),
    stage: z.int(),
    /** Positions without a pull that stands. */
    positions: z.array(z.int()),
  })
  .meta({ id: 'LooseFastener' });
export type LooseFastener = z.infer<typeof LooseFastener>;
export const Handover = z
  .strictObject({
    ...handoverHead,
    /** Those that stood open when it was offered. */
    openObligations: z.array(z.string()),
    /** Loosened or not pulled to their last stage when it was offered, by the torque log. */
    looseFasteners: z.array(LooseFastener),
    trays: z.array(HandoverTray),
  })
  .meta({ id: 'Handover' });
export type Handover = z.infer<typeof Handover>;

export const CountTray = z
  .strictObject({
    lines: z
      .array(z.strictObject({ lineId: Id, counted: Count }))
      .min(1)
      .max(200),
  })
  .meta({ id: 'CountTray', examples: [{ lines: [{ lineId: exampleId, counted: 8 }] }] });
export type CountTray = z.infer<typeof CountTray>;

export const Accepted = z
  .strictObject({
    outcome: z.enum(['accepted', 'accepted with a difference']),
    /** Those that stay. */
    differences: z.array(CountDifference),
    /** All that the counts of this handover opened. */
    obligations: z.array(Id),
  })
  .meta({ id: 'Accepted' });
export type Accepted = z.infer<typeof Accepted>;

export const Decline = z
  .strictObject({ reason: someWords(500) })
  .meta({ id: 'Decline', examples: [{ reason: 'The cylinder is still oily, not washed' }] });

export const SendOut = z
  .strictObject({
    subject: z.union([z.strictObject({ trayId: Id }), z.strictObject({ engine: z.literal(true) })]),
    vendorId: Id,
    work: someWords(500),
    /** When the vendor is to have it back here: today in the shop's zone, or later. */
    dueOn: Day,
    counts,
    withDifference: z.boolean().optional(),
  })
  .meta({
    id: 'SendOut',
    examples: [
      {
        subject: { trayId: exampleId },
        vendorId: exampleOther,
        work: 'Replate the bore to 88.000 mm',
        dueOn: '2030-12-04',
      },
    ],
  });
export type SendOut = z.infer<typeof SendOut>;

export const BackIn = z
  .strictObject({ bayId: Id, counts, withDifference: z.boolean().optional() })
  .meta({ id: 'BackIn', examples: [{ bayId: exampleId }] });
export type BackIn = z.infer<typeof BackIn>;

export const OutsideWork = z
  .strictObject({
    id: Id,
    subject: z.strictObject({ kind: z.enum(['engine', 'tray']), id: Id, name: z.string() }),
    vendor: Named,
    work: z.string(),
    dueOn: Day.nullable(),
    sentAt: Instant,
    sentBy: Named,
    backAt: Instant.nullable(),
    backBy: Named.nullable(),
  })
  .meta({ id: 'OutsideWork' });
export type OutsideWork = z.infer<typeof OutsideWork>;
export const OutsideWorks = z.strictObject({ items: z.array(OutsideWork) }).meta({ id: 'OutsideWorks' });
export const SentOut = Moved.extend({ id: Id }).meta({ id: 'SentOut' });
