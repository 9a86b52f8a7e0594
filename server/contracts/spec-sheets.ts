import { z } from 'zod';
import { sheetExample } from './spec-sheet-example.ts';
import { Kind, MethodName, Rule } from './specs.ts';
import { Id, Instant, Named, Quantity, someWords, words } from './wire.ts';

const code = (max: number) => someWords(max);
const Figure = z
  .strictObject({
    value: z.string().max(40),
    unit: z.string().max(12),
    /** Where it stands, when not where its dimension does. */
    source: words(120).optional(),
    page: words(40).optional(),
  })
  .meta({ id: 'PrintedFigure', description: 'A figure in the digits and the unit of its source' });
const printed = z.strictObject({ value: z.string().max(40), unit: z.string().max(12) });
const bounds = z.strictObject({ low: Figure.nullable(), high: Figure.nullable() });

const place = z.strictObject({
  code: code(40),
  name: words(80),
  layer: z.enum(['cover', 'head', 'cylinder', 'case']).nullable(),
  material: words(60),
  /** Millionths per kelvin, with the standard uncertainty of that figure. */
  expansion: z.strictObject({ value: z.string().max(12), uncertainty: z.string().max(12) }).nullable(),
  plated: z.boolean(),
});

const position = z.strictObject({
  code: code(40),
  label: words(80),
  level: z.int().min(1).max(50).nullable(),
  axis: someWords(20).nullable(),
  height: printed.nullable(),
});

const reference = code(60).nullable();
const dimension = z
  .strictObject({
    code: code(60),
    name: words(80),
    place: code(40),
    kind: Kind,
    unit: z.string().max(12),
    decimals: z.int().min(0).max(6),
    method: MethodName,
    boreRule: z.enum(['per-level', 'extremes']).nullable(),
    readingsOf: reference,
    minuend: reference,
    subtrahend: reference,
    numerator: reference,
    denominator: reference,
    scale: Figure.nullable(),
    stated: Figure.nullable(),
    rule: Rule,
    inside: z.boolean(),
    nominal: Figure.nullable(),
    plausibleSpan: Figure.nullable(),
    instrumentKind: words(40),
    caution: words(300),
    source: words(120),
    page: words(40),
    positions: z.array(position).max(60),
    limits: z.array(z.strictObject({ sizeClass: code(40), standard: bounds, service: bounds })).max(60),
  })
  .meta({ id: 'PrintedDimension' });

const fasteners = z.strictObject({
  code: code(40),
  name: words(80),
  thread: words(40),
  propertyClass: words(20),
  condition: z.enum(['dry', 'oiled', 'locking compound']),
  tool: words(80),
  reuse: z.enum(['reuse', 'inspect', 'one-time']),
  orderIsMakers: z.boolean(),
  source: words(120),
  page: words(40),
  /** In tightening order. */
  positions: z.array(z.strictObject({ x: printed, y: printed })).max(60),
  stages: z.array(z.strictObject({ torque: printed.nullable(), angle: printed.nullable() })).max(10),
});

const valve = z.strictObject({
  code: code(40),
  name: words(80),
  side: z.enum(['intake', 'exhaust']),
  dimension: code(60),
  wanted: printed,
  adjuster: z.enum(['shim under bucket', 'shim on bucket', 'screw']),
  shimDiameter: printed.nullable(),
  shimSizes: z.strictObject({ low: printed, high: printed }).nullable(),
  screwPitch: printed.nullable(),
});

const ring = z.strictObject({
  code: code(40),
  name: words(80),
  /** Null: by its pin, or by the rule of thumb. */
  angle: printed.nullable(),
  part: z.enum(['compression', 'spacer', 'rail']).optional(),
  pin: printed.nullable().optional(),
  mark: words(20).optional(),
  faces: z.enum(['crown', 'skirt', 'either']).optional(),
});

/** A whole spec sheet as it is written down: docs/spec-sheets.md tells the shape. */
export const SpecSheetDocument = z
  .strictObject({
    shape: z.literal(1),
    family: z.strictObject({ code: words(12), name: words(60) }),
    note: words(500),
    figuresInvented: z.boolean(),
    places: z.array(place).max(200),
    dimensions: z.array(dimension).max(500),
    fasteners: z.array(fasteners).max(60),
    ringSeparation: printed.nullable(),
    /** Least angle of an oil rail’s gap from any other. */
    railOffset: printed.nullable().optional(),
    rings: z.array(ring).max(20),
    ringZones: z.array(z.strictObject({ from: printed, to: printed, reason: words(200) })).max(20),
    valves: z.array(valve).max(20),
    proofs: z
      .array(
        z.strictObject({
          code: code(40),
          name: words(80),
          dimension: reference,
          words: words(500),
          caution: words(300),
        }),
      )
      .max(40),
  })
  .meta({ id: 'SpecSheetDocument', examples: [sheetExample] });
