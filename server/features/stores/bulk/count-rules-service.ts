import type { ChangeCountRules, CountRulesChanged } from '#contracts/count-rule-changes.ts';
import type { CountRule } from '#contracts/counts.ts';
import type { Act } from '#platform/act.ts';
import { countRules, countSchedule, setCountRule } from '../counting/schedule.ts';
import { lockRules } from '../counting/schedule-queries.ts';
import { differences, refuseNothing } from './changing.ts';

const facts = ['tolerancePieces', 'tolerancePercent', 'everyDays'] as const;

const binsDue = async (act: Act): Promise<number> => (await countSchedule(act.sql, false, 1)).due;

/** Changes the rules of several classes in one act, each as if it were set alone. */
export async function changeCountRules(act: Act, asked: ChangeCountRules): Promise<CountRulesChanged> {
  const { classes, ...set } = asked;
  refuseNothing(Object.keys(set).length === 0);
  await lockRules(act.sql);
  const from = await binsDue(act);
  const own = (await countRules(act.sql)).items.filter(({ class: of }) => classes.includes(of));
  const items: CountRulesChanged['items'] = [];
  for (const rule of own) {
    const to = changed(rule, set);
    const changes = differences(facts, rule, to);
    if (changes.length === 0) continue;
    const { setBy: _, ...wanted } = to;
    await setCountRule(act, wanted);
    items.push({ class: rule.class, changes });
  }
  return { items, unchanged: own.length - items.length, due: { from, to: await binsDue(act) } };
}

/** The rule as it would stand; a percentage is compared as it is told. */
function changed(rule: CountRule, set: Omit<ChangeCountRules, 'classes'>): CountRule {
  return {
    ...rule,
    tolerancePieces: set.tolerancePieces ?? rule.tolerancePieces,
    tolerancePercent:
      set.tolerancePercent === undefined
        ? rule.tolerancePercent
        : String(Number(set.tolerancePercent.replace(',', '.'))),
    everyDays: set.everyDays ?? rule.everyDays,
  };
}
