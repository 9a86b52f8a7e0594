import type { BinsKept, PickWalk, ShortLine, ShortLines } from '#contracts/stores-desks.ts';
import { oldestFirst, ruleWords } from '#domain/stock/lot-rule.ts';
import type { Sql } from '#platform/database/client.ts';
import { coverByRule } from '../promising/kinds.ts';
import { findAllBins, findComingOf, findLacks, findPicks } from './queries.ts';

/** What jobs are short of, and which lines on order fill it. */
export async function shortLines(sql: Sql, most = 2000): Promise<ShortLines> {
  const lacks = await findLacks(sql, most);
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
        rule: ruleWords(rule ?? oldestFirst),
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

export const binsKept = async (sql: Sql): Promise<BinsKept> => ({ items: [...(await findAllBins(sql))] });