export type SpecSheetDocument = z.infer<typeof SpecSheetDocument>;

export const NewFamily = z
  .strictObject({
    code: z.string().regex(/^[A-Z0-9-]{2,12}$/, 'is 2 to 12 of A-Z, 0-9 and -'),
    name: someWords(60),
    cycle: z.enum(['four-stroke', 'two-stroke']),
    cooling: z.enum(['water', 'air']),
    bore: Quantity,
    stroke: Quantity,
  })
  .meta({
    id: 'NewFamily',
    examples: [
      {
        code: 'R510',
        name: 'Rimfell 510',
        cycle: 'four-stroke',
        cooling: 'water',
        bore: { value: '95.0', unit: 'mm' },
        stroke: { value: '72.0', unit: 'mm' },
      },
    ],
  });
export type NewFamily = z.infer<typeof NewFamily>;

export const Revision = z
  .strictObject({
    id: Id,
    number: z.int(),
    note: z.string(),
    figuresInvented: z.boolean(),
    draftedBy: Named.nullable(),
    draftedAt: Instant,
    publishedBy: Named.nullable(),
    /** null: a draft, which its version tells apart from what it was before. */
    publishedAt: Instant.nullable(),
    version: z.int(),
    dimensions: z.int(),
    /** Jobs bound to it: those still in the shop, and all. */
    openJobs: z.int(),
    jobs: z.int(),
  })
  .meta({ id: 'SpecRevision' });
export type Revision = z.infer<typeof Revision>;

/** Every revision of a family, the newest first. */
export const Revisions = z
  .strictObject({
    family: z.strictObject({ id: Id, code: z.string(), name: z.string() }),
    items: z.array(Revision),
  })
  .meta({ id: 'SpecRevisions' });
export type Revisions = z.infer<typeof Revisions>;

/** A draft begins as a copy of a revision of the family, or as a document; without either it is empty. */
export const DraftRevision = z
  .strictObject({ copyOf: Id.optional(), document: SpecSheetDocument.optional() })
  .refine(({ copyOf, document }) => copyOf === undefined || document === undefined, 'copyOf or document, not both')
  .meta({ id: 'DraftRevision', examples: [{ copyOf: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b' }] });
export type DraftRevision = z.infer<typeof DraftRevision>;

export const Drafted = z.strictObject({ id: Id, number: z.int(), version: z.int() }).meta({ id: 'Drafted' });
export type Drafted = z.infer<typeof Drafted>;

export const DraftKept = z
  .strictObject({ version: z.int(), dimensions: z.int(), figures: z.int() })
  .meta({ id: 'DraftKept' });
export type DraftKept = z.infer<typeof DraftKept>;

export const Published = z.strictObject({ number: z.int(), publishedAt: Instant }).meta({ id: 'Published' });
export type Published = z.infer<typeof Published>;

export const SheetChange = z
  .strictObject({
    kind: z.enum(['added', 'removed', 'changed', 'printed otherwise']),
    part: z.enum(['sheet', 'place', 'dimension', 'fasteners', 'ring', 'ring zone', 'valve', 'proof']),
    code: z.string(),
    name: z.string(),
    sizeClass: z.string().nullable(),
    /** "standard high", "page", "position A-across" …; empty: the whole. */
    field: z.string(),
    from: z.string().nullable(),
    to: z.string().nullable(),
  })
  .meta({ id: 'SheetChange' });
export const SheetChanges = z
  .strictObject({
    from: z.strictObject({ id: Id, number: z.int() }),
    to: z.strictObject({ id: Id, number: z.int() }),
    items: z.array(SheetChange),
  })
  .meta({ id: 'SheetChanges' });
export type SheetChanges = z.infer<typeof SheetChanges>;

/** The jobs bound to a revision: those still in the shop first, the newest of the others up to a hundred. */
export const RevisionJobs = z
  .strictObject({
    items: z.array(
      z.strictObject({ id: Id, number: z.int(), engineId: Id, serial: z.string(), handedBackAt: Instant.nullable() }),
    ),
  })
  .meta({ id: 'RevisionJobs' });
export type RevisionJobs = z.infer<typeof RevisionJobs>;

export const SheetChecked = z
  .strictObject({
    faults: z.array(z.strictObject({ pointer: z.string(), detail: z.string() })),
    /** Figures to read again, that keep it from nothing. */
    notes: z.array(z.strictObject({ pointer: z.string(), detail: z.string() })),
  })
  .meta({ id: 'SheetChecked', description: 'What is wrong with the sheet; no faults: nothing' });
export type SheetChecked = z.infer<typeof SheetChecked>;
