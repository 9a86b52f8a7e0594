import { type PutInKind, putInKindOf } from '#domain/tally/put-in-kind.ts';
import { rackOf } from '#domain/tally/rack.ts';
import { type Instant, isoOf } from './clock.ts';
import { done, type Run, stands } from './following.ts';
import type { Row } from './insert.ts';
import type { PieceData, TrayKey } from './procedures/procedure.ts';
import { type Act, emptyTray, type Holder, makeTray, type Tray, tell, type Visit } from './visit.ts';
import { known, type StepRow, there } from './world.ts';

export interface Piece {
  readonly id: string;
  readonly row: Row;
  readonly name: string;
  readonly oneTime: boolean;
  readonly tray: Tray | null;
  /** Codes of the places it is kept in order in; none: it is not. */
  readonly places: readonly string[];
  loose: number;
}

export interface Opening {
  readonly visit: Visit;
  readonly id: string;
  readonly row: Row;
  readonly pieces: Piece[];
  /** Rags, plugs and tools inside now. */
  readonly putIn: { readonly id: string; readonly count: number; readonly where: string }[];
}

const trayNames: Readonly<Record<TrayKey, string>> = {
  hardware: 'Covers, bolts, washers',
  'valve train': 'Cams, caps, valve train',
  head: 'Head',
  cylinder: 'Cylinder',
  piston: 'Piston and small parts',
  case: 'Case and clutch',
};

export function open(visit: Visit, act: Act): Opening {
  const { world } = visit;
  const id = world.id('opening', act.at);
  const row = world.rows.add('opening', {
    id,
    engine_id: visit.engine.id,
    job_id: visit.jobId,
    opened_by_id: known(world.people, act.by),
    opened_at: isoOf(act.at),
    closed_by_id: null,
    closed_at: null,
    closing_note: '',
  });
  tell(visit, 'opening.opened', act, { openingId: id, number: visit.number });
  return { visit, id, row, pieces: [], putIn: [] };
}

export function cover(opening: Opening, covered: boolean, act: Act): void {
  const { visit, id } = opening;
  const { world } = visit;
  world.rows.add('opening_cover', {
    id: world.id('opening_cover', act.at),
    opening_id: id,
    covered,
    said_by_id: known(world.people, act.by),
    said_at: isoOf(act.at),
  });
  tell(visit, covered ? 'opening.covered' : 'opening.uncovered', act, { openingId: id });
}

export interface Stripping extends Act {
  /** The last step of this go; left out: to the end. */
  readonly until?: string;
  readonly holder: Holder;
  /** Pieces of which fewer come off than are expected. */
  readonly fewer?: Readonly<Record<string, number>>;
  /** Minutes for the whole go. */
  readonly within: number;
  /** What was found, by question; left out: nothing amiss. */
  readonly answers?: Readonly<Record<string, string>>;
}

/**
 * Counts a strip procedure's pieces off, step by step, each into its tray; head and cylinder travel alone.
 * @returns when each step was done, by title
 */
export function strip(opening: Opening, run: Run, of: Stripping): ReadonlyMap<string, Instant> {
  const { steps } = run.procedure;
  const last = of.until === undefined ? steps.length : steps.findIndex(({ data }) => data.title === of.until) + 1;
  const spacing = Math.max(1, Math.floor((of.within * 60) / Math.max(1, last))) * 1000;
  const times = new Map<string, Instant>();
  steps.slice(0, last).forEach((step, index) => {
    if (!stands(run, step)) return;
    const at = of.at + index * spacing;
    times.set(step.data.title, at);
    takeOff(opening, step, { ...of, at });
    const isShort = step.data.pieces.some(({ name }) => (of.fewer?.[name] ?? 0) > 0);
    if (!isShort) done(run, step, { at, by: of.by }, of.answers);
  });
  return times;
}

