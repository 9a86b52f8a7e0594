import { z } from 'zod';
import { dispositionKinds } from '#domain/obligations/disposition.ts';
import { Round, Verdict } from './findings.ts';
import { PartName } from './parts.ts';
import { Id, Instant, Named, Quantity, QuantityInterval, someWords, words } from './wire.ts';

export const DispositionKind = z.enum(dispositionKinds).meta({ id: 'DispositionKind' });

const act = z.strictObject({
  act: z.enum(['decided', 'discharged', 'reopened']),
  kind: DispositionKind.nullable(),
  sizeClass: z.string().nullable(),
  reason: z.string(),
  /** The finding that proves, or withdraws the proof. */
  findingId: Id.nullable(),
  by: Named,
  at: Instant,
});

export const Obligation = z
  .strictObject({
    id: Id,
    jobId: Id,
    words: z.string(),
    /** True: it keeps the engine from being closed. */
    inside: z.boolean(),
    cause: z.enum(['finding', 'handover', 'count', 'lead']),
    causeId: Id,
    /** For a finding: of what, and what stands there now. */
    finding: z
      .strictObject({
        dimension: z.string(),
        name: z.string(),
        round: Round,
        verdict: Verdict,
        /** The newest finding of the same dimension, round and part; null when its readings were struck. */
        standing: z.strictObject({ id: Id, verdict: Verdict }).nullable(),
      })
      .nullable(),
    state: z.enum(['to decide', 'decided', 'discharged']),
    openedAt: Instant,
    decidedAt: Instant.nullable(),
    dischargedAt: Instant.nullable(),
    /** What was decided last, while it stands. */
    decided: z.strictObject({ dispositionId: Id, kind: DispositionKind, sizeClass: z.string().nullable() }).nullable(),
    acts: z.array(act),
  })
  .meta({ id: 'Obligation', description: 'Something somebody must decide or do; it has exactly one cause' });
export type Obligation = z.infer<typeof Obligation>;

export const Obligations = z.strictObject({ items: z.array(Obligation) }).meta({ id: 'Obligations' });
export type Obligations = z.infer<typeof Obligations>;

export const Decide = z
  .strictObject({
    /** Several of one part may be settled by one decision. */
    obligationIds: z.array(Id).min(1).max(50),
    kind: DispositionKind,
    /** The size class to bore to. */
    sizeClass: words(40).min(1).optional(),
    reason: words(500).optional(),
    /** Parts it asks stores for. */
    demands: z
      .array(z.strictObject({ partId: Id, quantity: z.int().min(1).max(1000) }))
      .max(50)
      .optional(),
  })
  .meta({
    id: 'Decide',
    examples: [{ obligationIds: ['019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b'], kind: 'bore', sizeClass: '+0.25' }],
  });
export type Decide = z.infer<typeof Decide>;

export const Decided = z
  .strictObject({ dispositionId: Id, obligations: z.array(Obligation), demandLineIds: z.array(Id) })
  .meta({ id: 'Decided' });
export type Decided = z.infer<typeof Decided>;

export const Discharge = z
  .strictObject({ reason: someWords(500) })
  .meta({ id: 'Discharge', examples: [{ reason: 'found it in the wash bay, it was never missing' }] });
export type Discharge = z.infer<typeof Discharge>;

export const RaiseObligation = z
  .strictObject({ words: someWords(500), inside: z.boolean() })
  .meta({ id: 'RaiseObligation', examples: [{ words: 'Look at the oil pump before it is closed', inside: true }] });
export type RaiseObligation = z.infer<typeof RaiseObligation>;

export const FitPart = z
  .strictObject({
    placeCode: words(40).min(1),
    name: someWords(120),
    sizeClass: words(40).min(1).optional(),
    grade: words(40).optional(),
    mark: words(40).optional(),
  })
  .meta({
    id: 'FitPart',
    description: 'What is renewed or machined starts anew: its wear begins a new line',
    examples: [{ placeCode: 'cylinder', name: 'Cylinder, bored', sizeClass: '+0.25' }],
  });
export type FitPart = z.infer<typeof FitPart>;

