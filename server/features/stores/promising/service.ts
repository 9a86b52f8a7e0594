import type { PartName } from '#contracts/parts.ts';
import type { PartPromise, PartsReady, PromiseQuery } from '#contracts/promising.ts';
import { chainToPromise } from '#domain/stock/chain-promise.ts';
import { kitReady, type Promised } from '#domain/stock/completion.ts';
import { ruleWords } from '#domain/stock/lot-rule.ts';
import { daysLater, firstDayFor, type PromiseDay, promisableOn } from '#domain/stock/promise.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { jobExists } from '../demands/queries.ts';
import { findAlternatives } from '../instead/queries.ts';
import { kindKey, kindsByPart, orderable } from './kinds.ts';
import { type ChainFacts, chainFacts, freeOf, lacksOf, linesReady } from './ready-lines.ts';

/**
 * What can be promised of a part for a day, and day by day, over all that is free, comes and is wanted, of its own and
 * of every number that serves in its place; and beside it what could be promised of alternatives, which no rule takes.
 */
export async function partPromise(sql: Sql, partId: string, asked: PromiseQuery): Promise<PartPromise> {
  const alternatives = await findAlternatives(sql, partId);
  const facts = await chainFacts(sql, [partId, ...alternatives.map(({ part }) => part.id)]);
  const { today } = facts;
  const { part, onHand, reserved, usedFree, ...own } = found(facts.stock.get(partId), 'such part');
  const servedBy = facts.servedBy.get(partId) ?? [partId];
  const days = daysOf(facts, partId);
  const on = asked.on === undefined || asked.on < today ? today : asked.on;
  const quantity = asked.quantity ?? 1;
  const leadDays = facts.leadDays.get(servedBy.at(-1) ?? partId) ?? null;
  const coming = facts.coming.filter((line) => servedBy.includes(line.partId));
  return {
    part,
    today,
    onHand,
    reserved,
    free: freeOf({ part, onHand, reserved, usedFree, ...own }),
    usedFree,
    numbers: servedBy.flatMap((id) => {
      const stock = facts.stock.get(id);
      const comes = coming.filter((line) => line.partId === id && isDated(line, today));
      return stock === undefined ? [] : [{ part: stock.part, free: freeOf(stock), comes: sumOf(comes) }];
    }),
    alternatives: alternatives.map((other) => ({
      part: other.part,
      condition: other.condition,
      promisable: promisableOn(daysOf(facts, other.part.id), on),
    })),
    asked: {
      on,
      quantity,
      promisable: promisableOn(days, on),
      firstOn: firstDayFor(days, quantity),
      ifOrderedOn: leadDays === null ? null : daysLater(today, leadDays),
    },
    days: [...days],
    undated: sumOf(coming.filter((line) => !isDated(line, today))),
    leadDays,
    wishes: facts.wishes
      .filter((wish) => facts.servedBy.get(wish.partId)?.some((id) => servedBy.includes(id)))
      .map(({ id, part: wanted, job, short, notAsked, promisedOn }) => ({
        demandLineId: id,
        part: wanted,
        job,
        short,
        notAsked,
        promisedOn,
      })),
  };
}

type Coming = ChainFacts['coming'][number];

const isDated = ({ promisedOn }: Coming, today: string): boolean => promisedOn !== null && promisedOn >= today;
const sumOf = (lines: readonly Coming[]): number => lines.reduce((sum, { open }) => sum + open, 0);

