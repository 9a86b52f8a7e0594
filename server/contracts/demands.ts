import { z } from 'zod';
import { Grade, PartName, Pieces } from './parts.ts';
import { Id, Instant, Quantity, someWords, words } from './wire.ts';

/** How a demand line reads at a glance: what stores have to do about it next. */
export const LineState = z.enum(['pick now', 'reserved', 'short', 'issued', 'cancelled', 'not asked']);

const reason = z.strictObject({
  words: z.string(),
  quantity: z.int(),
  kit: z.strictObject({ id: Id, name: z.string() }).nullable(),
  obligationId: Id.nullable(),
  /** The part whose companion this is. */
  comesWith: PartName.nullable(),
  withdrawn: z.boolean(),
});

/** By which rule lots are chosen for a line. */
const LotRuleName = z.enum(['oldest', 'exact thickness', 'grade']);

const lotRule = z
  .strictObject({
    rule: LotRuleName,
    /** Of a rule by exact thickness: a piece of each; of a single one, every piece, unless others of any thickness are wanted too. */
    thicknesses: z.array(Quantity),
    othersAny: z.boolean(),
    /** Of a rule by grade; empty else. */
    grade: z.string(),
    /** In words that follow a name: "in grade B"; empty for the oldest first. */
    words: z.string(),
    /** What set it: somebody by hand, a shim that was chosen for a valve, a grade that was asked for. */
    cause: z.enum(['by hand', 'shim choice', 'grade asked']),
    reason: z.string(),
    by: z.string(),
    at: Instant,
  })
  .meta({ id: 'LotRule', description: 'By which rule lots are chosen, who set it and why' });

const held = z.strictObject({
  lotId: Id,
  lot: z.string(),
  /** Mark of the lot's grade, its own or that of its part; empty where it bears none. */
  grade: z.string(),
  /** Why a lot was taken that does not meet the rule in force; null: it meets it. */
  againstRule: z.string().nullable(),
  bin: z.string(),
  /** The part that lies in the lot, where it is another than the one that is wanted. */
  instead: PartName.nullable(),
  quantity: z.int(),
  /** Until when it is held for the owner's yes; null: firm. */
  expiresAt: Instant.nullable(),
});

export const DemandLine = z
  .strictObject({
    id: Id,
    jobId: Id,
    part: PartName,
    /** The part as which it is bought: the newest of those that replaced the wanted one. */
    buyAs: PartName,
    wanted: z.int(),
    reserved: z.int(),
    short: z.int(),
    issued: z.int(),
    cancelled: z.int(),
    notAsked: z.int(),
    state: LineState,
    shortSince: Instant.nullable(),
    /** When what is short can be here, in the job's turn, of what is free and on order; null: no date. */
    expectedOn: z.iso.date().nullable(),
    /** Other numbers than the wanted one that what is short is promised from: what replaced it. */
    expectedFrom: z.array(PartName),
    /** Null: the oldest lot first, as nobody said otherwise. */
    lotRule: lotRule.nullable(),
    reasons: z.array(reason),
    held: z.array(held),
  })
  .meta({ id: 'DemandLine', description: 'wanted = reserved + short + issued + cancelled + notAsked' });
export type DemandLine = z.infer<typeof DemandLine>;

export const JobDemands = z.strictObject({ lines: z.array(DemandLine) }).meta({ id: 'JobDemands' });
export type JobDemands = z.infer<typeof JobDemands>;

