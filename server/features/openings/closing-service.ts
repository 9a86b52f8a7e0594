import type { Sql } from '#platform/database/client.ts';
import { findFactsForClosing } from './closing-queries.ts';
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
