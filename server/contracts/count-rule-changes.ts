import { z } from 'zod';
import { SetCountRule, StockClass } from './counts.ts';

/** What is set for the rules of several classes at once; what is left out stays, class by class. */
export const ChangeCountRules = z
  .strictObject({
    classes: z.array(StockClass).min(1, 'must name one class at least').max(3, 'must name each class once'),
    tolerancePieces: SetCountRule.shape.tolerancePieces.optional(),
    tolerancePercent: SetCountRule.shape.tolerancePercent.optional(),
    everyDays: SetCountRule.shape.everyDays.optional(),
  })
  .meta({ id: 'ChangeCountRules', examples: [{ classes: ['A', 'B'], everyDays: 45 }] });
export type ChangeCountRules = z.infer<typeof ChangeCountRules>;

const CountRuleFact = z.enum(['tolerancePieces', 'tolerancePercent', 'everyDays']);

/** What was, or would be, changed: class by class, from what to what. */
export const CountRulesChanged = z
  .strictObject({
    items: z.array(
      z.strictObject({
        class: StockClass,
        changes: z.array(z.strictObject({ fact: CountRuleFact, from: z.string(), to: z.string() })),
      }),
    ),
    /** Classes that have such a rule already. */
    unchanged: z.int(),
    /** How many bins are due to be counted, before and after. */
    due: z.strictObject({ from: z.int(), to: z.int() }),
  })
  .meta({ id: 'CountRulesChanged' });
export type CountRulesChanged = z.infer<typeof CountRulesChanged>;
