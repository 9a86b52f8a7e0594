import type { LashFact } from '#domain/closing/closing-the-opening.ts';
import type { Sql } from '#platform/database/client.ts';
import { findFactsForClosing, findLashOfJob } from './closing-queries.ts';
import { findOpening, findOpeningOfJob } from './queries.ts';

/** What closing still asks of the assembly: codes of the fastener sets not yet complete, and whether ring gaps are asked for. */
export async function assemblyAskedFor(
  sql: Sql,
  jobId: string,
): Promise<{ readonly sets: ReadonlySet<string>; readonly rings: boolean }> {
  const openingId = await findOpeningOfJob(sql, jobId);
  const opening = openingId === undefined ? undefined : await findOpening(sql, openingId);
  if (opening === undefined) return { sets: new Set(), rings: false };
  const { torque, rings } = await findFactsForClosing(sql, opening);
  return { sets: new Set(torque.map(({ setId }) => setId)), rings: rings.length > 0 };
}

/** How the lash of every valve of the sheet stands, by code: what the gate asks, for the bench to show. */
export async function lashOfJob(
  sql: Sql,
  of: { readonly jobId: string; readonly revisionId: string },
): Promise<ReadonlyMap<string, LashFact['standing']>> {
  const openingId = await findOpeningOfJob(sql, of.jobId);
  const opening = openingId === undefined ? undefined : await findOpening(sql, openingId);
  return findLashOfJob(sql, { ...of, opening });
}
