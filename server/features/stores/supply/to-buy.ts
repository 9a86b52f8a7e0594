import type { BuyingProposals } from '#contracts/supply.ts';
import { lowInChains } from '#domain/stock/chain-levels.ts';
import { ruleWords } from '#domain/stock/lot-rule.ts';
import type { Sql } from '#platform/database/client.ts';
import { findComingOf, findLacks } from '../desks/queries.ts';
import { coverByRule } from '../promising/kinds.ts';
import { type BuyingFacts, findBuyingFacts, findLevelsInChains, findLowToBuy } from './buying-queries.ts';
import { pricedFor } from './money.ts';
import { proposals, type ToBuyRow } from './proposals.ts';

/** How many parts that run low are told at once: the scarcest. */
const toldLow = 300;

type Wanted = Omit<ToBuyRow, keyof BuyingFacts> & { readonly partId: string; readonly level?: number };

/**
 * Shortages that nothing on order covers: of what comes in for anybody, the earliest promise is served first; what was
 * bought for a job is that job's first. A part that was replaced is bought as its newest number.
 */
async function uncovered(sql: Sql): Promise<readonly Wanted[]> {
  const lacks = await findLacks(sql);
  const coming = await findComingOf(sql, [...new Set(lacks.flatMap(({ servedBy }) => servedBy))]);
  return coverByRule(lacks, coming).flatMap((cover, at) => {
    const lack = lacks[at];
    if (lack === undefined || cover.uncovered === 0) return [];
    const { part, buyAs, job } = lack;
    const insteadOf = buyAs.id === part.id ? null : part;
    return [
      {
        partId: buyAs.id,
        insteadOf,
        quantity: cover.uncovered,
        job,
        why: 'short' as const,
        rule: ruleWords(lack.rule),
      },
    ];
  });
}

/** What runs low of parts that replaced others, with what the levels of those lack; and all parts that were looked at. */
async function lowOfChains(sql: Sql): Promise<{ readonly low: readonly Wanted[]; readonly parts: readonly string[] }> {
  const levels = await findLevelsInChains(sql);
  const low = lowInChains(levels).map((one) => ({ ...one, insteadOf: null, job: null, why: 'low' as const, rule: '' }));
  return { low, parts: levels.map(({ partId }) => partId) };
}

/** What to buy, by vendor: what jobs are short of and nothing on order covers, and what runs low. */
export async function buyingProposals(
  sql: Sql,
  { seesMoney, mostLow = toldLow }: { readonly seesMoney: boolean; readonly mostLow?: number | null },
): Promise<BuyingProposals> {
  const [short, chains, priced] = await Promise.all([uncovered(sql), lowOfChains(sql), pricedFor(sql, seesMoney)]);
  const wanted = [...short, ...chains.low];
  const [facts, plain] = await Promise.all([
    findBuyingFacts(sql, [...new Set(wanted.map(({ partId }) => partId))]),
    findLowToBuy(sql, { besides: chains.parts, most: mostLow }),
  ]);
  const factsOf = new Map(facts.map((fact) => [fact.part.id, fact]));
  const rows: ToBuyRow[] = wanted.flatMap(({ partId, level, ...one }) => {
    const fact = factsOf.get(partId);
    return fact === undefined ? [] : [{ ...fact, ...one, reorderPoint: level ?? fact.reorderPoint }];
  });
  rows.push(...plain.map((one) => ({ ...one, insteadOf: null, job: null, why: 'low' as const, rule: '' })));
  const vendors = new Map<string, { vendor: BuyingFacts['vendor']; rows: ToBuyRow[] }>();
  for (const row of rows) {
    const group = vendors.get(row.vendor?.id ?? '') ?? { vendor: row.vendor, rows: [] };
    group.rows.push(row);
    vendors.set(row.vendor?.id ?? '', group);
  }
  return {
    vendors: [...vendors.values()].map(({ vendor, rows: own }) => ({ vendor, lines: [...proposals(own, priced)] })),
    more: (plain[0]?.ofAll ?? 0) - plain.length,
  };
}
