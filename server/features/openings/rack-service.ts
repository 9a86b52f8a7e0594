import type { FillRack, Rack, SwapPlaces } from '#contracts/searches.ts';
import type { Lying } from '#domain/tally/lying.ts';
import { rackOf } from '#domain/tally/rack.ts';
import {
  type FillRefusal,
  fillingBy,
  type PlaceNow,
  type RackMovement,
  takenByPlaces,
  unplacedOf,
  wronglyNamed,
} from '#domain/tally/rack-filling.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockOpenOpening } from './open-opening.ts';
import type { OpeningRow } from './queries.ts';
import {
  findRackRows,
  findValvesOfSheet,
  insertFills,
  insertPlaces,
  insertPositionMove,
  type RackRow,
} from './rack-queries.ts';
import { listRacks } from './rack-view.ts';
import { lockTouchedTrays } from './touched-trays.ts';

/** Lays out the places of a line that has to be kept in order; nothing for any other. */
export async function layOut(
  act: Act,
  of: {
    readonly pieceId: string;
    readonly revisionId: string;
    readonly matchedSet: string | null;
    readonly expected: number;
  },
): Promise<void> {
  const valves = of.matchedSet === null ? [] : await findValvesOfSheet(act.sql, of.revisionId);
  const places = rackOf(of, valves);
  if (places !== null) await insertPlaces(act.sql, of.pieceId, places);
}

/** The line as events tell it: what is counted blind is known by this name. */
const lineName = ({ piece, fromWhere }: RackRow): string => (fromWhere === '' ? piece : `${piece}, ${fromWhere}`);

const nameIn = (rows: readonly RackRow[], code: string): string => rows.find((row) => row.code === code)?.name ?? code;

function whereIn(rows: readonly RackRow[], trayId: string | null): string {
  const label = rows[0]?.lying.find((place) => place.trayId === trayId)?.label ?? null;
  return label === null ? 'beside the engine' : `in tray ${label}`;
}

function refusalInWords(reason: FillRefusal, rows: readonly RackRow[]): string {
  const line = rows[0]?.piece ?? '';
  const known = rows.map(({ code }) => code).join(', ');
  switch (reason.kind) {
    case 'unknown-place':
      return `${line}: there is no place ${reason.code} in its rack. The places are ${known}.`;
    case 'named-twice':
      return `${line}: place ${nameIn(rows, reason.code)} is named twice.`;
    case 'more-places-than-pieces':
      return `${line}: ${reason.places === 1 ? '1 place is' : `${reason.places} places are`} named for ${reason.count === 1 ? '1 piece' : `${reason.count} pieces`}.`;
    case 'filled-already':
      return `${line}: a piece lies in place ${nameIn(rows, reason.code)} already. Read the rack again.`;
    case 'empty-already':
      return `${line}: nothing lies in place ${nameIn(rows, reason.code)}. Read the rack again.`;
    case 'lies-elsewhere':
      return `${line}: the piece of place ${nameIn(rows, reason.code)} lies ${whereIn(rows, reason.trayId)}. Take it from there.`;
    case 'say-which':
      return `${line} is kept in order: say in places which of them these ${reason.count} are. Filled are ${reason.laid.join(', ')}.`;
  }
}

/** The places as they stand: a place is told by the piece that lies in it or belongs to it now. */
const placesNow = (rows: readonly RackRow[]): readonly PlaceNow[] =>
  rows.map(({ code }) => {
    const lies = rows.find((row) => row.atCode === code && row.laid);
    return { code, laid: lies !== undefined, trayId: lies?.trayId ?? null };
  });

/** By the places they lie in, the places some pieces came from: what the ledger knows them by. */
const cameFrom = (rows: readonly RackRow[], places: readonly string[]): readonly string[] =>
  rows.filter(({ atCode }) => places.includes(atCode)).map(({ code }) => code);

/** Out of which trays the pieces come whose places are named; undefined: the places don't tell. */
export async function takenOutOfRack(
  act: Act,
  of: {
    readonly openingId: string;
    readonly pieceId: string;
    readonly named: readonly string[] | undefined;
    readonly count: number | undefined;
  },
): Promise<readonly Lying[] | undefined> {
  if (of.named === undefined) return undefined;
  return takenByPlaces(placesNow(await findRackRows(act.sql, of)), of);
}

/**
 * Keeps the rack of a line in step with a movement of its pieces: fills the places, or empties them.
 * @returns names of the places the movement named; none for a line that is not kept in order
 */
export async function keepRack(
  act: Act,
  of: { readonly openingId: string; readonly pieceId: string } & RackMovement,
): Promise<readonly string[]> {
  const rows = await findRackRows(act.sql, of);
  if (rows.length === 0) {
    if (of.named === undefined) return [];
    throw new ProblemError('refused', 'These pieces are not kept in order: they have no places. Leave places out.');
  }
  const filling = fillingBy(placesNow(rows), of);
  if (!filling.ok) throw new ProblemError('refused', refusalInWords(filling.reason, rows));
  const { pieceId } = of;
  const byId = act.actor.id;
  await insertFills(act.sql, { pieceId, codes: cameFrom(rows, filling.filled), laidIn: of.to, byId });
  await insertFills(act.sql, { pieceId, codes: cameFrom(rows, filling.emptied), laidIn: undefined, byId });
  return (of.named ?? []).map((code) => nameIn(rows, code));
}

