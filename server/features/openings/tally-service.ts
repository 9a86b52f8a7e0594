import type { CountOff, TallyChange } from '#contracts/openings.ts';
import type { EngineEventKind } from '#domain/custody/engine-events.ts';
import { looseCount, missingCount } from '#domain/tally/balance.ts';
import { type Lying, lyingAfter, lyingInAll } from '#domain/tally/lying.ts';
import type { PieceAct } from '#domain/tally/pieces.ts';
import { loosenedWithPieces } from '#features/assembly/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockOpenOpening } from './open-opening.ts';
import {
  findPieces,
  findStepPiece,
  insertMovement,
  insertPiece,
  type NewPiece,
  type PieceRow,
} from './piece-queries.ts';
import type { OpeningRow } from './queries.ts';
import { keepRack, layOut, takenOutOfRack } from './rack-service.ts';
import { checked, keepObligations, type Movement, nameOf, type TallyAct, takenBy, takesLoose } from './tally-rules.ts';
import { lockTouchedTrays, refuseWhileCountedBlind } from './touched-trays.ts';

const eventKinds: Readonly<Record<PieceAct, EngineEventKind>> = {
  off: 'piece.counted',
  found: 'piece.found',
  'never there': 'piece.never-there',
  'possibly inside': 'piece.possibly-inside',
  'not inside': 'piece.not-inside',
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
    pieces.push({ pieceId, count: line.count, places: line.places });
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
    return newLine(act, opening, {
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
  return newLine(act, opening, piece);
}

/** Writes a line, and lays out its places when its pieces are kept in order. */
async function newLine(act: Act, opening: OpeningRow, piece: Omit<NewPiece, 'openingId'>): Promise<string> {
  const pieceId = await insertPiece(act.sql, { ...piece, openingId: opening.id });
  const { matchedSet, expected } = piece;
  await layOut(act, { pieceId, revisionId: opening.revisionId, matchedSet, expected });
  return pieceId;
}

/** What may be done away from the engine, where it touches trays only. */
const inTraysAlone: ReadonlySet<PieceAct> = new Set(['moved', 'found']);

/** Any other act on lines of the tally: found, explained, moved, back on, renewed, accounted for. */
export async function actOnPieces(act: Act, asked: TallyAct): Promise<TallyChange> {
  const done = inTraysAlone.has(asked.act) ? 'in trays' : 'at the engine';
  return moveOnTheTally(act, await lockOpenOpening(act, asked.openingId, done), asked);
}

async function moveOnTheTally(act: Act, opening: OpeningRow, asked: TallyAct): Promise<TallyChange> {
  const lines = new Map((await findPieces(act.sql, opening.id)).map((line) => [line.id, line]));
  for (const { pieceId } of asked.pieces) found(lines.get(pieceId), 'such piece on the tally of this opening');
  await refuseWhileCountedBlind(
    act,
    opening,
    asked.pieces.flatMap(({ pieceId }) => lines.get(pieceId)?.lying ?? []),
  );
  const pieces = new Map<string, PieceRow>();
  const trays = new Map<string | null, string>();
  const told: ReturnType<typeof toldOf>[] = [];
  const opened: string[] = [];
  const discharged: string[] = [];
  const reason = asked.reason?.trim() ?? '';
  for (const movement of asked.pieces) {
    const before = found(pieces.get(movement.pieceId) ?? lines.get(movement.pieceId), 'such piece');
    const taken = await takenFor(act, before, { ...asked, ...movement });
    const count = movement.count ?? lyingInAll(taken);
    const balance = checked(before, { ...asked, count });
    const touched = [...taken.map(({ trayId }) => trayId), asked.trayId ?? null];
    for (const tray of await lockTouchedTrays(act, opening, touched)) trays.set(tray.id, tray.label);
    const movementId = await writeMovements(act, { asked, pieceId: before.id, count, taken, reason });
    const after = { ...before, ...balance, lying: relaid(before, { asked, count, taken, trays }) };
    pieces.set(before.id, after);
    const rack = {
      openingId: opening.id,
      pieceId: before.id,
      taken,
      to: asked.trayId ?? null,
      lyingAfter: after.lying,
    };
    const places = await keepRack(act, { ...rack, act: asked.act, count, named: movement.places });
    told.push(toldOf(after, count, places));
    const { raised, ended } = await keepObligations(act, opening, { after, movementId, asked, count, reason });
    opened.push(...raised);
    discharged.push(...ended);
  }
  const loosened = await loosenedBy(act, opening, asked);
  await act.event(eventKinds[asked.act], {
    engineId: opening.engineId,
    jobId: opening.jobId,
    data: {
      openingId: opening.id,
      tray: asked.trayId === undefined ? null : (trays.get(asked.trayId) ?? null),
      reason,
      pieces: told,
      obligationsOpened: opened.length,
      obligationsDischarged: discharged.length,
      ...(loosened.length === 0 ? {} : { loosened: loosened.join('; ') }),
    },
  });
  return { pieces: [...pieces.values()].map(changed), obligationsOpened: opened, obligationsDischarged: discharged };
}

/** What fasteners ask for that came out with pieces counted off, though their step was done before. */
async function loosenedBy(act: Act, { jobId }: OpeningRow, asked: TallyAct): Promise<readonly string[]> {
  if (asked.act !== 'off') return [];
  const pieceIds = asked.pieces.flatMap(({ pieceId, count }) => (count === 0 ? [] : [pieceId]));
  return loosenedWithPieces(act, { jobId, pieceIds });
}

/** Out of which trays: as somebody says, as the named places tell, or wherever that leaves no choice. */
async function takenFor(act: Act, piece: PieceRow, asked: TallyAct & Movement): Promise<readonly Lying[]> {
  const { openingId, places: named, count, fromTrayId } = asked;
  const byPlaces =
    fromTrayId === undefined && takesLoose.has(asked.act)
      ? await takenOutOfRack(act, { openingId, pieceId: piece.id, named, count })
      : undefined;
  // What lies in the tray it is moved to is not moved: said as for a count.
  const stays = asked.act === 'moved' && byPlaces?.some(({ trayId }) => trayId === (asked.trayId ?? null));
  return byPlaces === undefined || stays ? takenBy(piece, asked) : byPlaces;
}

interface Written {
  readonly asked: TallyAct;
  readonly pieceId: string;
  readonly count: number;
  readonly taken: readonly Lying[];
  readonly reason: string;
}

/** One movement a tray that pieces are taken from; the first one's id. */
async function writeMovements(act: Act, { asked, pieceId, count, taken, reason }: Written): Promise<string> {
  const from = taken.length === 0 ? [{ trayId: null, count }] : taken;
  const lays = asked.act === 'off' || asked.act === 'found' || asked.act === 'moved';
  const ids: string[] = [];
  for (const place of from) {
    const movement = { pieceId, act: asked.act, count: place.count, reason, movedById: act.actor.id };
    const trayId = lays ? (asked.trayId ?? null) : null;
    ids.push(await insertMovement(act.sql, { ...movement, trayId, fromTrayId: place.trayId }));
  }
  return ids[0] ?? '';
}

/** Where the pieces of a line lie after a movement. */
function relaid(
  before: PieceRow,
  {
    asked,
    count,
    taken,
    trays,
  }: Pick<Written, 'asked' | 'count' | 'taken'> & { readonly trays: ReadonlyMap<string | null, string> },
): PieceRow['lying'] {
  const to = { trayId: asked.trayId ?? null };
  const known = new Map([...before.lying.map(({ trayId, label }) => [trayId, label] as const), ...trays]);
  const lying =
    asked.act === 'off' || asked.act === 'found'
      ? lyingAfter([...before.lying, { trayId: 'new', count }], [{ trayId: 'new', count }], to)
      : lyingAfter(before.lying, taken, asked.act === 'moved' ? to : undefined);
  return lying.map((place) => ({ ...place, label: known.get(place.trayId) ?? null }));
}

const toldOf = (piece: PieceRow, count: number, places: readonly string[]) => ({
  name: nameOf(piece),
  count,
  off: piece.off,
  expected: piece.expected,
  ...(places.length === 0 ? {} : { places: [...places] }),
});

const changed = (piece: PieceRow): TallyChange['pieces'][number] => ({
  id: piece.id,
  name: piece.name,
  expected: piece.expected,
  off: piece.off,
  loose: looseCount(piece),
  missing: missingCount(piece),
});