function takeOff(opening: Opening, step: StepRow, of: Stripping): void {
  const { visit } = opening;
  const { at, by } = of;
  const countOf = ({ name, expected }: PieceData) => expected - (of.fewer?.[name] ?? 0);
  step.data.pieces.forEach((data, index) => {
    const alone = data.layer === 'head' || data.layer === 'cylinder' ? data.layer : undefined;
    const name = trayNames[alone ?? step.data.tray];
    const tray =
      visit.trays.get(name) ??
      makeTray(visit, { name, to: of.holder, act: { at, by }, ...(alone === undefined ? {} : { alone }) });
    const piece = addPiece(opening, { stepPieceId: there(step.pieceIds[index], 'a piece'), data, tray, at });
    movePiece(opening, piece, { act: 'off', count: countOf(data), at, by, tray });
  });
  for (const thing of step.data.putIn) putIn(opening, { at, by }, { ...thing, kind: putInKindOf(thing.name) });
  if (step.data.pieces.length === 0) return;
  const pieces = step.data.pieces.map((data) => ({ name: data.name, count: countOf(data) }));
  tell(visit, 'piece.counted', { at, by }, { step: step.data.title, pieces });
}

function addPiece(
  opening: Opening,
  of: {
    readonly stepPieceId: string | null;
    readonly data: PieceData;
    readonly tray: Tray | null;
    readonly at: Instant;
  },
): Piece {
  const { world } = opening.visit;
  const { data } = of;
  const id = world.id('piece', of.at);
  const row = world.rows.add('piece', {
    id,
    opening_id: opening.id,
    step_piece_id: of.stepPieceId,
    name: data.name,
    from_where: data.from,
    why: data.why,
    layer: data.layer,
    one_time: data.oneTime,
    matched_set: data.matchedSet,
    expected: data.expected,
    added_at: isoOf(of.at),
  });
  const { valves } = opening.visit.revision.sheet;
  const places = rackOf({ matchedSet: data.matchedSet, expected: data.expected }, valves) ?? [];
  places.forEach(({ code, name, side }, index) => {
    world.rows.add('piece_position', { piece_id: id, code, name, side, ordinal: index + 1 });
  });
  const piece: Piece = {
    id,
    row,
    name: data.name,
    oneTime: data.oneTime,
    tray: of.tray,
    places: places.map(({ code }) => code),
    loose: 0,
  };
  opening.pieces.push(piece);
  return piece;
}

export function movePiece(
  opening: Opening,
  piece: Piece,
  of: Act & {
    readonly act: 'off' | 'found' | 'possibly inside' | 'fitted' | 'renewed' | 'accounted' | 'never there';
    readonly count: number;
    readonly tray?: Tray;
    readonly reason?: string;
  },
): string {
  const { world } = opening.visit;
  const id = world.id('piece_movement', of.at);
  world.rows.add('piece_movement', {
    id,
    piece_id: piece.id,
    act: of.act,
    count: of.count,
    tray_id: of.tray?.id ?? null,
    from_tray_id: ['fitted', 'renewed', 'accounted'].includes(of.act) ? (piece.tray?.id ?? null) : null,
    reason: of.reason ?? '',
    moved_by_id: known(world.people, of.by),
    moved_at: isoOf(of.at),
  });
  if (of.act === 'off' || of.act === 'found') piece.loose += of.count;
  else if (of.act === 'fitted' || of.act === 'renewed' || of.act === 'accounted') piece.loose -= of.count;
  if (of.act === 'off' && piece.loose === piece.places.length) fillRack(opening, piece, { ...of, laid: true });
  if (of.act !== 'off' && piece.loose === 0) fillRack(opening, piece, { ...of, laid: false });
  return id;
}

/** A whole set lies in its places as it comes off, and leaves them empty as it goes back on. */
function fillRack(opening: Opening, piece: Piece, of: Act & { readonly laid: boolean }): void {
  const { world } = opening.visit;
  for (const code of piece.places) {
    world.rows.add('position_fill', {
      id: world.id('position_fill', of.at),
      piece_id: piece.id,
      code,
      laid: of.laid,
      tray_id: of.laid ? (piece.tray?.id ?? null) : null,
      filled_by_id: known(world.people, of.by),
      filled_at: isoOf(of.at),
    });
  }
}

