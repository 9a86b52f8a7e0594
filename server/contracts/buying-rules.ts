import { z } from 'zod';
import { Instant, Money, someWords } from './wire.ts';

const figures = {
  /** Of a hundred lead times, so many without a shortage. */
  servicePercent: z
    .number()
    .min(50, 'must be from 50 to 99.9')
    .max(99.9, 'must be from 50 to 99.9')
    .refine((value) => Number.isInteger(Math.round(value * 1e6) / 1e5), 'must have one decimal at most'),
  /** What one order costs to write, receive and pay. */
  orderCost: Money,
  /** What a year on the shelf costs, of the price in a hundred. */
  holdingPercent: z
    .number()
    .min(0.1, 'must be from 0.1 to 100')
    .max(100, 'must be from 0.1 to 100')
    .refine((value) => Number.isInteger(Math.round(value * 1e6) / 1e5), 'must have one decimal at most'),
  /** Days from order to delivery, of a part that nothing came of yet. */
  leadDays: z.int('must be whole days').min(1).max(365),
  /** So many days of use are read. */
  historyDays: z.int('must be whole days').min(28).max(1095),
};

export const SetBuyingRule = z.strictObject({ ...figures, reason: someWords(300) }).meta({
  id: 'SetBuyingRule',
  examples: [
    {
      servicePercent: 97.5,
      orderCost: { minor: '1800', currency: 'EUR' },
      holdingPercent: 22,
      leadDays: 12,
      historyDays: 365,
      reason: 'two jobs stood still in spring',
    },
  ],
});
export type SetBuyingRule = z.infer<typeof SetBuyingRule>;

const rule = z.strictObject({ ...figures, reason: z.string(), setBy: z.string(), setAt: Instant });

export const BuyingRules = z
  .strictObject({
    /** What holds now; nobody set it: the figures the product comes with, which are common practice. */
    inForce: z.strictObject(figures),
    /** Newest first. */
    history: z.array(rule),
  })
  .meta({ id: 'BuyingRules' });
export type BuyingRules = z.infer<typeof BuyingRules>;
