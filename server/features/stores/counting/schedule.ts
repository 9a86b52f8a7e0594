import type { CountRule, CountSchedule, DueBin, SetCountRule, StockClass } from '#contracts/counts.ts';
import { countsPerDay, nextDue, stockClasses, usualLimits } from '#domain/stock/classes.ts';
import type { CountTolerance } from '#domain/stock/counting.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { pricedFor } from '../supply/money.ts';
import { type BinLying, findClasses, findLying } from './class-queries.ts';
import { findRules, insertRule, type RuleRow } from './schedule-queries.ts';

/**
 * Where a shop has set nothing: A monthly, B quarterly, C twice a year (Heizer, Render and Munson, ch. 12), and ±0.2 %,
 * ±1 % and ±5 % of the books, the usual figures of inventory control (from memory, no source at hand).
 */
const usualRules: readonly Omit<RuleRow, 'setBy'>[] = [
  { class: 'A', tolerancePieces: 0, tolerancePermille: 2, everyDays: 30 },
  { class: 'B', tolerancePieces: 0, tolerancePermille: 10, everyDays: 91 },
  { class: 'C', tolerancePieces: 0, tolerancePermille: 50, everyDays: 182 },
];

interface Rule extends Omit<RuleRow, 'setBy'> {
  readonly setBy: string | null;
}

async function rulesNow(sql: Sql): Promise<ReadonlyMap<StockClass, Rule>> {
  const set = await findRules(sql);
  return new Map(
    usualRules.map((usual) => [
      usual.class,
      set.find((rule) => rule.class === usual.class) ?? { ...usual, setBy: null },
    ]),
  );
}

const told = ({ tolerancePermille, ...rule }: Rule): CountRule => ({
  ...rule,
  tolerancePercent: String(tolerancePermille / 10),
});

export async function countRules(sql: Sql): Promise<{ items: CountRule[] }> {
  return { items: [...(await rulesNow(sql)).values()].map(told) };
}

export async function setCountRule(act: Act, asked: SetCountRule): Promise<{ items: CountRule[] }> {
  const { tolerancePercent, ...rule } = asked;
  const tolerancePermille = Math.round(Number(tolerancePercent.replace(',', '.')) * 10);
  await insertRule(act.sql, { ...rule, tolerancePermille, byId: act.actor.id });
  await act.event('count.rule-set', { data: { ...asked } });
  return countRules(act.sql);
}

export async function toleranceOf(sql: Sql): Promise<(of: StockClass) => CountTolerance> {
  const rules = await rulesNow(sql);
  return (of) => {
    const { tolerancePieces: pieces = 0, tolerancePermille: permille = 0 } = rules.get(of) ?? {};
    return { pieces, permille };
  };
}

/** What was not used within a year is C. */
export async function classOfParts(sql: Sql, partIds: readonly string[]): Promise<(partId: string) => StockClass> {
  const classes = new Map((await findClasses(sql, partIds)).map((one) => [one.partId, one.class]));
  return (partId) => classes.get(partId) ?? 'C';
}

const shownParts = 40;

export async function countSchedule(sql: Sql, seesMoney: boolean, limit: number | null = 60): Promise<CountSchedule> {
  const [lying, rules, priced] = await Promise.all([
    findLying(sql, shownParts),
    rulesNow(sql),
    pricedFor(sql, seesMoney),
  ]);
  const bins = dueBins(lying.bins, rules);
  const count = (of: StockClass) => bins.filter((bin) => bin.class === of).length;
  const upTo = { A: usualLimits.a, B: usualLimits.b, C: 1 };
  return {
    bins: bins.slice(0, limit ?? bins.length),
    total: bins.length,
    due: bins.filter(({ state }) => state !== 'later').length,
    perDay: countsPerDay(bins.map(({ everyDays }) => ({ count: 1, everyDays }))),
    classes: stockClasses.map((one) => ({
      class: one,
      bins: count(one),
      parts: lying.classes[one] ?? 0,
      upToShare: upTo[one],
    })),
    parts: lying.parts.map(({ worth, ...part }) => ({ ...part, used: priced(worth) })),
    rules: [...rules.values()].map(told),
  };
}

const urgency = { never: 0, overdue: 1, due: 2, later: 3 } as const;

/** Never counted first, then by the day they are due; of the same day those of the strictest class, as one walks past them. */
function dueBins(lying: readonly BinLying[], rules: ReadonlyMap<StockClass, Rule>): readonly DueBin[] {
  return lying
    .map(({ id, code, today, ...bin }): DueBin => {
      const everyDays = rules.get(bin.class)?.everyDays ?? 182;
      return { bin: { id, code }, ...bin, everyDays, ...nextDue(bin.countedOn, everyDays, today) };
    })
    .toSorted(
      (one, other) =>
        urgency[one.state] - urgency[other.state] ||
        (one.dueOn ?? '').localeCompare(other.dueOn ?? '') ||
        one.class.localeCompare(other.class),
    );
}
