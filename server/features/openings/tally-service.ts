import type { CountOff, TallyChange } from '#contracts/openings.ts';
import { looseCount, missingCount } from '#domain/tally/balance.ts';
import type { PieceAct } from '#domain/tally/pieces.ts';
import { holdingOf, refuseWhileOffered, takeTrayLocks } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findPieces, findStepPiece, insertMovement, insertPiece, type PieceRow } from './piece-queries.ts';
import type { OpeningRow } from './queries.ts';
import { lockOpenOpening } from './service.ts';
import { checked, keepObligations, type Movement, nameOf, type TallyAct } from './tally-rules.ts';

const eventKinds: Readonly<Record<PieceAct, string>> = {
  off: 'piece.counted',
  found: 'piece.found',
  'never there': 'piece.never-there',
  'possibly inside': 'piece.possibly-inside',
  moved: 'piece.moved',
  fitted: 'piece.fitted',
  renewed: 'piece.renewed',
  accounted: 'piece.accounted',
};

/** Counts pieces off, into a tray or kept with the engine; lines that the tally does not have yet are written. */
export async function countOff(act: Act, openingId: string, asked: CountOff): Promise<TallyChange> {
  const opening = await lockOpenOpening(act, openingId);
  const lines = await findPieces(act.sql, openingId);
  const pieces: Movement[] = [];
  for (const line of asked.pieces) {
    const pieceId = 'pieceId' in line ? line.pieceId : await lineFor(act, { opening, lines, line });
    pieces.push({ pieceId, count: line.count });
  }
  if (new Set(pieces.map(({ pieceId }) => pieceId)).size < pieces.length) {
    throw new ProblemError('refused', 'A piece is counted twice in one go. Send one count a piece.');
  }
  return moveOnTheTally(act, opening, { openingId, act: 'off', pieces, trayId: asked.trayId, reason: asked.reason });
}

type NewLine = Exclude<CountOff['pieces'][number], { pieceId: string }>;

async function lineFor(
  act: Act,
  { opening, lines, line }: { opening: OpeningRow; lines: readonly PieceRow[]; line: NewLine },
): Promise<string> {
  if ('byHand' in line) {
    const { name, fromWhere = '', why = '', expected, layer, oneTime = false, matchedSet } = line.byHand;
    return insertPiece(act.sql, {
      openingId: opening.id,
      stepPieceId: null,
      name: name.trim(),
      fromWhere: fromWhere.trim(),
      why: why.trim(),
      layer: layer ?? null,
      oneTime,
      matchedSet: matchedSet?.trim() ?? null,
      expected: expected ?? line.count,
    });
  }
  const known = lines.find(({ stepPieceId }) => stepPieceId === line.stepPieceId);
  if (known !== undefined) return known.id;
  const piece = found(
    await findStepPiece(act.sql, { stepPieceId: line.stepPieceId, jobId: opening.jobId }),
    'such piece in a procedure that runs on this job: start the procedure first',
  );
  return insertPiece(act.sql, { ...piece, openingId: opening.id });
}

/** Any other act on lines of the tally: found, explained, moved, back on, renewed, accounted for. */
export async function actOnPieces(act: Act, asked: TallyAct): Promise<TallyChange> {
  return moveOnTheTally(act, await lockOpenOpening(act, asked.openingId), asked);
}

async function moveOnTheTally(act: Act, opening: OpeningRow, asked: TallyAct): Promise<TallyChange> {
  const lines = new Map((await findPieces(act.sql, opening.id)).map((line) => [line.id, line]));
  const touched = asked.pieces.map(({ pieceId }) =>
    found(lines.get(pieceId), 'such piece on the tally of this opening'),
  );
  const tray = await lockTouchedTrays(act, opening, { asked, touched });
  const reason = asked.reason?.trim() ?? '';
  const pieces = new Map<string, PieceRow>();
  const opened: string[] = [];
  const discharged: string[] = [];
  for (const { pieceId, count } of asked.pieces) {
    const before = found(pieces.get(pieceId) ?? lines.get(pieceId), 'such piece');
    const moved = count ?? looseCount(before);
    const after = { ...before, ...(await checked(act, before, { ...asked, count: moved })) };
    const movementId = await insertMovement(act.sql, {
      pieceId,
      act: asked.act,
      count: moved,
      trayId: asked.trayId ?? null,
      reason,
      movedById: act.actor.id,
    });
    pieces.set(pieceId, after);
    const { raised, ended } = await keepObligations(act, opening, { after, movementId, asked, count: moved, reason });
    opened.push(...raised);
    discharged.push(...ended);
  }
  await act.event(eventKinds[asked.act], {
    engineId: opening.engineId,
    jobId: opening.jobId,
    data: {
      openingId: opening.id,
      tray: tray?.label ?? null,
      reason,
      pieces: asked.pieces.map(({ pieceId, count }) => toldOf(pieces.get(pieceId), count)),
      obligationsOpened: opened.length,
      obligationsDischarged: discharged.length,
    },
  });
  return { pieces: [...pieces.values()].map(changed), obligationsOpened: opened, obligationsDischarged: discharged };
}

const toldOf = (piece: PieceRow | undefined, count: number | undefined) => ({
  name: piece === undefined ? '' : nameOf(piece),
  count: count ?? (piece === undefined ? 0 : looseCount(piece)),
  off: piece?.off ?? 0,
  expected: piece?.expected ?? 0,
});

const changed = (piece: PieceRow): TallyChange['pieces'][number] => ({
  id: piece.id,
  name: piece.name,
  expected: piece.expected,
  off: piece.off,
  loose: looseCount(piece),
  missing: missingCount(piece),
});

/** The trays an act touches must be here and in no offer: what was offered to somebody must not change meanwhile. */
async function lockTouchedTrays(
  act: Act,
  opening: OpeningRow,
  { asked, touched }: { asked: TallyAct; touched: readonly PieceRow[] },
) {
  const ids = touched.flatMap(({ trayId }) => (trayId === null ? [] : [trayId]));
  const trayIds = [...new Set([...ids, ...(asked.trayId === undefined ? [] : [asked.trayId])])];
  const trays = await takeTrayLocks(act, { jobId: opening.jobId, trayIds });
  await refuseWhileOffered(act, { engineId: opening.engineId, trayIds });
  for (const { id, label } of trays) {
    const { placeId } = await holdingOf(act, { trayId: id });
    if (placeId === null)
      throw new ProblemError('conflict', `Tray ${label} is not in the shop now. Take it back in first.`);
  }
  return trays.find(({ id }) => id === asked.trayId);
}
