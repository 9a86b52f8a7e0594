import { z } from 'zod';
import { CrossCheck, Finding, MissingPositions, Round, WorkedOutFinding } from './findings.ts';
import { Id, Instant, Named, Quantity, QuantityInterval, someWords, words } from './wire.ts';

const code = (max: number) => words(max).min(1);
/** The figure as it is keyed: a point or a comma, a sign, in inches a fraction. It is read digit by digit. */
const keyed = words(40);

export const Blades = z
  .strictObject({
    /** The thickest that went in; blades laid together are added up: "0.25+0.10". null: none went in. */
    go: keyed.nullable(),
    /** The thinnest that did not go in. null: the thickest went in. */
    noGo: keyed.nullable(),
  })
  .meta({ id: 'Blades', examples: [{ go: '0.25+0.10', noGo: '0.40' }] });

export const KeyedReading = z
  .strictObject({
    position: code(40),
    repeat: z.int().min(1).max(50),
    /** What the instrument showed; left out for a feeler interval and for play felt by hand. */
    text: keyed.optional(),
    /** Left out: the unit the sheet prints. */
    unit: words(12).optional(),
    instrumentCode: code(20).optional(),
    partTemperature: Quantity.optional(),
    /** Left out: as the part. */
    instrumentTemperature: Quantity.optional(),
    interval: Blades.optional(),
    /** Play felt by hand (true) or none (false). */
    felt: z.boolean().optional(),
  })
  .meta({ id: 'KeyedReading' });
export type KeyedReading = z.infer<typeof KeyedReading>;

export const KeyReadings = z
  .strictObject({
    round: Round,
    dimension: code(60),
    readings: z.array(KeyedReading).min(1).max(200),
    /** Sent again with it, a reading that was asked about (25.4 times off, hardly possible) is kept, with the reason. */
    confirmReason: someWords(300).optional(),
  })
  .meta({
    id: 'KeyReadings',
    examples: [
      {
        round: 'as received',
        dimension: 'bore',
        readings: [
          {
            position: 'A-across',
            repeat: 1,
            text: '88.048',
            unit: 'mm',
            instrumentCode: 'BG-2',
            partTemperature: { value: '22.5', unit: 'degC' },
          },
        ],
      },
      {
        round: 'as received',
        dimension: 'ring-gap-top',
        readings: [
          {
            position: '1',
            repeat: 1,
            unit: 'mm',
            instrumentCode: 'FE-1',
            interval: { go: '0.25+0.10', noGo: '0.40' },
          },
        ],
      },
    ],
  });
export type KeyReadings = z.infer<typeof KeyReadings>;

export const Reading = z
  .strictObject({
    id: Id,
    round: Round,
    dimension: z.string(),
    position: z.string(),
    repeat: z.int(),
    /** As it was keyed. */
    text: z.string(),
    unit: z.string(),
    observation: z.enum(['value', 'interval', 'felt']),
    value: Quantity.nullable(),
    interval: QuantityInterval.nullable(),
    play: z.boolean().nullable(),
    /** True: the keyed figure was no whole number of base units. */
    rounded: z.boolean(),
    instrument: Named.nullable(),
    partTemperature: Quantity.nullable(),
    instrumentTemperature: Quantity.nullable(),
    confirmReason: z.string(),
    fittedPartId: Id.nullable(),
    readBy: Named,
    readAt: Instant,
  })
  .meta({ id: 'Reading' });
export type Reading = z.infer<typeof Reading>;

const judged = {
  /** Findings that changed: each supersedes the one before it. */
  findings: z.array(Finding),
  /** What cannot be worked out yet of what these readings are for. */
  missing: z.array(MissingPositions),
  crossChecks: z.array(CrossCheck),
  obligations: z.strictObject({ opened: z.array(Id), discharged: z.array(Id), reopened: z.array(Id) }),
};

export const KeptReadings = z
  .strictObject({ readings: z.array(Reading), ...judged, warnings: z.array(z.string()) })
  .meta({ id: 'KeptReadings' });
export type KeptReadings = z.infer<typeof KeptReadings>;

export const StrikeReading = z
  .strictObject({ reason: someWords(300) })
  .meta({ id: 'StrikeReading', examples: [{ reason: 'read the scale wrong' }] });
export type StrikeReading = z.infer<typeof StrikeReading>;

export const StruckReading = z.strictObject({ readingId: Id, ...judged }).meta({ id: 'StruckReading' });
export type StruckReading = z.infer<typeof StruckReading>;

/** What would be asked, and what would be refused, if it were kept. */
const question = z.strictObject({
  code: z.string(),
  words: z.string(),
  suggestion: Quantity.nullable(),
  refused: z.boolean(),
});

export const Preview = z
  .strictObject({
    typed: z.array(
      z.strictObject({
        position: z.string(),
        repeat: z.int(),
        /** As it would be kept; null when it can't be read. */
        value: Quantity.nullable(),
        interval: QuantityInterval.nullable(),
        questions: z.array(question),
        /** This one reading held against the dimension's limits; null where one reading alone says nothing. */
        alone: WorkedOutFinding.nullable(),
      }),
    ),
    /** Every dimension that can be worked out of what is there and what is typed. */
    findings: z.array(WorkedOutFinding),
    missing: z.array(MissingPositions),
    crossChecks: z.array(CrossCheck),
    warnings: z.array(z.string()),
  })
  .meta({ id: 'ReadingsPreview', description: 'Nothing of it is kept' });
export type Preview = z.infer<typeof Preview>;
