import type { DemandLine } from '#contracts/demands.ts';
import type { StoresBoard } from '#contracts/stores.ts';
import type { Sql } from '#platform/database/client.ts';
import { demandsOfJobs } from '../demands/service.ts';
import { readyOfJobs } from '../promising/service.ts';
import { purchasesComing } from '../receiving/service.ts';
import { findJobsInStores, findLow } from './queries.ts';

/** The day on which the last of what is short is promised; null when nothing is short or something has no date. */
function restartsOn(lines: readonly DemandLine[]): string | null {
  const days = lines.filter(({ short }) => short > 0).map(({ expectedOn }) => expectedOn);
  return days.includes(null) ? null : (days.toSorted().at(-1) ?? null);
}

/** What stores have before them: every open job's lines, what is short, what runs low and what is coming in. */
export async function storesBoard(sql: Sql): Promise<StoresBoard> {
  const jobs = await findJobsInStores(sql);
  const jobIds = jobs.map(({ job }) => job.id);
  const [lines, low, coming, ready] = await Promise.all([
    demandsOfJobs(sql, jobIds),
    findLow(sql),
    purchasesComing(sql),
    readyOfJobs(sql, jobIds),
  ]);
  const inStores = jobs.map(({ job, promisedOn }) => {
    const own = lines.filter(({ jobId }) => jobId === job.id);
    return {
      job,
      promisedOn,
      lines: own,
      toPick: own.filter(({ state }) => state === 'pick now').length,
      short: own.filter(({ short }) => short > 0).length,
      restartsOn: restartsOn(own),
      ready: ready.get(job.id) ?? null,
    };
  });
  const shortages = inStores.flatMap(({ job, lines: own }) =>
    own.flatMap(({ id, part, short, shortSince, expectedOn }) =>
      shortSince === null ? [] : [{ demandLineId: id, part, job, short, since: shortSince, expectedOn }],
    ),
  );
  return { jobs: inStores, shortages, low, coming };
}
