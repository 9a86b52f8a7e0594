import { z } from 'zod';
import { CustodyPeriod, LooseFastener } from './custody.ts';
import { Layer } from './procedures.ts';
import { ShopHead } from './shop.ts';
import { Day, Id, Instant, Named, words } from './wire.ts';

const ofWhat = {
  /** Only this engine and its trays. */
  engineId: Id.optional(),
  trayId: Id.optional(),
  /** Only what this person held. */
  personId: Id.optional(),
  /** Only what was in this bay, in somebody's hands or at rest. */
  bayId: Id.optional(),
};

export const WhoHeldQuery = z.object({
  /** The moment asked about; now, when left out. */
  at: Instant.optional(),
  ...ofWhat,
});
export type WhoHeldQuery = z.infer<typeof WhoHeldQuery>;

/** A period of custody, with the engine and the job that it belongs to. */
export const PeriodInShop = CustodyPeriod.extend({
  engine: z.strictObject({ id: Id, serial: z.string(), family: z.string() }),
  job: z.strictObject({ id: Id, number: z.int() }).nullable(),
}).meta({ id: 'PeriodInShop' });
export type PeriodInShop = z.infer<typeof PeriodInShop>;

export const WhoHeld = z
  .strictObject({
    at: Instant,
    items: z.array(PeriodInShop),
    /** More than are listed: ask about one engine, person or bay. */
    more: z.boolean(),
    /** The instants of the change before and the one after that moment; null: there is none. */
    before: Instant.nullable(),
    after: Instant.nullable(),
  })
  .meta({ id: 'WhoHeld', description: 'Who held what at one moment' });
export type WhoHeld = z.infer<typeof WhoHeld>;

export const PeriodsQuery = z.object({ from: Instant, until: Instant.optional(), ...ofWhat });
export type PeriodsQuery = z.infer<typeof PeriodsQuery>;
export const Periods = z
  .strictObject({ from: Instant, until: Instant, items: z.array(PeriodInShop), more: z.boolean() })
  .meta({ id: 'Periods', description: 'Holders over time: every period that reaches into a span' });
export type Periods = z.infer<typeof Periods>;

const Minutes = z.int().min(0);
export const BenchTimes = z
  .strictObject({
    /** Place after place, in the order in which the engine stood there. */
    stays: z.array(
      z.strictObject({
        kind: z.enum(['bay', 'vendor', 'owner']),
        place: Named,
        from: Instant,
        until: Instant.nullable(),
        /** In somebody's hands there. */
        workedMinutes: Minutes,
        /** At rest there, in nobody's hands. */
        waitedMinutes: Minutes,
      }),
    ),
    workedMinutes: Minutes,
    waitedMinutes: Minutes,
    outsideMinutes: Minutes,
    /** While an offer of the engine was unanswered: part of the time worked. */
    offeredMinutes: Minutes,
  })
  .meta({ id: 'BenchTimes', description: 'Time on each bench and waiting between benches, out of custody' });
export type BenchTimes = z.infer<typeof BenchTimes>;

/** What an offer made now would say of the engine. */
export const ToHandOver = z
  .strictObject({
    openObligations: z.array(z.string()),
    looseFasteners: z.array(LooseFastener),
    /** Pieces that lie beside the engine in no tray, by name alone: who receives the engine counts them blind. */
    besideEngine: z.array(z.string()),
  })
  .meta({ id: 'ToHandOver' });
export type ToHandOver = z.infer<typeof ToHandOver>;

export const CustodyRule = z
  .strictObject({ answerMinutes: z.int().min(5).max(10_080) })
  .meta({ id: 'CustodyRule', examples: [{ answerMinutes: 30 }] });
export type CustodyRule = z.infer<typeof CustodyRule>;

