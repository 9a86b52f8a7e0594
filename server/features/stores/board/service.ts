import type { DemandLine } from '#contracts/demands.ts';
import type { StoresBoard } from '#contracts/stores.ts';
import { lowInChains } from '#domain/stock/chain-levels.ts';
import { lastOf } from '#domain/stock/cover.ts';
import type { Sql } from '#platform/database/client.ts';
import { demandsOfJobs } from '../demands/service.ts';
import { outlookOf } from '../promising/service.ts';
import { purchasesComing } from '../receiving/service.ts';
import { findLevelsInChains } from '../supply/buying-queries.ts';
import { findJobsInStores, findLow, findStanding, type LowRow } from './queries.ts';

/** The day on which the last of what is short is promised; null when nothing is short or something has no date. */
function restartsOn(lines: readonly DemandLine[]): string | null {
  return lastOf(lines.filter(({ short }) => short > 0).map(({ expectedOn }) => expectedOn));
}

/** A part that was replaced is missed no more: the one that replaced it answers for its level, with what lies of both. */
async function runsLow(sql: Sql): Promise<{ readonly rows: LowRow[]; readonly total: number }> {
  const chains = await findLevelsInChains(sql);
  const levels = new Map(
    lowInChains(chains.map((part) => ({ ...part, supply: part.onHand }))).map(({ partId, level }) => [partId, level]),
  );
  const [plain, newest] = await Promise.all([
    findLow(
      sql,
      chains.map(({ partId }) => partId),
    ),
    findStanding(sql, [...levels.keys()]),
  ]);
  const lent = newest.map((row) => ({ ...row, reorderPoint: levels.get(row.part.id) ?? row.reorderPoint }));
  const rows = [...plain.map(({ ofAll: _, ...row }) => row), ...lent];
  return {
    rows: rows.toSorted((a, b) => a.onHand - a.reorderPoint - (b.onHand - b.reorderPoint)),
    total: (plain[0]?.ofAll ?? 0) + lent.length,
  };
}

/** What stores have before them: every open job's lines, what is short, what runs low and what is coming in. */
export async function storesBoard(sql: Sql): Promise<StoresBoard> {
  const jobs = await findJobsInStores(sql);
  const jobIds = jobs.map(({ job }) => job.id);
  const [outlook, low, coming] = await Promise.all([outlookOf(sql, jobIds), runsLow(sql), purchasesComing(sql)]);
  const lines = await demandsOfJobs(sql, jobIds, outlook);
  const inStores = jobs.map(({ job, promisedOn, quote, heldUntil }) => {
    const own = lines.filter(({ jobId }) => jobId === job.id);
    return {
      job,
      promisedOn,
      quote,
      heldUntil,
      lines: own,
      toPick: own.filter(({ state }) => state === 'pick now').length,
      short: own.filter(({ short }) => short > 0).length,
      restartsOn: restartsOn(own),
      ready: outlook.byJob.get(job.id) ?? null,
    };
  });
  const shortages = inStores.flatMap(({ job, lines: own }) =>
    own.flatMap(({ id, part, short, shortSince, expectedOn }) =>
      shortSince === null ? [] : [{ demandLineId: id, part, job, short, since: shortSince, expectedOn }],
    ),
  );
  return {
    jobs: inStores,
    shortages,
    low: low.rows,
    lowTotal: low.total,
    coming: coming.lines,
    comingTotal: coming.total,
  };
}
