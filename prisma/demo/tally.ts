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
  readonly putIn: boolean;
  loose: number;
}

export interface Opening {
  readonly visit: Visit;
  readonly id: string;
  readonly row: Row;
  readonly pieces: Piece[];
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
  return { visit, id, row, pieces: [] };
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
  for (const { name, count, where } of step.data.putIn) {
    const data = { ...byHand, name: `${name}, ${where}`, expected: count };
    const piece = addPiece(opening, { stepPieceId: null, data, tray: null, at });
    movePiece(opening, piece, { act: 'off', count, at, by });
  }
  if (step.data.pieces.length === 0) return;
  const pieces = step.data.pieces.map((data) => ({ name: data.name, count: countOf(data) }));
  tell(visit, 'piece.counted', { at, by }, { step: step.data.title, pieces });
}

/** A rag or plug: on the tally by hand, and out again before the engine is closed. */
const byHand = {
  from: 'put in',
  why: 'comes out before closing',
  layer: null,
  oneTime: false,
  matchedSet: null,
} as const;

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
    tray_id: null,
    added_at: isoOf(of.at),
  });
  const piece: Piece = {
    id,
    row,
    name: data.name,
    oneTime: data.oneTime,
    tray: of.tray,
    putIn: of.stepPieceId === null,
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
    reason: of.reason ?? '',
    moved_by_id: known(world.people, of.by),
    moved_at: isoOf(of.at),
  });
  if (of.act === 'off' || of.act === 'found') piece.loose += of.count;
  else if (of.act === 'fitted' || of.act === 'renewed' || of.act === 'accounted') piece.loose -= of.count;
  return id;
}

/** Everything goes back on: what is used once is renewed, rags come out, the rest is fitted; the trays are emptied. */
export function putBack(opening: Opening, act: Act, of: { readonly renewed: readonly string[] }): void {
  const { visit } = opening;
  const back = opening.pieces.filter(({ loose }) => loose > 0).map(({ name, loose }) => ({ name, count: loose }));
  for (const piece of opening.pieces) {
    if (piece.loose === 0) continue;
    const rag = piece.putIn;
    const kind = rag ? 'accounted' : piece.oneTime || of.renewed.includes(piece.name) ? 'renewed' : 'fitted';
    movePiece(opening, piece, {
      act: kind,
      count: piece.loose,
      at: act.at,
      by: act.by,
      reason: rag ? 'out again' : '',
    });
  }
  tell(visit, 'piece.fitted', act, { pieces: back });
  for (const tray of visit.trays.values()) emptyTray(tray, act.at);
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
