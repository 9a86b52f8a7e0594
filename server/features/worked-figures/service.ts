import type { KeepWorkedFigure, WorkedFigure, WorkedFigures } from '#contracts/worked-figures.ts';
import { openJob } from '#features/intake/service.ts';
import { workedOut } from '#features/loose-bench/service.ts';
import { type Act, newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findFigureJob, findFigures, insertFigure, insertStrike, jobExists } from './queries.ts';

/** Everything kept with a job, struck or not. */
export async function workedFigures(sql: Sql, jobId: string): Promise<WorkedFigures> {
  found(await jobExists(sql, jobId), 'such job');
  return { items: [...(await findFigures(sql, jobId))] };
}

/** What of it still stands: for paper. */
export async function standingFigures(sql: Sql, jobId: string) {
  const figures = await findFigures(sql, jobId);
  return figures.filter(({ struck }) => struck === null).map(({ struck: _, ...figure }) => figure);
}

/** Works the calculation out here, whatever the page said, and keeps it with the job. */
export async function keepFigure(act: Act, jobId: string, asked: KeepWorkedFigure): Promise<WorkedFigure> {
  const worked = workedOut(asked);
  const job = await openJob(act, jobId);
  const id = newId();
  const note = asked.note?.trim() ?? '';
  await insertFigure(act.sql, { id, jobId, kind: asked.kind, given: asked.given, note, byId: act.actor.id, ...worked });
  const [first] = Object.values(worked.figures);
  await act.event('figure.kept', {
    engineId: job.engineId,
    jobId,
    data: { calculation: asked.kind, ...(first ? { result: `${first.value} ${first.unit}` } : {}), note },
  });
  const kept = (await findFigures(act.sql, jobId)).find((figure) => figure.id === id);
  return found(kept, 'such figure');
}

/** A mistaken one is struck with a reason; a better one is kept beside it. */
export async function strikeFigure(act: Act, id: string, reason: string): Promise<WorkedFigure> {
  const { jobId, kind } = found(await findFigureJob(act.sql, id), 'such figure');
  const job = await openJob(act, jobId);
  // Read again under the engine's lock: two people may strike one figure at once.
  if ((await findFigureJob(act.sql, id))?.struck) throw new ProblemError('already-done', 'It was struck already.');
  await insertStrike(act.sql, { id, reason: reason.trim(), byId: act.actor.id });
  await act.event('figure.struck', {
    engineId: job.engineId,
    jobId,
    data: { calculation: kind, reason: reason.trim() },
  });
  return found(
    (await findFigures(act.sql, jobId)).find((figure) => figure.id === id),
    'such figure',
  );
}
