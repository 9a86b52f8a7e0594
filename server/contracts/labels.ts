import { z } from 'zod';
import { labelledKinds } from '../domain/labels/code.ts';
import { labelStocks } from '../domain/labels/stock.ts';
import { HeldBy } from './custody.ts';
import { JobName, PartName } from './parts.ts';
import { Layer } from './procedures.ts';
import { Id, Instant, Named, someWords, words } from './wire.ts';

const exampleId = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b';
const stockIds = labelStocks.map(({ id }) => id);

/** A label of a thing, or of a badge by its code as it was told when the badge was issued. */
export const LabelAsked = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.enum(labelledKinds), id: Id, copies: z.int().min(1).max(50).optional() }),
    z.strictObject({
      kind: z.literal('badge'),
      code: z.string().min(1).max(60),
      copies: z.int().min(1).max(5).optional(),
    }),
  ])
  .meta({ id: 'LabelAsked' });
export type LabelAsked = z.infer<typeof LabelAsked>;

export const SymbolKind = z.enum(['datamatrix', 'qr']);
export type SymbolKind = z.infer<typeof SymbolKind>;

const Stock = z.enum(stockIds);
const millimetres = z.number().min(-10, 'must be from -10 to 10 mm').max(10, 'must be from -10 to 10 mm');

/** Which labels, of what size, with which symbol. */
export const DrawLabels = z
  .strictObject({
    labels: z.array(LabelAsked).min(1).max(60),
    stock: Stock,
    symbol: SymbolKind.optional(),
  })
  .meta({
    id: 'DrawLabels',
    examples: [{ labels: [{ kind: 'tray', id: exampleId }], stock: '21-on-a4', symbol: 'datamatrix' }],
  });
export type DrawLabels = z.infer<typeof DrawLabels>;

export const PrintLabels = z
  .strictObject({
    labels: z.array(LabelAsked).min(1).max(500),
    stock: Stock,
    symbol: SymbolKind.optional(),
    /** The first label still on a part-used sheet, from 1, row by row. */
    start: z.int().min(1).max(100).optional(),
    /** What the printer is out by, in mm: it is made up for. */
    offsetMm: z.strictObject({ right: millimetres, down: millimetres }).optional(),
  })
  .meta({
    id: 'PrintLabels',
    examples: [
      {
        labels: [{ kind: 'bin', id: exampleId, copies: 2 }],
        stock: '21-on-a4',
        start: 4,
        offsetMm: { right: 0.5, down: -1 },
      },
    ],
  });
export type PrintLabels = z.infer<typeof PrintLabels>;

export const DrawnLabels = z
  .strictObject({
    items: z.array(
      z.strictObject({
        kind: z.enum([...labelledKinds, 'badge']),
        name: z.string(),
        /** As it is printed in the symbol; null on a badge. */
        code: z.string().nullable(),
        /** The label in its true size. */
        svg: z.string(),
      }),
    ),
  })
  .meta({ id: 'DrawnLabels' });
export type DrawnLabels = z.infer<typeof DrawnLabels>;

export const LabelStocks = z
  .strictObject({
    items: z.array(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        columns: z.int(),
        rows: z.int(),
        widthMm: z.number(),
        heightMm: z.number(),
      }),
    ),
  })
  .meta({ id: 'LabelStocks', description: 'Label sheets and rolls by size and count' });
export type LabelStocks = z.infer<typeof LabelStocks>;

/** What can be printed on a label, by kind, for choosing. */
export const LabelChoicesQuery = z.object({ kind: z.enum(labelledKinds), search: words(60).optional() });
export const LabelChoices = z
  .strictObject({
    items: z.array(z.strictObject({ id: Id, name: z.string(), about: z.string() })),
    /** There are more: a word more of the search finds them. */
    more: z.boolean(),
  })
  .meta({ id: 'LabelChoices', description: 'Things of one kind that a label can be printed for, at most 200' });
export type LabelChoices = z.infer<typeof LabelChoices>;

export const Scan = z
  .strictObject({
    /** What a reader or somebody typed: a code, or a part's number, a bin's code, a tray's label, an engine's serial. */
    text: someWords(60),
  })
  .meta({ id: 'Scan', examples: [{ text: 'XHTQ77K3M9QZTW' }, { text: 'H355-P' }] });

/** What was scanned, and where it stands. A bin leads to what lies in it, a tray and a rack to their job. */
export const Scanned = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('engine'),
      id: Id,
      serial: z.string(),
      family: z.string(),
      /** The visit it is here on; null: it is not in the shop. */
      jobId: Id.nullable(),
      held: HeldBy.nullable(),
    }),
    z.strictObject({
      kind: z.literal('tray'),
      id: Id,
      label: z.string(),
      name: z.string(),
      layer: Layer.nullable(),
      job: JobName,
      held: HeldBy.nullable(),
      /** The handover it is offered in. */
      offeredIn: Id.nullable(),
      /** Set once its job is handed back: an old label. */
      emptiedAt: Instant.nullable(),
    }),
    z.strictObject({
      kind: z.literal('rack'),
      /** Of its line of the tally too. */
      id: Id,
      /** What is kept in it. */
      name: z.string(),
      job: JobName,
      openingId: Id,
      /** Set once its engine is closed: an old label. */
      closedAt: Instant.nullable(),
    }),
    z.strictObject({
      kind: z.literal('part'),
      part: PartName,
      /** What is to be used instead. */
      supersededBy: PartName.nullable(),
      retired: z.boolean(),
    }),
    z.strictObject({ kind: z.literal('bin'), id: Id, code: z.string(), parts: z.array(PartName), closed: z.boolean() }),
  ])
  .meta({ id: 'Scanned' });
export type Scanned = z.infer<typeof Scanned>;

export const IssueBadge = z
  .strictObject({ personId: Id })
  .meta({ id: 'IssueBadge', examples: [{ personId: exampleId }] });

export const BadgeIssued = z
  .strictObject({
    id: Id,
    number: z.int(),
    person: Named,
    /** Told this once, to be printed; null when the same write is asked for again. */
    code: z.string().nullable(),
  })
  .meta({ id: 'BadgeIssued' });
export type BadgeIssued = z.infer<typeof BadgeIssued>;

export const RevokeBadge = z
  .strictObject({ reason: someWords(500) })
  .meta({ id: 'RevokeBadge', examples: [{ reason: 'lost on the way home' }] });
export const BadgeRevoked = z.strictObject({ id: Id, number: z.int(), person: Named }).meta({ id: 'BadgeRevoked' });

export const BadgeRule = z
  .strictObject({
    /** True: a badge opens without a PIN. */
    alone: z.boolean(),
  })
  .meta({ id: 'BadgeRule', examples: [{ alone: false }] });

/** Who has a badge; never what is in it. */
export const Badges = z
  .strictObject({
    alone: z.boolean(),
    people: z.array(
      Named.extend({
        badge: z.strictObject({ id: Id, number: z.int(), issuedAt: Instant, issuedBy: z.string() }).nullable(),
      }),
    ),
  })
  .meta({ id: 'Badges' });
export type Badges = z.infer<typeof Badges>;
