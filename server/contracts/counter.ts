import { z } from 'zod';
import { Day, Id, Instant, Money, Named, someWords, words } from './wire.ts';

export const MakePromise = z
  .strictObject({
    readyOn: Day,
    /** How sure: so many times of 5. */
    sureOf5: z.int().min(1).max(5),
    note: words(500).optional(),
  })
  .meta({
    id: 'MakePromise',
    examples: [{ readyOn: '2026-12-04', sureOf5: 4, note: 'if the cylinder is back on Friday' }],
  });
export type MakePromise = z.infer<typeof MakePromise>;

/** A date told to the owner. The newest one of a job counts; the earlier ones stay. */
export const PromiseMade = z
  .strictObject({
    id: Id,
    jobId: Id,
    readyOn: Day,
    sureOf5: z.int(),
    note: z.string(),
    madeBy: Named,
    madeAt: Instant,
  })
  .meta({ id: 'PromiseMade' });
export type PromiseMade = z.infer<typeof PromiseMade>;

export const lineKinds = ['part', 'labour', 'outside work'] as const;

const QuoteLineAsked = z.strictObject({
  kind: z.enum(lineKinds),
  words: someWords(300),
  quantity: z.int().min(1).max(10_000),
  each: Money,
  partId: Id.optional(),
  obligationId: Id.optional(),
});

export const SendQuote = z
  .strictObject({ lines: z.array(QuoteLineAsked).min(1).max(200), note: words(2000).optional() })
  .meta({
    id: 'SendQuote',
    examples: [
      {
        lines: [
          { kind: 'part', words: 'Piston kit, 88.0 mm', quantity: 1, each: { minor: '21400', currency: 'EUR' } },
          { kind: 'labour', words: 'Hone and assemble, hours', quantity: 6, each: { minor: '7200', currency: 'EUR' } },
        ],
      },
    ],
  });
export type SendQuote = z.infer<typeof SendQuote>;

export const QuoteLine = z.strictObject({
  kind: z.enum(lineKinds),
  words: z.string(),
  quantity: z.int(),
  each: Money,
  amount: Money,
  partId: Id.nullable(),
  obligationId: Id.nullable(),
});

export const waysToSayYes = ['at the counter', 'by telephone', 'in writing'] as const;

export const QuoteAnswer = z.strictObject({
  yes: z.boolean(),
  /** What was agreed to; nothing when the answer is no. */
  sum: Money.nullable(),
  saidBy: z.string(),
  how: z.enum(waysToSayYes),
  note: z.string(),
  takenBy: Named,
  takenAt: Instant,
});

export const Quote = z
  .strictObject({
    id: Id,
    jobId: Id,
    number: z.int(),
    /** A later quote has taken its place: it can't be answered any more. */
    replaced: z.boolean(),
    total: Money,
    note: z.string(),
    lines: z.array(QuoteLine),
    sentBy: Named,
    sentAt: Instant,
    answer: QuoteAnswer.nullable(),
  })
  .meta({ id: 'Quote' });
export type Quote = z.infer<typeof Quote>;

export const JobQuotes = z
  .strictObject({ items: z.array(Quote) })
  .meta({ id: 'JobQuotes', description: 'Newest first' });
export type JobQuotes = z.infer<typeof JobQuotes>;

/** Of every open job that was quoted: its newest quote, and what was said to it. */
export const OpenQuotes = z
  .strictObject({
    items: z.array(
      z.strictObject({
        jobId: Id,
        quoteId: Id,
        number: z.int(),
        total: Money,
        sentAt: Instant,
        /** Null: not answered yet. */
        yes: z.boolean().nullable(),
        /** What was agreed to. */
        sum: Money.nullable(),
      }),
    ),
  })
  .meta({ id: 'OpenQuotes' });
export type OpenQuotes = z.infer<typeof OpenQuotes>;

export const AnswerQuote = z
  .strictObject({
    yes: z.boolean(),
    /** Of a yes: the quote's total, or less with a note that says what is left out. */
    sum: Money.optional(),
    saidBy: someWords(120),
    how: z.enum(waysToSayYes),
    note: words(2000).optional(),
  })
  .meta({
    id: 'AnswerQuote',
    examples: [{ yes: true, sum: { minor: '64600', currency: 'EUR' }, saidBy: 'Ingrid Falk', how: 'by telephone' }],
  });
export type AnswerQuote = z.infer<typeof AnswerQuote>;

export const DraftLine = z.strictObject({
  kind: z.enum(lineKinds),
  words: z.string(),
  quantity: z.int(),
  each: Money,
  /** False: the price isn't known here and stands at nothing until somebody sets it. */
  priced: z.boolean(),
  partId: Id.nullable(),
  obligationId: Id.nullable(),
});

/** What a quote of this job would hold by its demands, decisions and outside work. Nothing is kept of it. */
export const QuoteDraft = z
  .strictObject({
    jobId: Id,
    lines: z.array(DraftLine),
    total: Money,
    /** Obligations that nobody has decided on yet: they may add to the sum. */
    undecided: z.array(z.strictObject({ id: Id, words: z.string() })),
  })
  .meta({ id: 'QuoteDraft' });
export type QuoteDraft = z.infer<typeof QuoteDraft>;
