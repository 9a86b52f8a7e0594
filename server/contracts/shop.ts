import { z } from 'zod';
import { bayKinds } from './bays.ts';
import { FloorBay } from './floor.ts';
import { calibrationStates } from './instruments.ts';
import { roles } from './rights.ts';
import { Day, Id, Named, someWords, words } from './wire.ts';

/** The shop as its papers begin: name, address in lines, and how it is reached. */
export const ShopHead = z
  .strictObject({ name: z.string(), address: z.string(), phone: z.string(), email: z.string() })
  .meta({ id: 'ShopHead' });
export type ShopHead = z.infer<typeof ShopHead>;

/** The shop as it is set up: who works here, where, with whom and with what. */
export const ShopFacts = z
  .strictObject({
    ...ShopHead.shape,
    zone: z.string(),
    locale: z.string(),
    currency: z.string(),
    openLimitMinutes: z.int(),
    figuresInvented: z.boolean(),
    bays: z.array(FloorBay.omit({ engineIds: true })),
    people: z.array(z.strictObject({ id: Id, name: z.string(), initials: z.string(), roles: z.array(z.enum(roles)) })),
    vendors: z.array(z.strictObject({ id: Id, name: z.string(), trade: z.string(), contact: z.string() })),
    terminals: z.array(
      z.strictObject({
        id: Id,
        name: z.string(),
        bay: Named.nullable(),
        /** Whoever is signed in is tapped out after so many minutes without a touch; null: never. */
        idleMinutes: z.int().nullable(),
      }),
    ),
    families: z.array(
      z.strictObject({
        id: Id,
        code: z.string(),
        name: z.string(),
        /** The newest published spec sheet; null: none yet. */
        revision: z.int().nullable(),
      }),
    ),
    instruments: z.array(
      z.strictObject({
        id: Id,
        code: z.string(),
        name: z.string(),
        calibrationDueOn: Day.nullable(),
        calibration: z.enum(calibrationStates),
        checkedToday: z.boolean(),
      }),
    ),
  })
  .meta({ id: 'ShopFacts' });
export type ShopFacts = z.infer<typeof ShopFacts>;

function isZone(zone: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: zone }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

function isLocale(tag: string): boolean {
  try {
    return Intl.DateTimeFormat.supportedLocalesOf(tag).length > 0;
  } catch {
    return false;
  }
}

const Cell = z.int().min(1).max(100);

export const AddBay = z
  .strictObject({
    name: someWords(60),
    kind: z.enum(bayKinds),
    /** So many engines stand in it at most. */
    capacity: z.int().min(1).max(100),
    /** Its place on the floor plan, in cells from the top left. */
    grid: z.strictObject({ column: Cell, row: Cell, width: Cell.optional(), height: Cell.optional() }),
  })
  .meta({
    id: 'AddBay',
    examples: [{ name: 'Bay 6', kind: 'machining', capacity: 1, grid: { column: 3, row: 2 } }],
  });
export type AddBay = z.infer<typeof AddBay>;

export const ChangeBay = z
  .strictObject({
    name: someWords(60).optional(),
    kind: z.enum(bayKinds).optional(),
    capacity: z.int().min(1).max(100).optional(),
    grid: z.strictObject({ column: Cell, row: Cell, width: Cell.optional(), height: Cell.optional() }).optional(),
  })
  .refine((asked) => Object.keys(asked).length > 0, 'must change something')
  .meta({ id: 'ChangeBay', examples: [{ capacity: 2 }] });
export type ChangeBay = z.infer<typeof ChangeBay>;

const Idle = z.int().min(1).max(720).nullable();

export const AddTerminal = z
  .strictObject({ name: someWords(60), bayId: Id.nullable(), idleMinutes: Idle })
  .meta({ id: 'AddTerminal', examples: [{ name: 'Terminal bay 6', bayId: null, idleMinutes: 10 }] });
export type AddTerminal = z.infer<typeof AddTerminal>;

export const ChangeTerminal = AddTerminal.partial()
  .refine((asked) => Object.keys(asked).length > 0, 'must change something')
  .meta({ id: 'ChangeTerminal', examples: [{ idleMinutes: 5 }] });
export type ChangeTerminal = z.infer<typeof ChangeTerminal>;

/** An IANA zone this machine knows. */
const Zone = z.string().max(64).refine(isZone, 'is no time zone, such as Europe/Oslo');
/** Loosely: whether somebody reads it, only a letter to it tells. */
const Email = words(120).regex(/^\s*([^@\s]+@[^@\s]+)?\s*$/, 'is no e-mail address, such as parts@example.org');
const Locale = z.string().max(35).refine(isLocale, 'is no language tag, such as en-GB');

export const ChangeShop = z
  .strictObject({
    name: someWords(120).optional(),
    /** In lines, as on a letter; empty: none. */
    address: words(300).optional(),
    phone: words(60).optional(),
    email: Email.optional(),
    zone: Zone.optional(),
    locale: Locale.optional(),
  })
  .refine((asked) => Object.keys(asked).length > 0, 'must change something')
  .meta({ id: 'ChangeShop', examples: [{ name: 'Quarry Lane Engines', address: 'Quarry Lane 7\n4021 Saltmere' }] });
export type ChangeShop = z.infer<typeof ChangeShop>;

export const ChangeVendor = z
  .strictObject({ name: someWords(120).optional(), trade: someWords(120).optional(), contact: words(300).optional() })
  .refine((asked) => Object.keys(asked).length > 0, 'must change something')
  .meta({ id: 'ChangeVendor', examples: [{ contact: 'weekdays before four' }] });
export type ChangeVendor = z.infer<typeof ChangeVendor>;

export const AddVendor = z
  .strictObject({ name: someWords(120), trade: someWords(120), contact: words(300).optional() })
  .meta({ id: 'AddVendor', examples: [{ name: 'Saltmere Plating', trade: 'plating' }] });
export type AddVendor = z.infer<typeof AddVendor>;

export const AddOwner = z
  .strictObject({ name: someWords(120), contact: words(300).optional() })
  .meta({ id: 'AddOwner', examples: [{ name: 'Ingrid Falk', contact: 'calls after five' }] });
export type AddOwner = z.infer<typeof AddOwner>;
