import { z } from 'zod';
import { Id, Instant, Money, PageQuery, pageOf, Quantity, someWords, words } from './wire.ts';

/** Whole pieces somebody asks for, moves or counts: never a fraction, never below one. */
export const Pieces = z.int('must be whole pieces').min(1).max(100_000);
/** Whole pieces that may be none. */
export const Count = z.int('must be whole pieces').min(0).max(100_000);

/** A grade's mark, as it stands on the piece or its box: B, 2, brown. */
export const Grade = someWords(20).regex(/^[^\r\n\t]*$/, 'must be one line');

export const PartName = z.strictObject({ id: Id, number: z.string(), name: z.string() }).meta({ id: 'PartName' });
export type PartName = z.infer<typeof PartName>;

/** A job as stores speak of it: its number and the engine it is about. */
export const JobName = z
  .strictObject({ id: Id, number: z.int(), engineId: Id, serial: z.string(), family: z.string() })
  .meta({ id: 'JobName' });
export type JobName = z.infer<typeof JobName>;

/** What one of a part is. */
export const PartUnit = z.enum(['piece', 'pair', 'set', 'ml', 'g', 'mm']);
/** How many of a part's unit one pack of a vendor has. */
export const PackSize = z.int('must be whole ones of its unit').min(1).max(100_000);

/** What is ordered: so many of the part's unit, or so many packs. */
export const orderedOnes = {
  /** In the part's unit: whole packs of it. */
  quantity: Pieces.optional(),
  packs: Pieces.optional(),
  /** Of one pack; left out: as the vendor sells it today, else one. Another one than today's needs a price. */
  packSize: PackSize.optional(),
};
/** Of a part that was replaced: why it is ordered all the same. Without it such a line is refused. */
export const replacedWhy = someWords(300).optional();
/** What the vendor is told of an order's line: in which grade, how thick. */
export const lineWords = words(300).optional();

export const isSaidOneWay = (line: { quantity?: number | undefined; packs?: number | undefined }): boolean =>
  (line.quantity === undefined) !== (line.packs === undefined);
export const sayOneWay: { error: string; path: PropertyKey[] } = {
  error: 'say either how many, or how many packs',
  path: ['quantity'],
};

/** What came, or goes: loose ones, whole packs of the size that its purchase line has, or both. */
export const cameOnes = { quantity: Count.optional(), packs: Count.optional() };
export const isSome = ({
  quantity = 0,
  packs = 0,
}: {
  quantity?: number | undefined;
  packs?: number | undefined;
}): boolean => quantity + packs > 0;
export const saySome: { error: string; path: PropertyKey[] } = { error: 'must be one or more', path: ['quantity'] };

export const Lot = z
  .strictObject({
    id: Id,
    code: z.string(),
    bin: z.string(),
    /** Measured thickness, where the lot was measured. */
    thickness: Quantity.nullable(),
    /** The mark that the lot bears itself; empty: it is of its part's grade. */
    grade: z.string(),
    serial: z.string().nullable(),
    /** Taken out of an engine and good to go in again; `condition` says what was measured on it. */
    used: z.boolean(),
    condition: z.string(),
    onHand: z.int(),
    reserved: z.int(),
    available: z.int(),
    receivedAt: Instant,
    /** Its share of what the part's stock is worth; only for those who may see money. */
    value: Money.nullable(),
  })
  .meta({ id: 'Lot' });
export type Lot = z.infer<typeof Lot>;

export const Part = z
  .strictObject({
    id: Id,
    number: z.string(),
    name: z.string(),
    familyId: Id.nullable(),
    placeCode: z.string().nullable(),
    sizeClass: z.string().nullable(),
    grade: z.string(),
    /** Nominal thickness, of a shim. */
    shim: Quantity.nullable(),
    shimDiameter: Quantity.nullable(),
    oneTime: z.boolean(),
    /** Code of the set on its family’s sheets that it is one fastener of. */
    fastenerSet: z.string().nullable(),
    /** What one of it is: stock is kept in whole ones. */
    unit: PartUnit,
    /** Kept one by one, each with its serial. */
    bySerial: z.boolean(),
    onHand: z.int(),
    reserved: z.int(),
    available: z.int(),
    coming: z.int(),
    reorderPoint: z.int(),
    retired: z.boolean(),
    supersededBy: PartName.nullable(),
    /** Only for those who may see money. */
    price: Money.nullable(),
    /** What a vendor charges for the old one until it is sent back; only for those who may see money. */
    core: Money.nullable(),
    /** What all that is on hand is worth, at the moving average of the part; only for those who may see money. */
    value: Money.nullable(),
    /** What one of it is worth; null when there is none. */
    average: Money.nullable(),
    lots: z.array(Lot),
  })
  .meta({ id: 'Part' });
export type Part = z.infer<typeof Part>;

export const PartsQuery = PageQuery.extend({
  /** Part of a number or a name. */
  search: words(60).optional(),
  /** Parts that fit this family: its own, and those that fit every family. */
  familyId: Id.optional(),
  /** Parts that fit this place of an engine, such as the piston. */
  placeCode: words(40).optional(),
  /** `true`: shims only; `false`: everything else. */
  shims: z.enum(['true', 'false']).optional(),
  /** A shim's nominal thickness in millimetres, exactly. */
  thickness: z
    .string()
    .regex(/^\d{1,2}(\.\d{1,6})?$/, 'must be millimetres such as 2.30')
    .optional(),
});
export type PartsQuery = z.infer<typeof PartsQuery>;
export const PartPage = pageOf(Part);

export const Movement = z
  .strictObject({
    id: Id,
    lotId: Id,
    act: z.string(),
    onHandChange: z.int(),
    reservedChange: z.int(),
    value: Money.nullable(),
    jobNumber: z.int().nullable(),
    reason: z.string(),
    /** Empty: the service itself, when a hold ran out or stock was free for who waited. */
    by: z.string(),
    at: Instant,
  })
  .meta({ id: 'Movement' });
export type Movement = z.infer<typeof Movement>;

/** Who has pieces of a part promised, from which lot. */
export const PartHolder = z
  .strictObject({
    demandLineId: Id,
    lotId: Id,
    job: JobName,
    quantity: z.int(),
    promisedOn: z.iso.date().nullable(),
    expiresAt: Instant.nullable(),
  })
  .meta({ id: 'PartHolder' });

export const PartSheet = z
  .strictObject({
    part: Part,
    holders: z.array(PartHolder),
    companions: z.array(z.strictObject({ part: PartName, quantity: z.int() })),
    movements: pageOf(Movement),
  })
  .meta({ id: 'PartSheet' });
export type PartSheet = z.infer<typeof PartSheet>;

export const KitsQuery = z.object({ familyId: Id.optional() });
export const Kit = z
  .strictObject({
    id: Id,
    familyId: Id,
    name: z.string(),
    lines: z.array(z.strictObject({ part: PartName, quantity: z.int(), available: z.int() })),
  })
  .meta({ id: 'Kit' });
export type Kit = z.infer<typeof Kit>;