const EngineOf = z.strictObject({ id: Id, serial: z.string(), family: z.string() });
const Subject = z.strictObject({ kind: z.enum(['engine', 'tray']), id: Id, name: z.string() });
export const ShiftSnapshot = z
  .strictObject({
    /** Every engine and tray with its holder and place. */
    items: z.array(
      z.strictObject({
        subject: Subject,
        engine: EngineOf,
        holder: z.strictObject({ kind: z.enum(['person', 'bay', 'vendor', 'owner']), id: Id, name: z.string() }),
        place: Named.nullable(),
        since: Instant,
      }),
    ),
    /** Must be empty: an engine or tray in the shop that nobody holds. */
    unheld: z.array(z.strictObject({ subject: Subject, engine: EngineOf })),
    offers: z.array(
      z.strictObject({
        id: Id,
        engine: EngineOf,
        giver: Named,
        receiver: Named,
        offeredAt: Instant,
        answerDueAt: Instant,
        overdue: z.boolean(),
      }),
    ),
    /** Engines open and not covered. */
    uncovered: z.array(z.strictObject({ engine: EngineOf, depth: Layer, since: Instant, place: Named.nullable() })),
  })
  .meta({ id: 'ShiftSnapshot' });
export type ShiftSnapshot = z.infer<typeof ShiftSnapshot>;

const ReportHead = z.strictObject({ id: Id, asOf: Instant, note: z.string(), signedBy: Named, signedAt: Instant });
export const ShiftEnd = z
  .strictObject({
    asOf: Instant,
    snapshot: ShiftSnapshot,
    /** What a lead says who signs: that it is this that was read. */
    mark: z.string(),
    /** Somebody still holds something, an offer is unanswered, an engine uncovered, or something unheld. */
    clear: z.boolean(),
    last: ReportHead.nullable(),
  })
  .meta({ id: 'ShiftEnd' });
export type ShiftEnd = z.infer<typeof ShiftEnd>;
export const SignShift = z
  .strictObject({
    /** The `mark` that was read with the report. */
    mark: z.string().min(1).max(80),
    /** Needed unless all is clear: what stays, and who knows. */
    note: words(1000).optional(),
  })
  .meta({ id: 'SignShift', examples: [{ mark: '5d41402abc4b2a76', note: 'Oskar stays on the cylinder till eight' }] });
export type SignShift = z.infer<typeof SignShift>;
export const ShiftReport = ReportHead.extend({ snapshot: ShiftSnapshot }).meta({ id: 'ShiftReport' });
export type ShiftReport = z.infer<typeof ShiftReport>;
export const ShiftReports = z.strictObject({ items: z.array(ReportHead) }).meta({ id: 'ShiftReports' });
export type ShiftReports = z.infer<typeof ShiftReports>;

/** What goes to a vendor, on paper; and what came back of it. */
export const PackingSlip = z
  .strictObject({
    id: Id,
    /** The job's number and the how-manieth it is of that job. */
    number: z.string(),
    shop: ShopHead,
    vendor: z.strictObject({ id: Id, name: z.string(), trade: z.string(), contact: z.string() }),
    engine: EngineOf,
    drawn: z.strictObject({ cycle: z.enum(['four-stroke', 'two-stroke']), cooling: z.enum(['water', 'air']) }),
    subject: Subject.extend({ words: z.string(), layer: Layer.nullable() }),
    work: z.string(),
    dueOn: Day.nullable(),
    sentAt: Instant,
    sentBy: Named,
    backAt: Instant.nullable(),
    backBy: Named.nullable(),
    late: z.boolean(),
    /** Counts are null while somebody is to count that tray blind. */
    lines: z.array(z.strictObject({ name: z.string(), out: z.int().nullable(), back: z.int().nullable() })),
  })
  .meta({ id: 'PackingSlip' });
export type PackingSlip = z.infer<typeof PackingSlip>;

export const OutsideInShop = z
  .strictObject({
    items: z.array(
      z.strictObject({
        id: Id,
        number: z.string(),
        vendor: Named,
        engine: EngineOf,
        job: z.strictObject({ id: Id, number: z.int() }),
        subject: Subject,
        work: z.string(),
        dueOn: Day.nullable(),
        sentAt: Instant,
        /** Days past the day it was due back; 0: not late, or no day was said. */
        daysLate: z.int().min(0),
      }),
    ),
  })
  .meta({ id: 'OutsideInShop', description: 'What is at a vendor now, the latest first' });
export type OutsideInShop = z.infer<typeof OutsideInShop>;
