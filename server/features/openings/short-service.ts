import { undeclaredCount } from '#domain/tally/balance.ts';
import { blindTrays } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import { findPieces, findStepsOfPieces } from './piece-queries.ts';
import { findOpening, findOpeningOfJob } from './queries.ts';
import { nameOf } from './tally-rules.ts';

export interface ShortPiece {
  readonly pieceId: string;
  readonly stepPieceId: string | null;
  readonly name: string;
  /** The strip step it came off at; null: it was counted by hand. */
  readonly stepId: string | null;
  /** Left out while somebody is to count its tray blind. */
  readonly counts: { readonly expected: number; readonly off: number } | undefined;
  /** Where it is found, named as never there, or declared possibly inside. */
  readonly href: string;
}

/** Pieces of a job's open engine that were counted, and of which some are missing and not declared. */
export async function shortOnTally(act: Act, jobId: string): Promise<readonly ShortPiece[]> {
  const openingId = await findOpeningOfJob(act.sql, jobId);
  const opening = openingId === undefined ? undefined : await findOpening(act.sql, openingId);
  if (opening === undefined || opening.closedAt !== null) return [];
  const short = (await findPieces(act.sql, opening.id)).filter((piece) => undeclaredCount(piece) > 0);
  if (short.length === 0) return [];
  const blind = await blindTrays(act.sql, { jobId, viewerId: act.actor.id });
  const steps = await findStepsOfPieces(act.sql, { jobId, openingId: opening.id });
  return short.map((piece) => {
    const stepId = steps.find(({ pieceId }) => pieceId === piece.id)?.offAt ?? null;
    const { id: pieceId, stepPieceId, expected, off } = piece;
    return {
      pieceId,
      stepPieceId,
      name: nameOf(piece),
      stepId,
      counts: piece.trayIds.some((trayId) => blind.has(trayId)) ? undefined : { expected, off },
      href: `/bench/${jobId}/procedure${stepId === null ? '' : `?step=${stepId}`}`,
    };
  });
}
