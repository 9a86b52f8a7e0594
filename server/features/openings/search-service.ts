import type { Search } from '#contracts/searches.ts';
import { expectedSteps, searchSteps, stepsApartFromEngine } from '#domain/tally/search-steps.ts';
import { blindTrays, refuseWhileAway, refuseWhileOffered } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { settleThing } from './put-in-service.ts';
import { findSearches, findTicks, insertTick, type SearchRow, type TickRow } from './search-queries.ts';
import { actOnPieces } from './tally-service.ts';

function searchOf(row: SearchRow, ticks: readonly TickRow[], blind: ReadonlySet<string>): Search {
  return {
    id: row.id,
    openingId: row.openingId,
    jobId: row.jobId,
    engineId: row.engineId,
    serial: row.serial,
    obligationId: row.obligationId,
    what: row.what,
    missing: row.trayIds.some((trayId) => blind.has(trayId)) ? null : row.missing,
    openedAt: row.openedAt,
    openedBy: { id: row.openedById, name: row.openedBy },
    steps: searchSteps.map((step) => {
      const tick = ticks.find(({ searchId, code }) => searchId === row.id && code === step.code);
      return {
        ...step,
        ticked: tick === undefined ? null : { by: { id: tick.byId, name: tick.by }, at: tick.at, words: tick.words },
      };
    }),
    ended:
      row.outcome === null || row.endedAt === null
        ? null
        : {
            outcome: row.outcome,
            by: { id: row.endedById ?? '', name: row.endedBy ?? '' },
            at: row.endedAt,
            reason: row.endedReason,
          },
  };
}

/** The searches of a job, the oldest first, with what was done in each. */
export async function listSearches(
  sql: Sql,
  of: { readonly jobId: string; readonly viewerId: string },
): Promise<Search[]> {
  const rows = await findSearches(sql, { jobId: of.jobId });
  const blind = await blindTrays(sql, of);
  const ticks = await findTicks(
    sql,
    rows.map(({ id }) => id),
  );
  return rows.map((row) => searchOf(row, ticks, blind));
}

async function getSearch(sql: Sql, of: { readonly id: string; readonly viewerId: string }): Promise<Search> {
  const [row] = await findSearches(sql, { id: of.id });
  const search = found(row, 'such search');
  const blind = await blindTrays(sql, { jobId: search.jobId, viewerId: of.viewerId });
  return searchOf(search, await findTicks(sql, [of.id]), blind);
}

/** Locks the job of an open search. Its job never changes, so it may be read before. */
async function lockSearch(act: Act, id: string): Promise<SearchRow> {
  const [before] = await findSearches(act.sql, { id });
  await openJob(act, found(before, 'such search').jobId);
  const [row] = await findSearches(act.sql, { id });
  const search = found(row, 'such search');
  if (search.endedAt !== null) {
    throw new ProblemError(
      'already-done',
      `This search has ended: ${search.outcome ?? ''}, says ${search.endedBy ?? ''}.`,
    );
  }
  return search;
}

/** Ticks one step of a search: looked there, not found. */
export async function tickSearch(
  act: Act,
  asked: { readonly id: string; readonly step: string; readonly words?: string | undefined },
): Promise<Search> {
  const search = await lockSearch(act, asked.id);
  const step = searchSteps.find(({ code }) => code === asked.step);
  if (step === undefined) {
    throw new ProblemError(
      'refused',
      `There is no step ${asked.step} in the search. It has ${searchSteps.map(({ code }) => code).join(', ')}.`,
    );
  }
  if (!stepsApartFromEngine.has(step.code)) await refuseWhileAway(act, search.engineId);
  await refuseWhileOffered(act, { engineId: search.engineId });
  const ticks = await findTicks(act.sql, [search.id]);
  const before = ticks.find(({ code }) => code === step.code);
  if (before !== undefined) throw new ProblemError('already-done', `${step.title}: ${before.by} has done it.`);
  const words = asked.words?.trim() ?? '';
  await insertTick(act.sql, { searchId: search.id, code: step.code, words, byId: act.actor.id });
  await act.event('search.looked', {
    engineId: search.engineId,
    jobId: search.jobId,
    data: { searchId: search.id, what: search.what, step: step.title, words },
  });
  return getSearch(act.sql, { id: search.id, viewerId: act.actor.id });
}

/** A lead decides by name that it is not inside, once every step but the last resort is ticked. */
export async function decideSearch(act: Act, asked: { readonly id: string; readonly reason: string }): Promise<Search> {
  const search = await lockSearch(act, asked.id);
  const ticked = new Set((await findTicks(act.sql, [search.id])).map(({ code }) => code));
  const open = expectedSteps.filter(({ code }) => !ticked.has(code));
  if (open.length > 0) {
    throw new ProblemError('refused', `Not searched to the end yet: ${open.map(({ title }) => title).join('; ')}.`);
  }
  const reason = asked.reason.trim();
  if (search.pieceId === null) {
    await settleThing(act, { id: search.putInId ?? '', act: 'not inside', count: search.missing, reason });
  } else {
    const pieces = [{ pieceId: search.pieceId, count: search.missing }];
    await actOnPieces(act, { openingId: search.openingId, act: 'not inside', pieces, reason });
  }
  return getSearch(act.sql, { id: search.id, viewerId: act.actor.id });
}
