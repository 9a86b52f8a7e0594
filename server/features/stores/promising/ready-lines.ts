import { type LineReady, readyDays } from '#domain/stock/completion.ts';
import type { Sql } from '#platform/database/client.ts';
import { findComingOf } from '../desks/queries.ts';
import { findChains } from '../instead/queries.ts';
import {
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
  readonly coming: Awaited<ReturnType<typeof findComingOf>>;
  readonly wishes: readonly OpenWish[];
  readonly leadDays: ReadonlyMap<string, number>;
}

export async function chainFacts(sql: Sql, ofParts: readonly string[]): Promise<ChainFacts> {
  const servedBy = await findChains(sql, ofParts);
  const partIds = [...servedBy.keys()];
  const [today, stock, coming, wishes, leadDays] = await Promise.all([
    findToday(sql),
    findStock(sql, partIds),
    findComingOf(sql, partIds),
    findOpenWishes(sql, partIds),
    findLeadDays(sql, partIds),
  ]);
  return { today, servedBy, stock: new Map(stock.map((part) => [part.partId, part])), coming, wishes, leadDays };
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
      const missing = wish.askedWhole && short > 0 ? short + notAsked : short;
      return { ...wish, missing, asked: true };
    }),
    ...wishes.map(({ short, notAsked, ...wish }) => {
      const missing = wish.askedWhole && short > 0 ? 0 : notAsked;
      return { ...wish, missing, asked: false };
    }),
  ].filter(({ missing }) => missing > 0);

/** When what jobs still want can be here, each line in its turn among all open jobs, over all numbers that serve it. */
export async function linesReady(
  sql: Sql,
  jobIds: readonly string[],
): Promise<{ readonly facts: ChainFacts; readonly lines: readonly ReadyLine[] }> {
  const facts = await chainFacts(sql, await findPartsWanted(sql, jobIds));
  const { today, servedBy, stock, coming, wishes, leadDays } = facts;
  const wanted = inTurn(wishes);
  const lacks = wanted.map(({ id, jobId, partId, missing }) => ({
    id,
    jobId,
    short: missing,
    servedBy: servedBy.get(partId) ?? [partId],
  }));
  const free = new Map([...stock.values()].map((part) => [part.partId, freeOf(part)]));
  const lines = readyDays(lacks, { today, free, coming, leadDays }).flatMap((ready, at) => {
    const wish = wanted[at];
    return wish === undefined ? [] : [{ ...wish, ...ready }];
  });
  return { facts, lines };
}