export const AddDemands = z
  .union([
    z.strictObject({ kitId: Id }),
    z.strictObject({
      lines: z
        .array(
          z.strictObject({
            partId: Id,
            quantity: Pieces,
            words: someWords(300),
            /** Only lots of this grade will do. */
            grade: Grade.optional(),
          }),
        )
        .min(1)
        .max(100),
    }),
  ])
  .meta({
    id: 'AddDemands',
    examples: [
      { lines: [{ partId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b', quantity: 1, words: 'bore past the limit' }] },
    ],
  });
export type AddDemands = z.infer<typeof AddDemands>;

export const CancelDemand = z
  .strictObject({
    /** All that is not issued, when left out. */
    quantity: Pieces.optional(),
    words: someWords(300),
  })
  .meta({ id: 'CancelDemand', examples: [{ words: 'chain within its limit' }] });
export type CancelDemand = z.infer<typeof CancelDemand>;

/** By which rule the lots of a line are chosen from now on, and why. */
export const SetLotRule = z
  .discriminatedUnion('rule', [
    z.strictObject({ rule: z.literal('oldest'), reason: someWords(300) }),
    z.strictObject({ rule: z.literal('exact thickness'), thickness: Quantity, reason: someWords(300) }),
    z.strictObject({ rule: z.literal('grade'), grade: Grade, reason: someWords(300) }),
  ])
  .meta({ id: 'SetLotRule', examples: [{ rule: 'grade', grade: 'B', reason: 'the bore is marked B' }] });
export type SetLotRule = z.infer<typeof SetLotRule>;

export const AskToReserve = z
  .strictObject({
    /** True: all that is asked for or none of it; false: what there is, and the rest is short by name. */
    allOrNothing: z.boolean(),
    /** All lines of the job, when left out. */
    demandLineIds: z.array(Id).min(1).max(300).optional(),
    /** Until when the pieces are held. Without it: firmly, or, of a job that waits for a yes, as long as the shop's rule says. */
    expiresAt: Instant.optional(),
  })
  .meta({ id: 'AskToReserve', examples: [{ allOrNothing: true }] });
export type AskToReserve = z.infer<typeof AskToReserve>;

export const Shortage = z
  .strictObject({
    demandLineId: Id,
    part: PartName,
    wanted: z.int(),
    available: z.int(),
    missing: z.int(),
    /** By which rule it is short, in words that follow its name: "in grade B"; empty for the oldest first. */
    rule: z.string(),
  })
  .meta({ id: 'Shortage', description: 'Pieces a job wants that stores cannot promise' });
export type Shortage = z.infer<typeof Shortage>;

export const Reserved = z
  .strictObject({
    /** True: nothing that was asked for is missing. */
    complete: z.boolean(),
    reserved: z.array(z.strictObject({ demandLineId: Id, part: PartName, lotId: Id, quantity: z.int() })),
    shortages: z.array(Shortage),
    words: z.string(),
  })
  .meta({ id: 'Reserved' });
export type Reserved = z.infer<typeof Reserved>;

export const ReleaseReserved = z
  .strictObject({ quantity: Pieces.optional(), reason: words(300).optional() })
  .meta({ id: 'ReleaseReserved', examples: [{ quantity: 1, reason: 'needed next week only' }] });
export type ReleaseReserved = z.infer<typeof ReleaseReserved>;

/** Reserved pieces given from the line of one job to that of another: somebody's decision, told to both jobs. */
export const ReassignReserved = z.strictObject({ toJobId: Id, quantity: Pieces, reason: someWords(300) }).meta({
  id: 'ReassignReserved',
  examples: [{ toJobId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b', quantity: 1, reason: 'race on Sunday' }],
});
export type ReassignReserved = z.infer<typeof ReassignReserved>;

/**
 * Pieces of a lot that somebody chose: used ones, whose condition was read, a newer lot before an older; an alternative, or
 * a lot that does not meet the line's rule, is taken with a reason.
 */
export const ReserveOfLot = z
  .strictObject({ lotId: Id, quantity: Pieces, reason: words(300).optional() })
  .meta({ id: 'ReserveOfLot', examples: [{ lotId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b', quantity: 1 }] });
export type ReserveOfLot = z.infer<typeof ReserveOfLot>;

export const IssueParts = z
  .strictObject({
    quantity: Pieces,
    /** The lot that was scanned; it has to be one reserved for this job. */
    lotId: Id.optional(),
  })
  .meta({ id: 'IssueParts', examples: [{ quantity: 1 }] });
export type IssueParts = z.infer<typeof IssueParts>;

export const ReturnParts = z
  .strictObject({
    quantity: Pieces,
    /** True: the job needs it later and may ask again; otherwise it is not wanted any more. */
    stillNeeded: z.boolean().optional(),
    /** Where they are laid, if not where they lay before: their own bin may have been closed since. */
    binId: Id.optional(),
    reason: words(300).optional(),
  })
  .meta({ id: 'ReturnParts', examples: [{ quantity: 1, reason: 'not used' }] });
export type ReturnParts = z.infer<typeof ReturnParts>;
