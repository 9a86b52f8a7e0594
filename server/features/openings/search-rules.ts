import { actOnObligation, openObligation } from '#features/obligations/service.ts';
import type { Act } from '#platform/act.ts';
import type { OpeningRow } from './queries.ts';
import { insertSearch, isStanding, updateEnded } from './search-queries.ts';

type Cause =
  | { readonly pieceId: string; readonly movementId: string }
  | { readonly putInId: string; readonly raisedById: string };

/** Opens the search for what may be inside, and its obligation; from here on nobody turns the engine over. */
export async function openSearch(
  act: Act,
  { id: openingId, engineId, jobId }: OpeningRow,
  of: { readonly words: string; readonly count: number; readonly cause: Cause },
): Promise<string> {
  const { words, count, cause } = of;
  const ofPiece = 'pieceId' in cause;
  const obligationId = await openObligation(act, {
    engineId,
    jobId,
    words,
    inside: true,
    cause: ofPiece ? cause : { raisedById: cause.raisedById },
  });
  await insertSearch(act.sql, {
    openingId,
    engineId,
    jobId,
    pieceId: ofPiece ? cause.pieceId : null,
    putInId: ofPiece ? null : cause.putInId,
    obligationId,
    count,
    byId: act.actor.id,
  });
  return obligationId;
}

/** Ends the searches about a piece or a thing put in, once none of it may be inside any more, and their obligations. */
export async function endSearches(
  act: Act,
  of: { readonly pieceId: string; readonly outcome: 'found' | 'not inside'; readonly reason: string },
): Promise<readonly string[]> {
  const { pieceId: subjectId, outcome, reason } = of;
  const ended = await updateEnded(act.sql, { subjectId, outcome, reason, byId: act.actor.id });
  const discharged: string[] = [];
  for (const obligationId of ended) {
    if (!(await isStanding(act.sql, obligationId))) continue;
    await actOnObligation(act, { obligationId, act: 'discharged', reason });
    discharged.push(obligationId);
  }
  return discharged;
}
