import { z } from 'zod';
import { AdapterOnWrench } from './assembly.ts';
import { Quantity } from './wire.ts';

const nm = (value: string) => ({ value, unit: 'N.m' });
const mm = (value: string) => ({ value, unit: 'mm' });
const deg = (value: string) => ({ value, unit: 'deg' });
const words = (most: number) => z.string().max(most);

const position = z.strictObject({ number: z.int().min(1).max(999), x: Quantity, y: Quantity });

/** Positions of one set, each number once; two in one place are refused. */
export const LoosePositions = z.array(position).min(1).max(100);

export const LooseFasteners = z
  .strictObject({
    thread: words(20).optional(),
    propertyClass: words(10).optional(),
    reuse: z.enum(['reuse', 'inspect', 'one-time']).optional(),
    /** True: the numbers are the maker's order. Else it is worked out, inside out and criss-cross. */
    orderIsMakers: z.boolean().optional(),
    positions: LoosePositions,
    /** In their order; a torque or an angle each. */
    stages: z
      .array(z.strictObject({ torque: Quantity.optional(), angle: Quantity.optional() }))
      .max(10)
      .optional(),
    /** A log to check, pull by pull as they were made. */
    pulls: z
      .array(z.strictObject({ fastener: z.int(), stage: z.int(), value: Quantity }))
      .max(1000)
      .optional(),
  })
  .meta({
    id: 'LooseFasteners',
    examples: [
      {
        thread: 'M10x1.25',
        propertyClass: '10.9',
        reuse: 'one-time',
        positions: [
          { number: 1, x: mm('-50'), y: mm('50') },
          { number: 2, x: mm('50'), y: mm('50') },
          { number: 3, x: mm('50'), y: mm('-50') },
          { number: 4, x: mm('-50'), y: mm('-50') },
        ],
        stages: [{ torque: nm('30') }, { angle: deg('90') }],
        pulls: [
          { fastener: 1, stage: 1, value: nm('30.2') },
          { fastener: 2, stage: 1, value: nm('30.1') },
        ],
      },
    ],
  });
export type LooseFasteners = z.infer<typeof LooseFasteners>;

const Guard = z.strictObject({
  kind: z.enum(['usual', 'note', 'warn', 'not-judged']),
  shareOfProof: z.number().nullable(),
  words: z.string().nullable(),
});

export const LooseFastenersFound = z
  .strictObject({
    tightening: z.array(z.int()),
    loosening: z.array(z.int()),
    stages: z.array(
      z.strictObject({
        stage: z.int(),
        figure: Quantity,
        guard: Guard,
        done: z.array(z.int()),
        missing: z.array(z.int()),
      }),
    ),
    /** Each pull of the log: taken, or why not. What isn't taken doesn't count. */
    log: z.array(
      z.strictObject({ fastener: z.int(), stage: z.int(), taken: z.boolean(), words: z.string().nullable() }),
    ),
    next: z.strictObject({ fastener: z.int(), stage: z.int(), figure: Quantity }).nullable(),
    complete: z.boolean(),
    torqueToYield: z.boolean(),
    /** What loosening the set asks for. */
    afterLoosening: z.enum(['nothing', 'inspect', 'renew']),
  })
  .meta({ id: 'LooseFastenersFound' });
export type LooseFastenersFound = z.infer<typeof LooseFastenersFound>;

export const LooseWrench = z
  .strictObject({
    /** Wanted at the bolt. */
    torque: Quantity,
    adapter: AdapterOnWrench.optional(),
    /** The day it is used. */
    day: z.iso.date(),
    wrenches: z
      .array(
        z.strictObject({
          code: words(40).min(1),
          largest: Quantity,
          calibratedUntil: z.iso.date().nullable(),
          pulls: z.int().min(0).max(10_000_000).optional(),
          /** 5 000 when left out. */
          pullsAllowed: z.int().min(1).max(10_000_000).optional(),
        }),
      )
      .max(100),
  })
  .meta({
    id: 'LooseWrench',
    examples: [
      {
        torque: nm('60'),
        adapter: { wrenchLength: mm('400'), adapterLength: mm('45'), angle: deg('0') },
        day: '2026-11-25',
        wrenches: [
          { code: 'TW-1', largest: nm('50'), calibratedUntil: '2027-03-01', pulls: 120 },
          { code: 'TW-2', largest: nm('100'), calibratedUntil: '2027-03-01', pulls: 480 },
          { code: 'TW-3', largest: nm('200'), calibratedUntil: '2026-09-30', pulls: 5000 },
        ],
      },
    ],
  });
export type LooseWrench = z.infer<typeof LooseWrench>;

export const LooseWrenchFound = z
  .strictObject({
    /** What to set at the wrench: the torque itself without an adapter. */
    setting: Quantity,
    /** Code of the wrench to take; null: none fits. */
    take: z.string().nullable(),
    wrenches: z.array(
      z.strictObject({
        code: z.string(),
        fits: z.boolean(),
        smallest: Quantity,
        largest: Quantity,
        /** Permissible deviation, of the setting. */
        deviation: z.number(),
        faults: z.array(z.string()),
      }),
    ),
  })
  .meta({ id: 'LooseWrenchFound' });
export type LooseWrenchFound = z.infer<typeof LooseWrenchFound>;