export const FittedPart = z
  .strictObject({
    id: Id,
    placeCode: z.string(),
    name: z.string(),
    sizeClass: z.string(),
    grade: z.string(),
    mark: z.string(),
    fittedAt: Instant,
    /** Engine hours when it was fitted. */
    fittedHours: z.string(),
  })
  .meta({ id: 'FittedPart' });
export type FittedPart = z.infer<typeof FittedPart>;

const outlook = z.enum(['inside', 'partly', 'outside']);

const cut = z.string().regex(/^\d(?:[.,]\d{1,4})?$/, 'millimetres, such as 0.15');
const thicker = z.string().regex(/^-?\d(?:[.,]\d{1,4})?$/, 'millimetres, such as 0.2 or -0.1');
/** Of a face to be cut, in millimetres: what comes off (left out: the least that trues it), how much thicker the base gasket. */
export const OutlookQuery = z.object({ remove: cut.optional(), gasket: thicker.optional() });
export type OutlookQuery = z.infer<typeof OutlookQuery>;

const Resurfacing = z
  .strictObject({
    face: z.enum(['head', 'cylinder']),
    /** The least that makes the face true again; null: no blade told it. */
    leastCut: Quantity.nullable(),
    remove: Quantity,
    baseGasket: Quantity,
    /** null: figures for it are missing, or nothing would be left above the piston. */
    ratio: z.strictObject({ before: z.number(), after: z.number() }).nullable(),
    squish: z.strictObject({ before: Quantity, after: QuantityInterval }).nullable(),
    /** True: nothing would be left above the piston. */
    tooMuch: z.boolean(),
    /** What may still come off, by the height of the part; null: unknown, see missing. */
    allowance: z
      .strictObject({
        name: z.string(),
        height: Quantity,
        least: Quantity,
        left: Quantity,
        /** Below zero: more than is allowed. */
        leftAfter: Quantity,
        enough: z.boolean(),
      })
      .nullable(),
    /** What can't be told, and which figure it needs. */
    missing: z.array(z.string()),
    /** What it was taken to be where nobody says. */
    assumed: z.array(z.string()),
    caution: z.string(),
  })
  .meta({ id: 'ResurfacingOutlook' });

/** What work on a bore or a face would come to, before anybody does it: plain geometry from what is measured now. */
export const Outlook = z
  .strictObject({
    /** The bore that it is about, as measured; null: it is about no bore and piston, or the bore isn't measured. */
    bore: z
      .strictObject({ name: z.string(), narrowest: Quantity, widest: Quantity, expandedUncertainty: Quantity })
      .nullable(),
    /** Metal to the largest diameter that the sheet lists; null on a plated bore, or where nothing is listed. */
    metalLeft: z.strictObject({ onDiameter: Quantity, perSide: Quantity }).nullable(),
    /** Each size class of piston on the sheet, and how many stores could give. */
    pistons: z.array(
      z.strictObject({
        sizeClass: z.string(),
        available: z.int(),
        /** In the bore as it is now. */
        clearance: QuantityInterval,
        outlook,
        /** What the bore would have to be for it; null: no size fits all of its pistons. */
        boreTo: QuantityInterval.nullable(),
        /** Metal to take off the diameter; null: it can't be. */
        remove: QuantityInterval.nullable(),
        words: z.string(),
      }),
    ),
    /** The smallest size that the bore can be opened to, and why no smaller one; null: it is about no bore that is bored. */
    choice: z
      .strictObject({
        /** null: no size on the sheet will do. */
        sizeClass: z.string().nullable(),
        /** The part that is asked of stores for it; null: stores keep no number for it. */
        part: PartName.nullable(),
        available: z.int(),
        /** Sizes that the bore can't be opened to, and why: boring to one is refused, unless the lead says why all the same. */
        tooSmall: z.array(z.strictObject({ sizeClass: z.string(), words: z.string() })),
        words: z.string(),
      })
      .nullable(),
    /** The same ring's end gap, once the bore is opened to a size class. */
    gaps: z.array(
      z.strictObject({ name: z.string(), sizeClass: z.string(), gap: QuantityInterval, outlook, words: z.string() }),
    ),
    /** Of a face of head or cylinder; null: it is about none. */
    resurfacing: Resurfacing.nullable(),
  })
  .meta({ id: 'Outlook' });
export type Outlook = z.infer<typeof Outlook>;
