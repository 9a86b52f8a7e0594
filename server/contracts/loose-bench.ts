import { z } from 'zod';
import { CrossCheck, WorkedOutFinding } from './findings.ts';
import { boreAndPiston, mm, ringGap, threeRepeats } from './loose-bench-examples.ts';
import { Blades } from './readings.ts';
import { Kind, MethodName, Rule } from './specs.ts';
import { Day, Quantity, QuantityInterval, words } from './wire.ts';

const code = words(60).min(1);
const perKelvin = z.number().min(0).max(0.001);
const bounds = z.strictObject({ low: Quantity.optional(), high: Quantity.optional() });

const dimension = z.strictObject({
  code,
  name: words(120).optional(),
  /** Left out: length. */
  kind: Kind.optional(),
  /** In which figures are answered, and with how many decimals (up to three more where they need them); mm and 3. */
  unit: words(12).optional(),
  decimals: z.int().min(0).max(6).optional(),
  method: MethodName,
  /** For size, out-of-round and taper; left out: per-level. */
  boreRule: z.enum(['per-level', 'extremes']).optional(),
  readingsOf: code.optional(),
  minuend: code.optional(),
  subtrahend: code.optional(),
  /** Of a ratio. */
  numerator: code.optional(),
  denominator: code.optional(),
  /** The numerator is told at this much of the denominator; left out: a plain ratio, of kind "ratio". */
  scale: Quantity.optional(),
  /** A figure that is stated, not measured. */
  stated: Quantity.optional(),
  /** Left out: the positions that are read. A level counts from the top; an axis is a name. */
  positions: z
    .array(z.strictObject({ code, level: z.int().min(1).max(100).optional(), axis: words(20).min(1).optional() }))
    .min(1)
    .max(200)
    .optional(),
  /** Left out: the 2017 edition, 1.65 u. */
  rule: Rule.optional(),
  /** What is possible at all, nominal ± span: a reading outside it is asked about. */
  plausible: z.strictObject({ nominal: Quantity, span: Quantity }).optional(),
  /** A plated surface: what is about to be done to it is held against that. */
  plated: z.boolean().optional(),
  about: z.enum(['bore', 'hone']).optional(),
  /** Expansion of the part; without it, or without temperatures, nothing is corrected to 20 °C. */
  material: z.strictObject({ expansionPerKelvin: perKelvin, uncertaintyPerKelvin: perKelvin.optional() }).optional(),
});

const instrument = z.strictObject({
  code,
  /** What it measures; left out: length. */
  quantityKind: Kind.optional(),
  resolution: Quantity,
  /** ±. */
  maximumPermissibleError: Quantity,
  repeatability: z
    .strictObject({ standardDeviation: Quantity, degreesOfFreedom: z.int().min(1).max(100_000).optional() })
    .optional(),
  /** value = reading − zero error. */
  zeroError: Quantity.optional(),
  masterUncertainty: Quantity.optional(),
  /** Standard uncertainty of its error over a short travel; left out: maximum permissible error / √3. */
  localUncertainty: Quantity.optional(),
  range: z.strictObject({ low: Quantity, high: Quantity }).optional(),
  expansionPerKelvin: perKelvin.optional(),
  expansionUncertaintyPerKelvin: perKelvin.optional(),
  calibrationDue: Day.optional(),
  blades: z
    .array(z.strictObject({ thickness: Quantity, tolerance: Quantity }))
    .max(200)
    .optional(),
});

const reading = z.strictObject({
  dimension: code,
  /** Left out: "1". */
  position: code.optional(),
  /** Left out: counted from 1 in the order given. */
  repeat: z.int().min(1).max(500).optional(),
  instrument: code.optional(),
  value: Quantity.optional(),
  interval: z.strictObject({ ...Blades.shape, unit: words(12) }).optional(),
  felt: z.boolean().optional(),
  partTemperature: Quantity.optional(),
  /** Left out: as the part. */
  instrumentTemperature: Quantity.optional(),
  /** Standard uncertainty of the thermometer, kelvin; left out: 0. */
  temperatureUncertainty: z.number().min(0).max(20).optional(),
  /** Who read it: where there are several, they are held against each other. */
  readBy: words(60).min(1).optional(),
});

