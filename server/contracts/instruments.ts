import { z } from 'zod';
import { Kind } from './specs.ts';
import { Day, Id, Instant, Named, Quantity, someWords, words } from './wire.ts';

/** In date, due within 30 days, overdue, or never said when. */
export const calibrationStates = ['in date', 'due soon', 'overdue', 'no date'] as const;

const Check = z.strictObject({
  id: Id,
  /** What it shows where it should show nothing. */
  zeroError: Quantity,
  master: z.string(),
  /** Standard uncertainty of the setting master. */
  masterUncertainty: Quantity,
  checkedBy: Named,
  checkedAt: Instant,
});

export const InstrumentFacts = z
  .strictObject({
    id: Id,
    code: z.string(),
    name: z.string(),
    instrumentKind: z.string(),
    kind: z.string(),
    unit: z.string(),
    decimals: z.int(),
    range: z.strictObject({ low: Quantity, high: Quantity }),
    resolution: Quantity,
    /** Maximum permissible error, ±. */
    mpe: Quantity,
    /** Standard deviation of one reading from its own study; null: not known. */
    repeatability: Quantity.nullable(),
    /** The gauge study it comes from; null: from elsewhere, or not known. */
    repeatabilityStudyId: Id.nullable(),
    /** The blades of a feeler set: thickness and its tolerance, ±. */
    blades: z.array(z.strictObject({ thickness: Quantity, tolerance: Quantity })),
    calibratedOn: Day.nullable(),
    calibrationDueOn: Day.nullable(),
    calibration: z.enum(calibrationStates),
    lastCheck: Check.nullable(),
    /** Whether the last check was made today, in the shop's zone. */
    checkedToday: z.boolean(),
  })
  .meta({ id: 'InstrumentFacts' });
export type InstrumentFacts = z.infer<typeof InstrumentFacts>;

export const Instruments = z
  .strictObject({ items: z.array(InstrumentFacts) })
  .meta({ id: 'Instruments', description: 'In use, by code' });
export type Instruments = z.infer<typeof Instruments>;

export const CheckInstrument = z
  .strictObject({
    zeroError: Quantity,
    /** The ring, gauge block or wrench it was set with. */
    master: words(120).optional(),
    masterUncertainty: Quantity.optional(),
  })
  .meta({
    id: 'CheckInstrument',
    examples: [
      {
        zeroError: { value: '0.002', unit: 'mm' },
        master: 'setting ring 88.000',
        masterUncertainty: { value: '0.0005', unit: 'mm' },
      },
    ],
  });
export type CheckInstrument = z.infer<typeof CheckInstrument>;
export const Checked = Check.meta({ id: 'InstrumentChecked' });
export type Checked = z.infer<typeof Checked>;

const Span = z.strictObject({ low: Quantity, high: Quantity });

export const AddInstrument = z
  .strictObject({
    /** What is engraved on it, or on its label. */
    code: someWords(20),
    name: someWords(120),
    /** What kind of instrument spec sheets ask for by this word. */
    instrumentKind: someWords(60),
    kind: Kind,
    /** The unit it reads in. */
    unit: someWords(12),
    decimals: z.int().min(0).max(6),
    range: Span,
    resolution: Quantity,
    mpe: Quantity,
    /** Standard uncertainty of its error over a short travel, from its certificate. */
    localUncertainty: Quantity.optional(),
    blades: z
      .array(z.strictObject({ thickness: Quantity, tolerance: Quantity }))
      .max(60)
      .optional(),
  })
  .meta({
    id: 'AddInstrument',
    examples: [
      {
        code: 'MIC-9',
        name: 'Micrometer 75 to 100',
        instrumentKind: 'micrometer',
        kind: 'length',
        unit: 'mm',
        decimals: 3,
        range: { low: { value: '75', unit: 'mm' }, high: { value: '100', unit: 'mm' } },
        resolution: { value: '0.001', unit: 'mm' },
        mpe: { value: '0.003', unit: 'mm' },
      },
    ],
  });
export type AddInstrument = z.infer<typeof AddInstrument>;

export const Calibrate = z
  .strictObject({
    calibratedOn: Day,
    dueOn: Day,
    certificate: words(120).optional(),
    /** What the certificate says now; as before when left out. */
    mpe: Quantity.optional(),
  })
  .meta({
    id: 'Calibrate',
    examples: [{ calibratedOn: '2026-11-02', dueOn: '2027-11-02', certificate: 'QL-2026-118' }],
  });
export type Calibrate = z.infer<typeof Calibrate>;
export const Calibrated = z
  .strictObject({ id: Id, calibratedOn: Day, dueOn: Day.nullable(), certificate: z.string(), mpe: Quantity })
  .meta({ id: 'Calibrated' });
export type Calibrated = z.infer<typeof Calibrated>;

export const Retire = z
  .strictObject({ reason: someWords(300) })
  .meta({ id: 'Retire', examples: [{ reason: 'Dropped, anvil chipped' }] });
export type Retire = z.infer<typeof Retire>;
