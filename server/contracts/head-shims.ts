import { z } from 'zod';
import { ShimAnswer, Standing, ValveStanding } from './assembly.ts';
import { Id, Quantity, QuantityInterval } from './wire.ts';

/** The shims that are in the valves, by micrometer; what is printed on them is kept apart. */
export const FittedShims = z
  .strictObject({
    valves: z
      .array(
        z.strictObject({
          valve: z.string().min(1).max(40),
          thickness: Quantity,
          /** Expanded (k = 2); 0.004 mm when left out. */
          uncertainty: Quantity.optional(),
          printed: Quantity.optional(),
        }),
      )
      .min(1)
      .max(32),
  })
  .meta({
    id: 'FittedShims',
    examples: [
      {
        valves: [
          { valve: 'in-l', thickness: { value: '2.342', unit: 'mm' }, printed: { value: '2.35', unit: 'mm' } },
          { valve: 'in-r', thickness: { value: '2.402', unit: 'mm' } },
        ],
      },
    ],
  });
export type FittedShims = z.infer<typeof FittedShims>;

export const FittedShimsKept = z.strictObject({ valves: z.array(ValveStanding) }).meta({ id: 'FittedShimsKept' });
export type FittedShimsKept = z.infer<typeof FittedShimsKept>;

/** The valves of a head: lash as felt, or as last measured in the job; the shim in each as measured. */
const HeadValves = z
  .array(
    z.strictObject({
      valve: z.string().min(1).max(40),
      /** Left out: the lash last measured in this job. */
      lash: QuantityInterval.optional(),
      /** Of a valve with shims. Left out: as last measured in this job. */
      fitted: Quantity.optional(),
      /** Expanded uncertainty (k = 2) of the fitted shim's measured thickness; 0.004 mm when left out. */
      fittedUncertainty: Quantity.optional(),
    }),
  )
  .min(1)
  .max(32);

const choosing = {
  /** Lots that turned out not to be in their bin: they are left out. */
  without: z.array(Id).max(50).optional(),
  /** The proposal that was shown: taken as shown, or refused when the bins have changed since. */
  seen: z.string().max(64).optional(),
};

export const HeadShimsQuestion = z.strictObject({ valves: HeadValves, ...choosing }).meta({
  id: 'HeadShimsQuestion',
  examples: [
    {
      valves: [
        { valve: 'in-l', lash: { low: '0.08', high: '0.09', unit: 'mm' }, fitted: { value: '2.350', unit: 'mm' } },
        { valve: 'in-r', lash: { low: '0.12', high: '0.13', unit: 'mm' }, fitted: { value: '2.402', unit: 'mm' } },
      ],
    },
  ],
});
export type HeadShimsQuestion = z.infer<typeof HeadShimsQuestion>;

/** Several heads that draw on the same bins, chosen for together. */
export const HeadsShimsQuestion = z
  .strictObject({
    heads: z
      .array(z.strictObject({ jobId: Id, valves: HeadValves }))
      .min(1)
      .max(8),
    ...choosing,
  })
  .meta({
    id: 'HeadsShimsQuestion',
    examples: [
      {
        heads: [
          {
            jobId: '0190a6a0-0000-7000-8000-000000000001',
            valves: [{ valve: 'in-l', fitted: { value: '2.350', unit: 'mm' } }],
          },
          { jobId: '0190a6a0-0000-7000-8000-000000000002', valves: [{ valve: 'in-l' }, { valve: 'in-r' }] },
        ],
      },
    ],
  });
export type HeadsShimsQuestion = z.infer<typeof HeadsShimsQuestion>;

const counts = {
  guaranteed: z.int(),
  possible: z.int(),
  out: z.int(),
  bought: z.int(),
  fromBins: z.int(),
};

const head = {
  ...counts,
  valves: z.array(
    z.strictObject({
      ...ShimAnswer.shape,
      name: z.string(),
      /** The lash that was reckoned with, and how it stands. */
      lash: QuantityInterval,
      before: Standing,
      /** The valve that the chosen shim moves over from. */
      movesFrom: z.string().nullable(),
      /** What else would do and is nobody's, the best first. */
      alternatives: z.array(z.strictObject({ thickness: Quantity, words: z.string(), standing: Standing })),
    }),
  ),
  /** Valves whose shim comes out and goes into no other. */
  comeOut: z.array(z.string()),
  /** Shims asked for before and not handed out: they are called off when these are taken. */
  calledOff: z.array(z.string()),
};

/** Names this proposal; send it back to take what it shows. */
const seen = z.string();

export const HeadShimsAnswer = z.strictObject({ ...head, seen }).meta({ id: 'HeadShimsAnswer' });
export type HeadShimsAnswer = z.infer<typeof HeadShimsAnswer>;

export const HeadsShimsAnswer = z
  .strictObject({
    ...counts,
    heads: z.array(z.strictObject({ jobId: Id, job: z.int(), serial: z.string(), ...head })),
    seen,
  })
  .meta({ id: 'HeadsShimsAnswer' });
export type HeadsShimsAnswer = z.infer<typeof HeadsShimsAnswer>;

/** Engines in the shop whose valves take shims of the same diameter, and what is known of them. */
export const HeadsBeside = z
  .strictObject({
    items: z.array(
      z.strictObject({
        jobId: Id,
        job: z.int(),
        serial: z.string(),
        family: z.string(),
        valves: z.array(z.strictObject({ code: z.string(), name: z.string() })),
        /** Valves whose lash or fitted shim is not measured yet; none: it can be chosen for. */
        missing: z.array(z.string()),
      }),
    ),
  })
  .meta({ id: 'HeadsBeside' });
export type HeadsBeside = z.infer<typeof HeadsBeside>;
