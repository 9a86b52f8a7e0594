import type { PieceAct } from '#domain/tally/pieces.ts';
import { takeTrayLocks } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import { findPieces, insertMovement, type PieceRow } from './piece-queries.ts';
import { findOpeningsWithLoose } from './queries.ts';
import { keepRack } from './rack-service.ts';
import { nameOf } from './tally-rules.ts';

interface Giving {
  readonly jobId: string;
  readonly engineId: string;
  readonly reason: string;
}

interface GivenBack {
  readonly name: string;
  readonly count: number;
  readonly tray: string;
}

/**
 * What still lies in a job's trays after a lead closed over it goes to the owner with the engine: each piece is
 * accounted for out of its tray, with the reason of whoever hands back. Nothing is told where nothing lies.
 */
export async function giveBackLoose(act: Act, of: Giving): Promise<void> {
  await give(act, of, inTrays);
}

/** The same of what lies beside the engine too: it goes in boxes, and nothing of it stays. */
export async function giveBackAll(act: Act, of: Giving): Promise<void> {
  await give(act, of, everywhere);
}

async function give(act: Act, of: Giving, lyingOf: (piece: PieceRow) => Lies['taken']): Promise<void> {
  const lying: Lies[] = [];
  for (const openingId of await findOpeningsWithLoose(act.sql, of.jobId)) {
    for (const piece of await findPieces(act.sql, openingId)) lying.push({ openingId, piece, taken: lyingOf(piece) });
  }
  const loose = lying.filter(({ taken }) => taken.length > 0);
  if (loose.length === 0) return;
  await takeTrayLocks(act, {
    jobId: of.jobId,
    trayIds: loose.flatMap(({ taken }) => taken.flatMap(({ trayId }) => trayId ?? [])),
  });
  const given: GivenBack[] = [];
  for (const line of loose) given.push(...(await giveBack(act, line, of.reason)));
  const { engineId, jobId, reason } = of;
  await act.event('piece.given-back', { engineId, jobId, data: { pieces: given, reason } });
}

interface Lies {
  readonly openingId: string;
  readonly piece: PieceRow;
  readonly taken: PieceRow['lying'];
}

const everywhere = ({ lying }: PieceRow): Lies['taken'] => lying.filter(({ count }) => count > 0);
const inTrays = (piece: PieceRow): Lies['taken'] => everywhere(piece).filter(({ trayId }) => trayId !== null);

async function giveBack(act: Act, { openingId, piece, taken }: Lies, reason: string): Promise<readonly GivenBack[]> {
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
    lyingAfter: piece.lying.filter((each) => !taken.includes(each)),
    named: undefined,
  });
  return taken.map(({ label, count }) => ({ name: nameOf(piece), count, tray: label ?? '' }));
}
