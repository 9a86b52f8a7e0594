import type { BinsKept, BinsQuery, PickWalk, ShortLine, ShortLines } from '#contracts/stores-desks.ts';
import { ruleWords } from '#domain/stock/lot-rule.ts';
import type { Sql } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';
import { coverByRule } from '../promising/kinds.ts';
import { binExists, findBins } from './bin-queries.ts';
import { findComingOf, findLacks, findPicks } from './queries.ts';

/** What jobs are short of, and which lines on order fill it. */
export async function shortLines(sql: Sql): Promise<ShortLines> {
  const lacks = await findLacks(sql);
  const coming = await findComingOf(sql, [...new Set(lacks.flatMap(({ servedBy }) => servedBy))]);
  const byId = new Map(coming.map((line) => [line.id, line]));
  const covers = new Map(coverByRule(lacks, coming).map((cover) => [cover.lackId, cover]));
  return {
    items: lacks.map(({ id, jobId: _, servedBy: __, gotNm: ___, rule, ...lack }): ShortLine => {
      const cover = covers.get(id);
      const onOrder = (cover?.from ?? []).flatMap(({ id: lineId, quantity }) => {
        const line = byId.get(lineId);
        if (line === undefined) return [];
        const { orderId, orderNumber, vendor, promisedOn, late, slips, said } = line;
        const instead = line.partId === lack.part.id ? null : line.part;
        return [{ lineId, orderId, orderNumber, vendor, instead, quantity, promisedOn, late, slips, said }];
      });
      const expectedOn = cover?.completeOn ?? null;
      const tooLate = expectedOn !== null && lack.jobDueOn !== null && expectedOn > lack.jobDueOn;
      return {
        demandLineId: id,
        ...lack,
        rule: ruleWords(rule),
        onOrder,
        uncovered: cover?.uncovered ?? lack.short,
        expectedOn,
        late: tooLate || onOrder.some(({ late }) => late),
      };
    }),
  };
}

/** What is firmly reserved, bin after bin; of one job, or of all. */
export async function pickWalk(sql: Sql, jobId: string | undefined): Promise<PickWalk> {
  const stops = new Map<string, PickWalk['stops'][number]>();
  for (const { bin, walkOrder, ...pick } of await findPicks(sql, jobId)) {
    const stop = stops.get(bin.id);
    if (stop === undefined) stops.set(bin.id, { bin, walkOrder, picks: [pick] });
    else stop.picks.push(pick);
  }
  return { stops: [...stops.values()] };
}

/** Bins page by page. The mark is the last one of the page before, which stands where it stands now. */
export async function binsKept(sql: Sql, query: BinsQuery): Promise<BinsKept> {
  const { limit = 100, after: afterId, search = '' } = query;
  if (afterId !== undefined && !(await binExists(sql, afterId))) {
    throw new ProblemError('invalid-request', 'Pass as `after` what the last page gave as `next`, unchanged.');
  }
  const words = search.split(/\s+/).filter((word) => word !== '');
  const rows = await findBins(sql, { words, afterId, limit: limit + 1 });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}