export const LooseFindings = z
  .strictObject({
    /** The day it is, for calibrations. */
    day: Day,
    dimensions: z.array(dimension).min(1).max(60),
    limits: z
      .array(z.strictObject({ dimension: code, standard: bounds.optional(), service: bounds.optional() }))
      .max(60),
    instruments: z.array(instrument).max(60),
    readings: z.array(reading).min(1).max(2000),
    /** An earlier round of the same parts: a ring's gap must have grown as the bore has. */
    earlierReadings: z.array(reading).min(1).max(2000).optional(),
  })
  .meta({ id: 'LooseFindings', examples: [threeRepeats, boreAndPiston, ringGap] });
export type LooseFindings = z.infer<typeof LooseFindings>;

export const LooseFindingsFound = z
  .strictObject({
    findings: z.array(WorkedOutFinding),
    /** Dimensions that can't be worked out, and why. */
    refused: z.array(z.strictObject({ dimension: z.string(), reason: z.string(), words: z.string() })),
    /** What is asked about single readings: unit slips, what is hardly possible, more decimals than the instrument has. */
    questions: z.array(
      z.strictObject({ reading: z.int(), code: z.string(), words: z.string(), suggestion: Quantity.nullable() }),
    ),
    crossChecks: z.array(CrossCheck),
  })
  .meta({ id: 'LooseFindingsFound' });
export type LooseFindingsFound = z.infer<typeof LooseFindingsFound>;

export const LooseShim = z
  .strictObject({
    /** Measured with a micrometer; the printed number wears off. `uncertainty` is U (k = 2), left out: 0. */
    fitted: z.strictObject({ thickness: Quantity, uncertainty: Quantity.optional() }),
    /** By feeler: the thickest blade that went in, the thinnest that did not. */
    lash: QuantityInterval,
    wanted: Quantity,
    range: z.strictObject({ low: Quantity, high: Quantity }),
    shimDiameter: Quantity,
    candidates: z
      .array(
        z.strictObject({
          /** stays: the fitted one; engine: from another valve; bin; buy. */
          from: z.enum(['stays', 'engine', 'bin', 'buy']),
          name: words(60).min(1).optional(),
          thickness: Quantity,
          uncertainty: Quantity.optional(),
          /** Left out: the head's. */
          diameter: Quantity.optional(),
          count: z.int().min(0).max(10_000).optional(),
        }),
      )
      .max(500),
    makersSizes: z.strictObject({ low: Quantity, high: Quantity }),
  })
  .meta({
    id: 'LooseShim',
    examples: [
      {
        fitted: { thickness: mm('2.35') },
        lash: { low: '0.09', high: '0.09', unit: 'mm' },
        wanted: mm('0.13'),
        range: { low: mm('0.10'), high: mm('0.15') },
        shimDiameter: mm('7.48'),
        candidates: [
          { from: 'stays', thickness: mm('2.35') },
          { from: 'bin', name: 'S-230', thickness: mm('2.30'), count: 3 },
        ],
        makersSizes: { low: mm('1.20'), high: mm('3.50') },
      },
    ],
  });
export type LooseShim = z.infer<typeof LooseShim>;

export const LooseShimFound = z
  .strictObject({
    /** The shim that would bring the lash to what is wanted. */
    wanted: QuantityInterval,
    chosen: z
      .strictObject({ from: z.string(), name: z.string(), thickness: Quantity })
      .nullable()
      .meta({ description: 'null: none will do; see words' }),
    /** The lash after fitting it. */
    after: QuantityInterval.nullable(),
    standing: z.enum(['guaranteed', 'possible', 'out']),
    words: z.string(),
  })
  .meta({ id: 'LooseShimFound' });
export type LooseShimFound = z.infer<typeof LooseShimFound>;

const degrees = (value: string) => ({ value, unit: 'deg' });

