import { z } from 'zod';
import { bayKinds } from './bays.ts';
import { rights } from './rights.ts';
import { Day, Id, Instant, Named, Quantity, QuantityInterval } from './wire.ts';

export const depths = ['cover', 'head', 'cylinder', 'case'] as const;
export const roundsOfMeasuring = ['as received', 'after work', 'as built'] as const;
export const verdictWords = ['within standard', 'within service limit', 'past the limit', 'undecided'] as const;

/** An engine family, as far as it can be drawn. */
export const Family = z
  .strictObject({
    id: Id,
    code: z.string(),
    name: z.string(),
    cycle: z.enum(['four-stroke', 'two-stroke']),
    cooling: z.enum(['water', 'air']),
    bore: Quantity,
    stroke: Quantity,
  })
  .meta({ id: 'DrawnFamily' });
export type Family = z.infer<typeof Family>;

/** Who answers for it now, since when. */
export const HolderNow = z
  .strictObject({ kind: z.enum(['person', 'bay', 'vendor', 'owner']), id: Id, name: z.string(), since: Instant })
  .meta({ id: 'HolderNow' });
export type HolderNow = z.infer<typeof HolderNow>;

/** What a job can't go on without: its fact, since when, until when if that is known, and who can end it. */
export const Wait = z
  .strictObject({
    waitsFor: z.enum(['yes', 'parts', 'decision', 'outside', 'person', 'bay']),
    since: Instant,
    dueOn: Day.nullable(),
    /** What is waited for, as it was written down: `8 × valve-stem seals`, an obligation's words; may be empty. */
    words: z.string(),
    cause: z.strictObject({
      kind: z.enum(['quote', 'demand', 'obligation', 'outside work', 'handover', 'proof', 'bay']),
      id: Id,
    }),
    endedBy: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('right'), right: z.enum(rights) }),
      z.strictObject({ kind: z.enum(['owner', 'vendor', 'person', 'bay']), id: Id, name: z.string() }),
    ]),
  })
  .meta({ id: 'Wait' });
export type Wait = z.infer<typeof Wait>;

export const OpeningNow = z
  .strictObject({
    id: Id,
    openSince: Instant,
    depth: z.enum(depths),
    covered: z.boolean(),
    /** Since when it is covered, or uncovered. */
    coveredOrNotSince: Instant,
  })
  .meta({ id: 'OpeningNow' });
export type OpeningNow = z.infer<typeof OpeningNow>;

export const HandoverOffered = z.strictObject({
  id: Id,
  giver: Named,
  receiver: Named,
  offeredAt: Instant,
  /** Unanswered after this, it is overdue. */
  answerDueAt: Instant,
  /** False: only trays of it go over. */
  ofTheEngine: z.boolean(),
});

/** Where one open job stands, derived from its facts. */
export const EngineStanding = z
  .strictObject({
    id: Id,
    serial: z.string(),
    family: Family,
    owner: Named,
    job: z.strictObject({ id: Id, number: z.int(), takenInAt: Instant }),
    /** Null is an error of the books: every engine is held. The floor counts them. */
    holder: HolderNow.nullable(),
    /** The bay it is in; null when a vendor or the owner has it. */
    place: Named.nullable(),
    assignedBay: Named.nullable(),
    opening: OpeningNow.nullable(),
    waits: z.array(Wait),
    promise: z.strictObject({ readyOn: Day, sureOf5: z.int() }).nullable(),
    handovers: z.array(HandoverOffered),
  })
  .meta({ id: 'EngineStanding' });
export type EngineStanding = z.infer<typeof EngineStanding>;

/** A worked-out value: one figure, a feeler's interval, the least and greatest of a clearance, or play felt by hand. */
export const MeasuredValue = z
  .discriminatedUnion('type', [
    z.strictObject({ type: z.literal('point'), value: Quantity }),
    z.strictObject({ type: z.literal('interval'), interval: QuantityInterval }),
    z.strictObject({ type: z.literal('span'), interval: QuantityInterval }),
    z.strictObject({ type: z.literal('felt'), present: z.boolean() }),
  ])
  .meta({ id: 'MeasuredValue' });