interface OfRack {
  readonly openingId: string;
  readonly pieceId: string;
}

/** Locks a rack in an open opening, in a tray that is here and not being handed over. */
async function lockRack(
  act: Act,
  { openingId, pieceId }: OfRack,
): Promise<{ readonly opening: OpeningRow; readonly line: RackRow; readonly rows: readonly RackRow[] }> {
  const opening = await lockOpenOpening(act, openingId, 'in trays');
  const rows = await findRackRows(act.sql, { openingId: opening.id, pieceId });
  const [line] = rows;
  if (line === undefined) throw new ProblemError('not-found', 'There is no such line kept in order in this opening.');
  await lockTouchedTrays(
    act,
    opening,
    line.lying.map(({ trayId }) => trayId),
  );
  return { opening, line, rows };
}

async function readRack(act: Act, of: OfRack): Promise<Rack> {
  const [rack] = await listRacks(act.sql, { ...of, viewerId: act.actor.id });
  return found(rack, 'such line');
}

/** Swaps the pieces of two places of one line: only with a reason, by name. */
export async function swapPlaces(act: Act, asked: OfRack & SwapPlaces): Promise<Rack> {
  const { opening, rows } = await lockRack(act, asked);
  if (asked.one === asked.other)
    throw new ProblemError('refused', 'Name two places: one piece is swapped with another.');
  const at = (code: string): RackRow =>
    found(
      rows.find(({ atCode }) => atCode === code),
      `place ${code} here: the places are ${rows.map((row) => row.code).join(', ')}`,
    );
  const [one, other] = [at(asked.one), at(asked.other)];
  const reason = asked.reason.trim();
  const move = { pieceId: asked.pieceId, reason, byId: act.actor.id };
  await insertPositionMove(act.sql, { ...move, code: one.code, atCode: asked.other });
  await insertPositionMove(act.sql, { ...move, code: other.code, atCode: asked.one });
  if (one.laid && other.laid && one.trayId !== other.trayId) {
    const { pieceId, byId } = move;
    await insertFills(act.sql, { pieceId, codes: [one.code], laidIn: other.trayId, byId });
    await insertFills(act.sql, { pieceId, codes: [other.code], laidIn: one.trayId, byId });
  }
  await act.event('piece.swapped', {
    engineId: opening.engineId,
    jobId: opening.jobId,
    data: { openingId: opening.id, piece: lineName(one), one: asked.one, other: asked.other, reason },
  });
  return readRack(act, asked);
}

/** The tray whose loose pieces the places are said to hold: the one named, or the only one that has any in no place yet. */
function trayToFill(rows: readonly RackRow[], { filled = [], emptied = [], trayId }: FillRack): string | null {
  const [line] = rows;
  const now = placesNow(rows).map((place) => (emptied.includes(place.code) ? { ...place, laid: false } : place));
  const unplaced = unplacedOf(now, line?.lying ?? []);
  if (trayId === undefined && unplaced.length > 1) {
    const where = unplaced.map((place) => `${place.count} ${whereIn(rows, place.trayId)}`).join(', ');
    throw new ProblemError('refused', `${line?.piece ?? ''}: ${where}. Say in trayId which of them these are.`);
  }
  const place = trayId === undefined ? unplaced[0] : unplaced.find((one) => one.trayId === trayId);
  const free = place?.count ?? 0;
  if (filled.length > free) {
    const loose = line?.loose ?? 0;
    const there = trayId === undefined ? '' : ` ${whereIn(rows, trayId)}`;
    throw new ProblemError(
      'refused',
      `${line?.piece ?? ''}: ${filled.length} places would be filled, but ${loose} are loose, ${free} of them in no place yet${there}. Count again.`,
    );
  }
  return place?.trayId ?? null;
}

/** Says which places of a rack pieces lie in, and which are empty, without any of them going on or off the engine. */
export async function fillPlaces(act: Act, asked: OfRack & FillRack): Promise<Rack> {
  const { opening, line, rows } = await lockRack(act, asked);
  const { filled = [], emptied = [], pieceId } = asked;
  if (filled.length + emptied.length === 0)
    throw new ProblemError('refused', 'Name a place that is filled, or one that is empty.');
  const now = placesNow(rows);
  const wrong = wronglyNamed(now, emptied, false) ?? wronglyNamed(now, filled, true);
  if (wrong !== undefined) throw new ProblemError('refused', refusalInWords(wrong, rows));
  const laidIn = filled.length === 0 ? null : trayToFill(rows, asked);
  const said = { pieceId, byId: act.actor.id, byHand: true };
  await insertFills(act.sql, { ...said, codes: cameFrom(rows, emptied), laidIn: undefined });
  await insertFills(act.sql, { ...said, codes: cameFrom(rows, filled), laidIn });
  const names = (codes: readonly string[]) => codes.map((code) => nameIn(rows, code));
  await act.event('rack.filled', {
    engineId: opening.engineId,
    jobId: opening.jobId,
    data: {
      openingId: opening.id,
      pieces: [{ name: lineName(line), filled: names(filled), emptied: names(emptied) }],
    },
  });
  return readRack(act, asked);
}
