import { z } from 'zod';
import { bayKinds, FloorBay } from './floor.ts';
import { calibrationStates } from './instruments.ts';
import { roles } from './rights.ts';
import { Day, Id, Named, someWords, words } from './wire.ts';

/** The shop as it is set up: who works here, where, with whom and with what. */
export const ShopFacts = z
  .strictObject({
    name: z.string(),
    zone: z.string(),
    locale: z.string(),
    currency: z.string(),
    openLimitMinutes: z.int(),
    figuresInvented: z.boolean(),
    bays: z.array(FloorBay.omit({ engineIds: true })),
    people: z.array(z.strictObject({ id: Id, name: z.string(), initials: z.string(), roles: z.array(z.enum(roles)) })),
    vendors: z.array(z.strictObject({ id: Id, name: z.string(), trade: z.string(), contact: z.string() })),
    terminals: z.array(z.strictObject({ id: Id, name: z.string(), bay: Named.nullable() })),
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

export const AddVendor = z
  .strictObject({ name: someWords(120), trade: someWords(120), contact: words(300).optional() })
  .meta({ id: 'AddVendor', examples: [{ name: 'Saltmere Plating', trade: 'plating' }] });
export type AddVendor = z.infer<typeof AddVendor>;

export const AddOwner = z
  .strictObject({ name: someWords(120), contact: words(300).optional() })
  .meta({ id: 'AddOwner', examples: [{ name: 'Ingrid Falk', contact: 'calls after five' }] });
export type AddOwner = z.infer<typeof AddOwner>;