export type MeasuredValue = z.infer<typeof MeasuredValue>;

/** The limit a value lies nearest to. */
export const NearestLimit = z.strictObject({ side: z.enum(['lower', 'upper']), value: Quantity });

export const FloorBay = z.strictObject({
  id: Id,
  name: z.string(),
  kind: z.enum(bayKinds),
  capacity: z.int(),
  grid: z.strictObject({ column: z.int(), row: z.int(), width: z.int(), height: z.int() }),
  /** Engines standing in it, longest here first. */
  engineIds: z.array(Id),
});

export const PartsWait = z.strictObject({
  engineId: Id,
  jobId: Id,
  demandLineId: Id,
  part: z.strictObject({ id: Id, number: z.string(), name: z.string() }),
  /** So many are short, of so many wanted. */
  short: z.int(),
  wanted: z.int(),
  since: Instant,
  /** When enough of them are promised; null: no date. */
  dueOn: Day.nullable(),
  /** Numbers of what replaced the part, from which it is promised. */
  instead: z.array(z.string()),
  /** By which rule of lots it is short, in words that follow its name: "in grade B"; empty for the oldest first. */
  rule: z.string(),
});

export const PastOrUndecided = z.strictObject({
  engineId: Id,
  jobId: Id,
  findingId: Id,
  dimension: z.string(),
  name: z.string(),
  round: z.enum(roundsOfMeasuring),
  verdict: z.enum(['past the limit', 'undecided']),
  value: MeasuredValue,
  guard: Quantity,
  limit: NearestLimit.nullable(),
  /** How far past the nearest limit; null when it isn't past, or nothing was measured but felt. */
  pastBy: Quantity.nullable(),
  /** Probability of being past a limit, its least and greatest. */
  pPast: z.strictObject({ low: z.number(), high: z.number() }),
  judgedAt: Instant,
  /** What it obliges somebody to do; settled when that was done or decided away. */
  obligation: z.strictObject({ id: Id, decided: z.boolean(), settled: z.boolean() }).nullable(),
});

/** What comes next at the counter and in stores, by day; what is overdue comes first. */
export const FloorNote = z.strictObject({
  kind: z.enum(['promise', 'delivery', 'return']),
  on: Day,
  jobId: Id.nullable(),
  engine: z.strictObject({ id: Id, family: z.string(), serial: z.string() }).nullable(),
  /** Who brings it. */
  vendor: Named.nullable(),
  /** The part, or the work done outside; empty for a promise. */
  words: z.string(),
  quantity: z.int().nullable(),
  /** Of a promise: how many waits still stand before it. */
  waits: z.int(),
});

export const Floor = z
  .strictObject({
    asOf: Instant,
    /** Today in the shop's zone. */
    today: Day,
    shop: z.strictObject({
      name: z.string(),
      zone: z.string(),
      openLimitMinutes: z.int(),
      figuresInvented: z.boolean(),
    }),
    bays: z.array(FloorBay),
    /** Engines at a vendor, longest there first. */
    outside: z.array(Id),
    /** Engines that nobody holds: always empty unless the books are wrong. */
    heldByNobody: z.array(Id),
    engines: z.array(EngineStanding),
    /** Open engines, the longest open first. */
    openNow: z.array(z.strictObject({ engineId: Id, openSince: Instant })),
    waitingForParts: z.array(PartsWait),
    pastOrUndecided: z.array(PastOrUndecided),
    notes: z.array(FloorNote),
    counts: z.strictObject({
      engines: z.int(),
      outside: z.int(),
      open: z.int(),
      uncovered: z.int(),
      handoversOffered: z.int(),
      heldByNobody: z.int(),
    }),
  })
  .meta({ id: 'Floor', description: 'Where everything stands, derived from the facts' });
export type Floor = z.infer<typeof Floor>;