/** Everything goes back on: what is used once is renewed, rags come out, the rest is fitted; the trays are emptied. */
export function putBack(opening: Opening, act: Act, of: { readonly renewed: readonly string[] }): void {
  const { visit } = opening;
  const back = opening.pieces.filter(({ loose }) => loose > 0).map(({ name, loose }) => ({ name, count: loose }));
  for (const piece of opening.pieces) {
    if (piece.loose === 0) continue;
    const kind = piece.oneTime || of.renewed.includes(piece.name) ? 'renewed' : 'fitted';
    movePiece(opening, piece, {
      act: kind,
      count: piece.loose,
      at: act.at,
      by: act.by,
    });
  }
  takeOut(opening, act);
  tell(visit, 'piece.fitted', act, { pieces: back });
  for (const tray of visit.trays.values()) emptyTray(tray, act.at);
}

/** Opens the search for a piece that may be inside; its first steps are ticked ten minutes apart. */
export function searchFor(
  opening: Opening,
  piece: Piece,
  act: Act,
  of: { readonly obligationId: string; readonly done: readonly string[] },
): void {
  const { visit } = opening;
  const { world } = visit;
  const id = world.id('inside_search', act.at);
  world.rows.add('inside_search', {
    id,
    opening_id: opening.id,
    engine_id: visit.engine.id,
    job_id: visit.jobId,
    piece_id: piece.id,
    put_in_id: null,
    obligation_id: of.obligationId,
    count: 1,
    opened_by_id: known(world.people, act.by),
    opened_at: isoOf(act.at),
  });
  of.done.forEach((code, index) => {
    const at = act.at + index * 60_000;
    world.rows.add('search_tick', {
      id: world.id('search_tick', at),
      search_id: id,
      step_code: code,
      words: '',
      ticked_by_id: known(world.people, act.by),
      ticked_at: isoOf(at),
    });
  });
}

/** Puts a rag, a plug or a tool into the open engine. */
function putIn(
  opening: Opening,
  act: Act,
  of: { readonly kind: PutInKind; readonly name: string; readonly where: string; readonly count: number },
): void {
  const { visit } = opening;
  const { world } = visit;
  const id = world.id('put_in', act.at);
  world.rows.add('put_in', {
    id,
    opening_id: opening.id,
    kind: of.kind,
    name: of.name,
    where_words: of.where,
    count: of.count,
    put_in_by_id: known(world.people, act.by),
    put_in_at: isoOf(act.at),
  });
  opening.putIn.push({ id, count: of.count, where: of.where });
  tell(visit, 'put-in.put', act, { openingId: opening.id, name: of.name, where: of.where, count: of.count });
}

/** What was put in comes out again: all of it, or what is in these places. */
export function takeOut(opening: Opening, act: Act, places?: readonly string[]): void {
  const { world } = opening.visit;
  const out = opening.putIn.filter(({ where }) => places === undefined || places.includes(where));
  opening.putIn.splice(0, Infinity, ...opening.putIn.filter((thing) => !out.includes(thing)));
  for (const { id, count } of out) {
    world.rows.add('put_in_act', {
      id: world.id('put_in_act', act.at),
      put_in_id: id,
      act: 'taken out',
      count,
      reason: '',
      acted_by_id: known(world.people, act.by),
      acted_at: isoOf(act.at),
    });
  }
}

export function close(opening: Opening, act: Act): void {
  const { visit, row, id } = opening;
  const { world } = visit;
  row.closed_at = isoOf(act.at);
  row.closed_by_id = known(world.people, act.by);
  tell(visit, 'opening.closed', act, { openingId: id, note: '' });
  world.rows.add('sign_off', {
    id: world.id('sign_off', act.at),
    job_id: visit.jobId,
    proof_id: null,
    opening_id: id,
    sheet_job_id: null,
    words: 'closed with every piece accounted for',
    signed_by_id: known(world.people, 'maren'),
    signed_at: isoOf(act.at + 120_000),
  });
}