/** Day by day what can be promised of one of the parts whose facts these are. */
function daysOf(facts: ChainFacts, partId: string): readonly PromiseDay[] {
  const { today, servedBy, free, wishes } = facts;
  const open = wishes.map((wish) => ({ ...wish, short: wish.short + wish.notAsked }));
  const { lacks, coming } = lacksOf(facts, open);
  const dueOn = new Map(wishes.map(({ id, promisedOn }) => [id, promisedOn ?? today]));
  const kinds = kindsByPart([...free, ...facts.coming]);
  const parts = servedBy.get(partId) ?? [partId];
  return chainToPromise({
    today,
    servedBy: parts.flatMap((id) => [...(kinds.get(id) ?? []).map((kind) => kindKey(kind)), orderable(id)]),
    supplies: [
      ...free.map((kind) => ({ partId: kindKey(kind), on: today, quantity: kind.free })),
      ...coming.flatMap((line) =>
        line.promisedOn === null || line.promisedOn < today
          ? []
          : [{ partId: line.partId, on: line.promisedOn, quantity: line.open }],
      ),
    ],
    wishes: lacks.map(({ id, servedBy: keys, short }) => ({
      servedBy: keys,
      on: dueOn.get(id) ?? today,
      quantity: short,
    })),
  });
}

/** When all that a job wants from stores can be here, from which numbers, and which lines hold it back. */
export async function partsReady(sql: Sql, jobId: string): Promise<PartsReady> {
  if (!(await jobExists(sql, jobId))) throw new ProblemError('not-found', 'There is no such job.');
  const { facts, lines } = await linesReady(sql, [jobId]);
  const own = lines.filter((line) => line.jobId === jobId);
  return {
    ...kitReady(facts.today, own),
    lines: own
      .toSorted((a, b) => (b.on ?? '9999').localeCompare(a.on ?? '9999'))
      .map(({ id, part, partId, missing, asked, on, basis, from }) => ({
        demandLineId: id,
        part,
        missing,
        asked,
        on,
        basis,
        instead: othersOf(facts, partId, from).map((number) => ({ ...number })),
      })),
  };
}

/** Of what a line is promised, the pieces that come from another number than the one that is wanted. */
const othersOf = ({ stock }: ChainFacts, partId: string, from: readonly Promised[]) =>
  from.flatMap((share) => {
    const part = stock.get(share.partId)?.part;
    return part === undefined || share.partId === partId ? [] : [{ part, quantity: share.quantity }];
  });

export interface ShortageDay {
  /** The day on which the line can have what it is short of, in its turn, of what is on order; null: nothing tells. */
  readonly on: string | null;
  /** Other numbers than the wanted one that it is promised from. */
  readonly from: readonly PartName[];
  /** By which rule it is short, in words that follow its name; empty for the oldest first. */
  readonly rule: string;
}

export interface Outlook {
  readonly today: string;
  /** When lines can have what they are short of. */
  readonly byLine: ReadonlyMap<string, ShortageDay>;
  /** When the parts of each job can all be here; jobs that want nothing more are left out. */
  readonly byJob: ReadonlyMap<string, ReturnType<typeof kitReady>>;
}

/** Who waits for these parts, or for what they serve in place of, and when each can have what it is short of. */
export async function waitsFor(sql: Sql, partIds: readonly string[]) {
  if (partIds.length === 0) return [];
  const { wishes } = await chainFacts(sql, partIds);
  const { byLine } = await outlookOf(sql, [...new Set(wishes.map(({ jobId }) => jobId))]);
  return wishes.flatMap(({ id, job, part, promisedOn }) => {
    const day = byLine.get(id);
    return day === undefined ? [] : [{ demandLineId: id, job, part, promisedOn, on: day.on }];
  });
}

/** When these jobs can have what they still want, by line and by job. */
export async function outlookOf(sql: Sql, jobIds: readonly string[]): Promise<Outlook> {
  const { facts, lines } = await linesReady(sql, jobIds);
  return {
    today: facts.today,
    byLine: new Map(
      lines
        .filter(({ asked }) => asked)
        .map(({ id, partId, on, basis, from, rule }) => [
          id,
          {
            on: basis === 'if ordered' ? null : on,
            from: othersOf(facts, partId, from).map(({ part }) => part),
            rule: ruleWords(rule),
          },
        ]),
    ),
    byJob: new Map(
      jobIds.flatMap((jobId) => {
        const own = lines.filter((line) => line.jobId === jobId);
        return own.length === 0 ? [] : [[jobId, kitReady(facts.today, own)] as const];
      }),
    ),
  };
}
