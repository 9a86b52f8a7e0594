import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import { findLyingPieces, findMissingPieces, findStillIn, updateLeftInBoxes } from './boxes-queries.ts';
import { giveBackAll } from './give-back-service.ts';
import { lockOpenOpening } from './open-opening.ts';

export { findLyingPieces as lyingPieces, findMissingPieces as missingPieces };

/** What was put in comes out by hand before the engine goes, or is looked for and listed as what may be inside. */
export async function refuseStillIn(act: Act, openingId: string): Promise<void> {
  const [left] = await findStillIn(act.sql, openingId);
  if (left === undefined) return;
  throw new ProblemError(
    'not-closed',
    `${left.count} × ${left.name} (${left.where}) was put in and is still in. Take it out, or say that it is not found; then it can go.`,
  );
}

/** Gives every loose piece to the owner, by a movement each, and ends the opening as left in boxes. */
export async function leaveInBoxes(
  act: Act,
  of: { readonly openingId: string; readonly jobId: string; readonly engineId: string; readonly reason: string },
): Promise<void> {
  const opening = await lockOpenOpening(act, of.openingId);
  await giveBackAll(act, of);
  await updateLeftInBoxes(act.sql, { id: opening.id, byId: act.actor.id, note: of.reason });
  await act.event('opening.left-in-boxes', {
    engineId: of.engineId,
    jobId: of.jobId,
    data: { openingId: opening.id, minutesOpen: opening.minutesOpen, depth: opening.depth, reason: of.reason },
  });
}
