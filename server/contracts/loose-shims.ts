import { z } from 'zod';
import { mm } from './loose-bench-examples.ts';
import { Quantity, QuantityInterval, words } from './wire.ts';

const name = words(60).min(1);
const Standing = z.enum(['guaranteed', 'possible', 'out']);
const measured = z.strictObject({ thickness: Quantity, uncertainty: Quantity.optional() });

const valve = z.strictObject({
  valve: name,
  /** By feeler: the thickest blade that went in, the thinnest that did not. */
  lash: QuantityInterval,
  wanted: Quantity,
  range: z.strictObject({ low: Quantity, high: Quantity }),
  /** The shim in it, under or on the bucket, measured with a micrometer. `uncertainty` is U (k = 2), left out: 0. */
  fitted: measured.optional(),
  /** Instead of `fitted`: the pitch of a screw that bears on the valve. */
  screwPitch: Quantity.optional(),
});

const stored = z.strictObject({
  from: z.enum(['bin', 'buy']),
  name,
  thickness: Quantity,
  uncertainty: Quantity.optional(),
  /** Left out: the first head's. */
  diameter: Quantity.optional(),
  /** Left out: one in a bin, as many as are wanted to buy. */
  count: z.int().min(0).max(10_000).optional(),
});

/** Two intake valves that are tight, two exhaust valves that could exchange shims. */
const example = {
  heads: [
    {
      name: 'head',
      shimDiameter: mm('7.48'),
      makersSizes: { low: mm('1.20'), high: mm('3.50') },
      valves: [
        { valve: 'IN-L', lash: ['0.08', '0.09'], fitted: '2.350', wanted: '0.13', range: ['0.10', '0.15'] },
        { valve: 'IN-R', lash: ['0.12', '0.13'], fitted: '2.402', wanted: '0.13', range: ['0.10', '0.15'] },
        { valve: 'EX-L', lash: ['0.15', '0.16'], fitted: '2.298', wanted: '0.20', range: ['0.17', '0.22'] },
        { valve: 'EX-R', lash: ['0.24', '0.25'], fitted: '2.251', wanted: '0.20', range: ['0.17', '0.22'] },
      ].map(({ lash: [low = '', high = ''], range: [least = '', most = ''], ...one }) => ({
        valve: one.valve,
        lash: { low, high, unit: 'mm' },
        wanted: mm(one.wanted),
        range: { low: mm(least), high: mm(most) },
        fitted: { thickness: mm(one.fitted), uncertainty: mm('0.004') },
      })),
    },
  ],
  stored: [
    { from: 'bin', name: 'S-230', thickness: mm('2.302'), uncertainty: mm('0.004'), count: 3 },
    { from: 'bin', name: 'S-235', thickness: mm('2.349'), uncertainty: mm('0.004'), count: 1 },
    { from: 'buy', name: 'SH-748-2.325', thickness: mm('2.325'), uncertainty: mm('0.005') },
  ],
};

export const LooseShims = z
  .strictObject({
    /** Solved together: they draw on the same bins. */
    heads: z
      .array(
        z.strictObject({
          name,
          shimDiameter: Quantity,
          /** The thinnest and the thickest shim that its maker has. */
          makersSizes: z.strictObject({ low: Quantity, high: Quantity }),
          /** In the order in which they are served where everything else comes to the same. */
          valves: z.array(valve).min(1).max(24),
        }),
      )
      .min(1)
      .max(4),
    stored: z.array(stored).max(500),
  })
  .meta({ id: 'LooseShims', examples: [example] });
export type LooseShims = z.infer<typeof LooseShims>;

const shim = { from: z.enum(['stays', 'engine', 'bin', 'buy']), name: z.string(), thickness: Quantity };

export const LooseShimsFound = z
  .strictObject({
    /** How many valves are guaranteed in range, possibly, or not; and how many shims are bought, or out of the bins. */
    guaranteed: z.int(),
    possible: z.int(),
    out: z.int(),
    bought: z.int(),
    fromBins: z.int(),
    valves: z.array(
      z.strictObject({
        head: z.string(),
        valve: z.string(),
        /** How the lash stands as it was measured. */
        before: Standing,
        /** The shim that would bring the lash to what is wanted; null for a screw. */
        wanted: QuantityInterval.nullable(),
        chosen: z.strictObject(shim).nullable().meta({ description: 'null: a screw, or none will do; see words' }),
        after: QuantityInterval.nullable(),
        standing: Standing,
        /** What else would do and is nobody's, the best first. */
        alternatives: z.array(z.strictObject({ ...shim, after: QuantityInterval, standing: Standing })),
        /** Of a screw: above zero in, less lash. */
        turn: z.strictObject({ least: Quantity, middle: Quantity, most: Quantity }).nullable(),
        words: z.string(),
      }),
    ),
    /** Valves whose shim comes out and goes into no other. */
    comeOut: z.array(z.strictObject({ head: z.string(), valve: z.string(), thickness: Quantity })),
  })
  .meta({ id: 'LooseShimsFound' });
export type LooseShimsFound = z.infer<typeof LooseShimsFound>;
