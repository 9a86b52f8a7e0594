import type { StopPoint } from '#contracts/procedure-runs.ts';
import type { ProcedurePage, ProcedureVersion } from '#contracts/procedures.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findProcedures, findStopPoints, findVersion, type Kind } from './queries.ts';
import { findStepsOfVersion } from './step-queries.ts';

export async function listProcedures(
  sql: Sql,
  query: {
    familyId?: string | undefined;
    kind?: Kind | undefined;
    after?: string | undefined;
    limit?: number | undefined;
  },
): Promise<ProcedurePage> {
  const { familyId, kind, after, limit = 100 } = query;
  const rows = await findProcedures(sql, { familyId, kind, after, limit: limit + 1 });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.code ?? null) : null };
}

/** A version and its steps; a draft's steps are rows only once it is published, its document tells them until then. */
export async function getVersion(sql: Sql, id: string): Promise<ProcedureVersion> {
  const version = found(await findVersion(sql, id), 'such version of a procedure');
  const { procedureId, code, name, kind } = version;
  return {
    id: version.id,
    procedure: { id: procedureId, code, name, kind },
    number: version.number,
    publishedAt: version.publishedAt,
    note: version.note,
    steps: (await findStepsOfVersion(sql, id)).map((step) => ({
      ...step,
      cautions: [...step.cautions],
      putIn: [...step.putIn],
      asks: step.asks === null ? null : { ...step.asks, choices: [...step.asks.choices] },
      onlyIf: step.onlyIf.map((condition) => ({ ...condition, oneOf: [...condition.oneOf] })),
      readings: [...step.readings],
      pieces: [...step.pieces],
    })),
  };
}

/** Steps in the shop that wait for a second person: anybody's but who did them. */
export async function listStopPoints(sql: Sql): Promise<StopPoint[]> {
  return (await findStopPoints(sql)).map(({ jobId, number, engineId, serial, doneById, doneBy, ...step }) => ({
    ...step,
    job: { id: jobId, number },
    engine: { id: engineId, serial },
    doneBy: { id: doneById, name: doneBy },
  }));
}
