import type { PieceAct } from '#domain/tally/pieces.ts';
import { takeTrayLocks } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import { findPieces, insertMovement, type PieceRow } from './piece-queries.ts';
import { findOpeningsWithTrays } from './queries.ts';
import { keepRack } from './rack-service.ts';
import { nameOf } from './tally-rules.ts';

interface GivenBack {
  readonly name: string;
  readonly count: number;
  readonly tray: string;
}

/**
 * What still lies in a job's trays after a lead closed over it goes to the owner with the engine: each piece is
 * accounted for out of its tray, with the reason of whoever hands back. Nothing is told where nothing lies.
 */
export async function giveBackLoose(
  act: Act,
  of: { readonly jobId: string; readonly engineId: string; readonly reason: string },
): Promise<void> {
  const lying: InTrays[] = [];
  for (const openingId of await findOpeningsWithTrays(act.sql, of.jobId)) {
    for (const piece of await findPieces(act.sql, openingId)) lying.push({ openingId, piece, taken: inTrays(piece) });
  }
  const loose = lying.filter(({ taken }) => taken.length > 0);
  if (loose.length === 0) return;
  await takeTrayLocks(act, {
    jobId: of.jobId,
    trayIds: loose.flatMap(({ taken }) => taken.map(({ trayId }) => trayId)),
  });
  const given: GivenBack[] = [];
  for (const line of loose) given.push(...(await giveBack(act, line, of.reason)));
  const { engineId, jobId, reason } = of;
  await act.event('piece.given-back', { engineId, jobId, data: { pieces: given, reason } });
}

interface InTrays {
  readonly openingId: string;
  readonly piece: PieceRow;
  readonly taken: readonly { readonly trayId: string; readonly label: string; readonly count: number }[];
}

const inTrays = ({ lying }: PieceRow): InTrays['taken'] =>
  lying.flatMap(({ trayId, label, count }) =>
    trayId === null || count === 0 ? [] : [{ trayId, label: label ?? '', count }],
  );

async function giveBack(act: Act, { openingId, piece, taken }: InTrays, reason: string): Promise<readonly GivenBack[]> {
  const kind: PieceAct = 'accounted';
  for (const { trayId: fromTrayId, count } of taken) {
    const movement = { pieceId: piece.id, act: kind, count, reason, movedById: act.actor.id };
    await insertMovement(act.sql, { ...movement, trayId: null, fromTrayId });
  }
  await keepRack(act, {
    openingId,
    pieceId: piece.id,
    act: kind,
    count: taken.reduce((sum, { count }) => sum + count, 0),
    taken,
    to: null,
    lyingAfter: piece.lying.filter(({ trayId }) => trayId === null),
    named: undefined,
  });
  return taken.map(({ label, count }) => ({ name: nameOf(piece), count, tray: label }));
}
