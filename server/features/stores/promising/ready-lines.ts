import { kitReady, type LineReady, type Promised, readyDays } from '#domain/stock/completion.ts';
import type { Sql } from '#platform/database/client.ts';
import { findComingOf } from '../desks/queries.ts';
import { findChains } from '../instead/queries.ts';
import { type Kind, kindKey, kindsByPart, lacksByKind, orderable, partOfKind } from './kinds.ts';
import {
  findFreeKinds,
  findLeadDays,
  findOpenWishes,
  findPartsWanted,
  findStock,
  findToday,
  type OpenWish,
  type StockOfPart,
} from './queries.ts';

/** What is known of parts that share chains of replacements: each number's stock, what comes of it, who wants it. */
export interface ChainFacts {
  readonly today: string;
  /** Which parts serve each of them. */
  readonly servedBy: ReadonlyMap<string, readonly string[]>;
  readonly stock: ReadonlyMap<string, StockOfPart>;
  /** What lies free, by what rules tell apart. */
  readonly free: readonly (Kind & { readonly free: number })[];
  readonly coming: Awaited<ReturnType<typeof findComingOf>>;
  readonly wishes: readonly OpenWish[];
  readonly leadDays: ReadonlyMap<string, number>;
}

export async function chainFacts(sql: Sql, ofParts: readonly string[]): Promise<ChainFacts> {
  const servedBy = await findChains(sql, ofParts);
  const partIds = [...servedBy.keys()];
  const [today, stock, free, coming, wishes, leadDays] = await Promise.all([
    findToday(sql),
    findStock(sql, partIds),
    findFreeKinds(sql, partIds),
    findComingOf(sql, partIds),
    findOpenWishes(sql, partIds),
    findLeadDays(sql, partIds),
  ]);
  return { today, servedBy, stock: new Map(stock.map((part) => [part.partId, part])), free, coming, wishes, leadDays };
}

/** Reserved for nobody, and promised by rule: used pieces are not. */
export const freeOf = ({ onHand, reserved, usedFree }: StockOfPart): number => onHand - reserved - usedFree;

export interface ReadyLine extends LineReady, Omit<OpenWish, 'short' | 'notAsked'> {
  readonly missing: number;
  readonly asked: boolean;
}

/**
 * What was asked for is served first, in the turn of its job's promise; after it comes what nobody asked for yet. All or
 * nothing waits for the whole of it, what lies there too.
 */
const inTurn = (wishes: readonly OpenWish[]) =>
  [
    ...wishes.map(({ short, notAsked, ...wish }) => {
      const missing = wish.askedWhole ? short + notAsked : short;
      return { ...wish, missing, asked: true };
    }),
    ...wishes.map(({ short, notAsked, ...wish }) => {
      const missing = wish.askedWhole ? 0 : notAsked;
      return { ...wish, missing, asked: false };
    }),
  ].filter(({ missing }) => missing > 0);

/** When what jobs still want can be here, each line in its turn among all open jobs, over all numbers that serve it. */
export async function linesReady(
  sql: Sql,
  jobIds: readonly string[],
): Promise<{ readonly facts: ChainFacts; readonly lines: readonly ReadyLine[] }> {
  const facts = await chainFacts(sql, await findPartsWanted(sql, jobIds));
  const { today } = facts;
  const wanted = inTurn(facts.wishes);
  const { lacks, coming } = lacksOf(
    facts,
    wanted.map((wish, at) => ({ ...wish, id: String(at), short: wish.missing })),
  );
  const ready = new Map<string, LineReady[]>();
  const leadDays = new Map([...facts.leadDays].map(([partId, days]) => [orderable(partId), days]));
  const free = new Map(facts.free.map((kind) => [kindKey(kind), kind.free]));
  for (const part of readyDays(lacks, { today, free, coming, leadDays }))
    ready.set(part.lackId, [...(ready.get(part.lackId) ?? []), part]);
  const lines = wanted.map((wish, at) => {
    const parts = ready.get(String(at)) ?? [];
    return { ...wish, lackId: wish.id, ...kitReady(today, parts), from: byPart(parts.flatMap(({ from }) => from)) };
  });
  return { facts, lines };
}

/** Wishes of lines by what may serve each piece of them under its rule, and what comes for them. */
export function lacksOf(
  { servedBy, free, coming }: ChainFacts,
  wishes: readonly (Pick<OpenWish, 'id' | 'jobId' | 'partId' | 'rule' | 'gotNm'> & { readonly short: number })[],
) {
  return lacksByKind(
    wishes.map((wish) => ({ ...wish, servedBy: servedBy.get(wish.partId) ?? [wish.partId] })),
    coming,
    kindsByPart([...free, ...coming]),
  );
}

function byPart(shares: readonly Promised[]): readonly Promised[] {
  const sums = new Map<string, number>();
  for (const { partId: kind, quantity } of shares)
    sums.set(partOfKind(kind), (sums.get(partOfKind(kind)) ?? 0) + quantity);
  return [...sums].map(([partId, quantity]) => ({ partId, quantity }));
}
