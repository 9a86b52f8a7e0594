import type { LashFact } from '#domain/closing/closing-the-opening.ts';
import type { Sql } from '#platform/database/client.ts';
import { findFactsForClosing, findLashOfJob } from './closing-queries.ts';
import { findOpening, findOpeningOfJob } from './queries.ts';

/** How a job's assembly stands before the gate. */
export interface AssemblyAtTheGate {
  /** Codes of the fastener sets not yet complete. */
  readonly sets: ReadonlySet<string>;
  /** Whether ring gaps are asked for. */
  readonly rings: boolean;
  /** The lash of every valve of the sheet, by its code, asked for or not. */
  readonly lash: ReadonlyMap<string, LashFact['standing']>;
}

/** What closing still asks of the assembly, for the bench to show. */
export async function assemblyAtTheGate(
  sql: Sql,
  of: { readonly jobId: string; readonly revisionId: string },
): Promise<AssemblyAtTheGate> {
  const openingId = await findOpeningOfJob(sql, of.jobId);
  const opening = openingId === undefined ? undefined : await findOpening(sql, openingId);
  const lash = await findLashOfJob(sql, { ...of, opening });
  if (opening === undefined) return { sets: new Set(), rings: false, lash };
  const { torque, rings } = await findFactsForClosing(sql, opening);
  return { sets: new Set(torque.map(({ setId }) => setId)), rings: rings.length > 0, lash };
}

/** Fastener sets loosened or not pulled to their last stage while an engine is open, with the positions of each stage. */
export async function looseFasteners(
  sql: Sql,
  jobId: string,
): Promise<{ set: string; name: string; stage: number; positions: number[] }[]> {
  const openingId = await findOpeningOfJob(sql, jobId);
  const opening = openingId === undefined ? undefined : await findOpening(sql, openingId);
  if (opening === undefined || opening.closedAt !== null) return [];
  const { torque } = await findFactsForClosing(sql, opening);
  return torque.flatMap(({ setId, name, openStages }) =>
    openStages
      .filter(({ missing }) => missing.length > 0)
      .map(({ stage, missing }) => ({ set: setId, name, stage, positions: [...missing] })),
  );
}
