import type { Lying } from '#domain/tally/lying.ts';
import {
  blindTrays,
  holdingOf,
  refuseWhileAway,
  refuseWhileOffered,
  type TrayRow,
  takeTrayLocks,
} from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import type { OpeningRow } from './queries.ts';

/**
 * The trays an act touches must be here and in no offer: what was offered to somebody must not change meanwhile. Null is
 * beside the engine: then that must be here.
 */
export async function lockTouchedTrays(
  act: Act,
  opening: OpeningRow,
  touched: readonly (string | null)[],
): Promise<readonly TrayRow[]> {
  const trayIds = [...new Set(touched)].filter((id) => id !== null);
  if (touched.includes(null)) await refuseWhileAway(act, opening.engineId);
  const trays = await takeTrayLocks(act, { jobId: opening.jobId, trayIds });
  await refuseWhileOffered(act, { engineId: opening.engineId, trayIds });
  for (const { id, label } of trays) {
    const { placeId } = await holdingOf(act, { trayId: id });
    if (placeId === null)
      throw new ProblemError('conflict', `Tray ${label} is not in the shop now. Take it back in first.`);
  }
  return trays;
}

/** Whatever would be wrong with an act on these pieces, saying it would tell their number to who is yet to count them. */
export async function refuseWhileCountedBlind(
  act: Act,
  { jobId, engineId }: OpeningRow,
  lying: readonly Lying[],
): Promise<void> {
  const blind = await blindTrays(act.sql, { jobId, viewerId: act.actor.id });
  const trayIds = lying.flatMap(({ trayId }) => (trayId !== null && blind.has(trayId) ? [trayId] : []));
  if (trayIds.length > 0) await refuseWhileOffered(act, { trayIds });
  if (blind.has(engineId) && lying.some(({ trayId }) => trayId === null)) await refuseWhileOffered(act, { engineId });
}