export const LooseRingClock = z
  .strictObject({
    rings: z
      .array(
        z.strictObject({
          code,
          name: words(120).optional(),
          makersAngle: Quantity.optional(),
          /** Where its gap was turned to, clockwise from the arrow on the crown; left out: not placed. */
          placed: Quantity.optional(),
          /** Left out: a compression ring. */
          part: z.enum(['compression', 'spacer', 'rail']).optional(),
          /** Where a pin in the groove holds the gap (two-stroke): it isn’t turned. */
          pin: Quantity.optional(),
          /** Where its mark has to face, and where it was seen to; left out: not judged. */
          faces: z.enum(['crown', 'skirt', 'either']).optional(),
          seenFacing: z.enum(['crown', 'skirt']).optional(),
        }),
      )
      .min(1)
      .max(20),
    zones: z
      .array(z.strictObject({ from: Quantity, to: Quantity, reason: words(120) }))
      .max(20)
      .optional(),
    leastSeparation: Quantity.optional(),
    angleTolerance: Quantity.optional(),
    /** Least angle of an oil rail from any other gap; left out: as of the others. */
    railOffset: Quantity.optional(),
    /** Given: rings that are not placed go by pin, maker or rule of thumb. What is left out of it: 45°, 90°, 45°. */
    rule: z
      .strictObject({
        start: Quantity.optional(),
        spacerOffset: Quantity.optional(),
        railOffset: Quantity.optional(),
      })
      .optional(),
  })
  .meta({
    id: 'LooseRingClock',
    examples: [
      {
        rings: [
          { code: 'top', placed: degrees('120') },
          { code: 'second', placed: degrees('240') },
          { code: 'rail', placed: degrees('275') },
        ],
        zones: [{ from: degrees('265'), to: degrees('285'), reason: 'over the pin' }],
        leastSeparation: degrees('90'),
      },
      {
        rings: [
          { code: 'top' },
          { code: 'second' },
          { code: 'spacer', part: 'spacer' },
          { code: 'upper rail', part: 'rail' },
          { code: 'lower rail', part: 'rail' },
        ],
        zones: [
          { from: degrees('80'), to: degrees('100'), reason: 'over the pin' },
          { from: degrees('260'), to: degrees('280'), reason: 'over the pin' },
        ],
        leastSeparation: degrees('90'),
        railOffset: degrees('30'),
        rule: {},
      },
    ],
  });
export type LooseRingClock = z.infer<typeof LooseRingClock>;

export const LooseRingClockFound = z
  .strictObject({
    well: z.boolean(),
    rings: z.array(
      z.strictObject({
        code: z.string(),
        well: z.boolean(),
        words: z.array(z.string()),
        /** Where its gap stands, and who says so; null: nobody. */
        angle: Quantity.nullable(),
        by: z.enum(['placed', 'pin', 'maker', 'rule']).nullable(),
      }),
    ),
  })
  .meta({ id: 'LooseRingClockFound' });
export type LooseRingClockFound = z.infer<typeof LooseRingClockFound>;

const newtonMetres = (value: string) => ({ value, unit: 'N.m' });

export const LooseTorque = z
  .strictObject({
    thread: words(20).min(1),
    propertyClass: words(10).min(1),
    torque: Quantity,
    adapter: z
      .strictObject({
        wrenchLength: Quantity,
        adapterLength: Quantity,
        /** 0°: straight on; 90°: square to the handle; beyond: turned back. */
        angle: Quantity,
      })
      .optional(),
    /** Where the bolts sit; the order is worked out: inside out and criss-cross. */
    positions: z
      .array(z.strictObject({ number: z.int().min(1).max(1000), x: Quantity, y: Quantity }))
      .max(200)
      .optional(),
  })
  .meta({
    id: 'LooseTorque',
    examples: [
      {
        thread: 'M10x1.25',
        propertyClass: '10.9',
        torque: newtonMetres('60'),
        adapter: { wrenchLength: mm('400'), adapterLength: mm('45'), angle: degrees('0') },
        positions: [
          { number: 1, x: mm('-50'), y: mm('-50') },
          { number: 2, x: mm('50'), y: mm('-50') },
          { number: 3, x: mm('-50'), y: mm('50') },
          { number: 4, x: mm('50'), y: mm('50') },
        ],
      },
    ],
  });
export type LooseTorque = z.infer<typeof LooseTorque>;

export const LooseTorqueFound = z
  .strictObject({
    guard: z.strictObject({
      kind: z.enum(['usual', 'note', 'warn', 'not-judged']),
      /** Of the proof load, at a nut factor of 0.20. */
      shareOfProof: z.number().nullable(),
      atThreeQuartersOfProof: Quantity.nullable(),
      words: z.string(),
    }),
    /** What to set at the wrench so that the bolt gets the torque. */
    setting: Quantity.nullable(),
    tightening: z.array(z.int()),
    loosening: z.array(z.int()),
  })
  .meta({ id: 'LooseTorqueFound' });
export type LooseTorqueFound = z.infer<typeof LooseTorqueFound>;
