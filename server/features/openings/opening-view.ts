import type { Opening, TallyPiece } from '#contracts/openings.ts';
import { looseCount, missingCount } from '#domain/tally/balance.ts';
import { brokenSets } from '#domain/tally/questions.ts';
import { blindTrays } from '#features/custody/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findPieces, findStepTallies, type PieceRow } from './piece-queries.ts';
import { listThings } from './put-in-service.ts';
import { findOpening, findOpeningOfJob } from './queries.ts';
import { standingOfOpening } from './voice-service.ts';

function tallyPiece(row: PieceRow, hidden: boolean): TallyPiece {
  const shown = (count: number): number | null => (hidden ? null : count);
  return {
    id: row.id,
    stepPieceId: row.stepPieceId,
    name: row.name,
    fromWhere: row.fromWhere,
    why: row.why,
    layer: row.layer,
    oneTime: row.oneTime,
    matchedSet: row.matchedSet,
    expected: shown(row.expected),
    hidden,
    off: shown(row.off),
    fitted: shown(row.fitted),
    renewed: shown(row.renewed),
    accounted: shown(row.accounted),
    loose: shown(looseCount(row)),
    missing: shown(missingCount(row)),
    inside: shown(row.inside),
    lying: row.lying.map(({ trayId, label, count }) => ({
      tray: trayId === null ? null : { id: trayId, name: label ?? '' },
      count: shown(count),
    })),
  };
}

function byTray(pieces: readonly TallyPiece[]): Opening['trays'] {
  const places = pieces.flatMap(({ lying }) => lying);
  const trayIds = [...new Set(places.map(({ tray }) => tray?.id ?? null))];
  return trayIds.map((trayId) => {
    const inIt = places.filter(({ tray }) => (tray?.id ?? null) === trayId);
    const loose = inIt.some(({ count }) => count === null)
      ? null
      : inIt.reduce((sum, { count }) => sum + (count ?? 0), 0);
    return { tray: inIt[0]?.tray ?? null, lines: inIt.length, loose };
  });
}

/** One opening with its tally, by piece, tray and step. */
export async function getOpening(sql: Sql, of: { readonly id: string; readonly viewerId: string }): Promise<Opening> {
  const row = found(await findOpening(sql, of.id), 'such opening');
  const blind = await blindTrays(sql, { jobId: row.jobId, viewerId: of.viewerId });
  const rows = await findPieces(sql, row.id);
  const pieces = rows.map((piece) =>
    tallyPiece(
      piece,
      piece.trayIds.some((trayId) => blind.has(trayId)),
    ),
  );
  const steps = await findStepTallies(sql, { jobId: row.jobId, openingId: row.id });
  return {
    id: row.id,
    jobId: row.jobId,
    engineId: row.engineId,
    openedAt: row.openedAt,
    openedBy: { id: row.openedById, name: row.openedBy },
    closedAt: row.closedAt,
    closedBy: row.closedById === null ? null : { id: row.closedById, name: row.closedBy ?? '' },
    closingNote: row.closingNote,
    depth: row.depth,
    covered: row.covered,
    coveredSince: row.coveredSince,
    minutesOpen: row.minutesOpen,
    ...(await standingOfOpening(sql, row.id)),
    putIn: await listThings(sql, row.id),
    pieces,
    trays: byTray(pieces),
    steps: steps.map(({ trayIds, ...step }) =>
      trayIds.some((trayId) => blind.has(trayId)) ? { ...step, expected: null, off: null } : step,
    ),
    brokenSets: brokenSets(rows).map(({ matchedSet, fitted, renewed }) => ({
      matchedSet,
      fitted: [...fitted],
      renewed: [...renewed],
    })),
  };
}

/** The opening a job is in, else its latest. */
export async function getOpeningOfJob(
  sql: Sql,
  of: { readonly jobId: string; readonly viewerId: string },
): Promise<Opening> {
  const id = found(await findOpeningOfJob(sql, of.jobId), 'opening of this job: it was not opened');
  return getOpening(sql, { id, viewerId: of.viewerId });
}
