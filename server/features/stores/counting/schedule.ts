import type { ClassedPart, CountRule, CountSchedule, DueBin, SetCountRule, StockClass } from '#contracts/counts.ts';
import {
  type Classed,
  classesByUse,
  countsPerDay,
  nextDue,
  stockClasses,
  strictest,
  usualLimits,
} from '#domain/stock/classes.ts';
import type { CountTolerance } from '#domain/stock/counting.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { type Priced, pricedFor } from '../supply/money.ts';
import {
  type BinLying,
  findBinsLying,
  findRules,
  findUsedParts,
  insertRule,
  type RuleRow,
  type UsedPart,
} from './schedule-queries.ts';

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

interface PartInClass {
  readonly part: UsedPart;
  readonly class: StockClass;
  readonly byValue: Classed;
  readonly byMovement: Classed;
}

/** Classed by value and by movement, of which the stricter holds; greatest use first. Parts not among them are C. */
function classify(used: readonly UsedPart[]): readonly PartInClass[] {
  const parts = new Map(used.map((part) => [part.id, part]));
  const moves = new Map(
    classesByUse(used.map(({ id, movements }) => ({ id, amount: movements }))).map((one) => [one.id, one]),
  );
  return classesByUse(used.map(({ id, worth }) => ({ id, amount: worth }))).flatMap((byValue) => {
    const [part, byMovement] = [parts.get(byValue.id), moves.get(byValue.id)];
    if (part === undefined || byMovement === undefined) return [];
    return [{ part, byValue, byMovement, class: strictest([byValue.class, byMovement.class]) }];
  });
}

export async function classOfParts(sql: Sql): Promise<(partId: string) => StockClass> {
  const classes = new Map(classify(await findUsedParts(sql)).map((one) => [one.part.id, one.class]));
  return (partId) => classes.get(partId) ?? 'C';
}

const shownParts = 40;

export async function countSchedule(sql: Sql, seesMoney: boolean, limit = 60): Promise<CountSchedule> {
  const [used, lying, rules, priced] = await Promise.all([
    findUsedParts(sql),
    findBinsLying(sql),
    rulesNow(sql),
    pricedFor(sql, seesMoney),
  ]);
  const classed = classify(used);
  const bins = dueBins(lying, { classed, rules });
  const count = (of: StockClass) => bins.filter((bin) => bin.class === of).length;
  const upTo = { A: usualLimits.a, B: usualLimits.b, C: 1 };
  return {
    bins: bins.slice(0, limit),
    total: bins.length,
    due: bins.filter(({ state }) => state !== 'later').length,
    perDay: countsPerDay(bins.map(({ everyDays }) => ({ count: 1, everyDays }))),
    classes: stockClasses.map((one) => ({
      class: one,
      bins: count(one),
      parts: classed.filter((part) => part.class === one).length,
      upToShare: upTo[one],
    })),
    parts: classed.slice(0, shownParts).map((one) => shown(one, priced)),
    rules: [...rules.values()].map(told),
  };
}

const shown = (of: PartInClass, priced: Priced): ClassedPart => ({
  part: { id: of.part.id, number: of.part.number, name: of.part.name },
  class: of.class,
  used: priced(of.part.worth),
  share: of.byValue.share,
  before: of.byValue.before,
  byValue: of.byValue.class,
  movements: of.part.movements,
  byMovement: of.byMovement.class,
});

interface Classing {
  readonly classed: readonly PartInClass[];
  readonly rules: ReadonlyMap<StockClass, Rule>;
}

const urgency = { never: 0, overdue: 1, due: 2, later: 3 } as const;

/** Never counted first, then by the day they are due; of the same day those of the strictest class, as one walks past them. */
function dueBins(lying: readonly BinLying[], { classed, rules }: Classing): readonly DueBin[] {
  const byPart = new Map(classed.map((one) => [one.part.id, one]));
  return lying
    .map((bin): DueBin => {
      const inside = bin.partIds.flatMap((id) => byPart.get(id) ?? []);
      const of = strictest(inside.map((one) => one.class));
      const because = inside.find((one) => one.class === of)?.part;
      const everyDays = rules.get(of)?.everyDays ?? 182;
      return {
        bin: { id: bin.id, code: bin.code },
        class: of,
        because: because === undefined ? null : { id: because.id, number: because.number, name: because.name },
        lots: bin.lots,
        countedOn: bin.countedOn,
        everyDays,
        ...nextDue(bin.countedOn, everyDays, bin.today),
        sheet: bin.sheet,
      };
    })
    .toSorted(
      (one, other) =>
        urgency[one.state] - urgency[other.state] ||
        (one.dueOn ?? '').localeCompare(other.dueOn ?? '') ||
        one.class.localeCompare(other.class),
    );
}
