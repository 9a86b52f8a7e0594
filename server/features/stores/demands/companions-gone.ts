import type { Act } from '#platform/act.ts';
import type { LineToServe } from '../ledger/queries.ts';
import { cutOf, goneOf, type LineCut, piecesOf, stillWanted } from './calling-off.ts';
import { findCompanionReasons, findStillAsked, withdraw } from './reason-queries.ts';

/**
 * What went with pieces that are not wanted any more: all of it with the last of them, else as many as go with each; never
 * what was handed out. Their reasons go; the caller holds the job, its lots and lines, and calls the pieces off.
 */
export async function companionsGone(
  act: Act,
  of: {
    readonly jobId: string;
    readonly lines: readonly LineToServe[];
    readonly line: LineToServe;
    readonly quantity: number;
  },
): Promise<readonly LineCut[]> {
  const { jobId, line, quantity } = of;
  const reasons = await findCompanionReasons(act.sql, { jobId, partId: line.partId });
  if (reasons.length === 0) return [];
  const all = stillWanted(line) + line.issued === quantity;
  const gone = of.lines.flatMap(({ id }) => {
    const own = reasons.filter(({ lineId }) => lineId === id);
    return cutOf(own, all ? piecesOf(own) : quantity * (own[0]?.perPiece ?? 0));
  });
  await withdraw(act.sql, gone);
  const asked = await findStillAsked(act.sql, [...new Set(gone.map(({ lineId }) => lineId))]);
  return of.lines
    .filter(({ id }) => id !== line.id && gone.some(({ lineId }) => lineId === id))
    .map((companion) => ({
      line: companion,
      quantity: goneOf(companion, {
        gone: piecesOf(gone.filter(({ lineId }) => lineId === companion.id)),
        stillAsked: asked.get(companion.id) ?? 0,
      }),
    }));
}
