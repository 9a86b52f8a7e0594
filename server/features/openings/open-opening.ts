import { refuseWhileAway } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findJobOfOpening, findOpening, lockOpening, type OpeningRow } from './queries.ts';

/**
 * Locks engine, job and opening, in that order, and refuses when the opening is closed, or the engine at a vendor; what is
 * done in trays alone goes on while it is away.
 */
export async function lockOpenOpening(
  act: Act,
  id: string,
  done: 'at the engine' | 'in trays' = 'at the engine',
): Promise<OpeningRow> {
  await openJob(act, found(await findJobOfOpening(act.sql, id), 'such opening'));
  await lockOpening(act.sql, id);
  const opening = found(await findOpening(act.sql, id), 'such opening');
  if (opening.closedAt !== null) {
    throw new ProblemError(
      'already-done',
      `This opening was closed by ${opening.closedBy ?? 'somebody'}. Open the engine again.`,
    );
  }
  if (done === 'at the engine') await refuseWhileAway(act, opening.engineId);
  return opening;
}
