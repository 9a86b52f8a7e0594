import { type Instant, isoOf } from './clock.ts';
import type { Row } from './insert.ts';
import type { PersonKey } from './people.ts';
import type { TrayKey } from './procedures/procedure.ts';
import { type Act, emptyTray, type Holder, makeTray, type Tray, tell, type Visit } from './visit.ts';
import { known, type ProcedureRow, type StepRow, there } from './world.ts';

export interface Piece {
  readonly id: string;
  readonly row: Row;
  readonly name: string;
  readonly oneTime: boolean;
  readonly tray: Tray;
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

export function startProcedure(visit: Visit, kind: 'STRIP' | 'CASE' | 'BUILD' | 'PROVE', act: Act): Run {
  const { world, engine } = visit;
  const procedure = there(
    engine.family.procedures.find(({ data }) => data.code === `${engine.family.code}-${kind}`),
    `the procedure ${kind}`,
  );
  const id = world.id('procedure_run', act.at);
  world.rows.add('procedure_run', {
    id,
    job_id: visit.jobId,
    version_id: procedure.versionId,
    started_by_id: known(world.people, act.by),
    started_at: isoOf(act.at),
  });
  tell(visit, 'procedure.started', act, { runId: id, procedure: procedure.data.name, version: 1 });
  return { visit, id, procedure };
}

export interface Run {
  readonly visit: Visit;
  readonly id: string;
  readonly procedure: ProcedureRow;
}

export function mark(
  run: Run,
  step: StepRow,
  act: Act,
  of: { readonly as?: 'done' | 'skipped' | 'second person'; readonly reason?: string } = {},
): void {
  const { world } = run.visit;
  world.rows.add('step_mark', {
    id: world.id('step_mark', act.at),
    run_id: run.id,
    step_id: step.id,
    mark: of.as ?? 'done',
    reason: of.reason ?? '',
    marked_by_id: known(world.people, act.by),
    marked_at: isoOf(act.at),
  });
}

/** Marks a step done; a stop point by a second person right after. */
export function done(run: Run, step: StepRow, act: Act): void {
  mark(run, step, act);
  if (!step.data.secondPerson) return;
  const other: PersonKey = act.by === 'maren' ? 'bea' : 'maren';
  mark(run, step, { at: act.at + 60_000, by: other }, { as: 'second person' });
}

export interface Stripping extends Act {
  /** Titles of the steps that are done in this go. */
  readonly steps: readonly string[];
  readonly holder: Holder;
  /** Pieces of which fewer come off than are expected. */
  readonly fewer?: Readonly<Record<string, number>>;
  /** The instant of each step after the first: minutes apart. */
  readonly apart?: number;
}

/** Counts a strip procedure's pieces off, step by step, each into its tray; head and cylinder travel alone. */
export function strip(opening: Opening, run: Run, of: Stripping): void {
  const { visit } = opening;
  let at = of.at;
  for (const title of of.steps) {
    const step = there(
      run.procedure.steps.find(({ data }) => data.title === title),
      `the step ${title}`,
    );
    step.data.pieces.forEach((data, index) => {
      const count = data.expected - (of.fewer?.[data.name] ?? 0);
      const alone = data.layer === 'head' || data.layer === 'cylinder' ? data.layer : undefined;
      const name = trayNames[alone ?? step.data.tray];
      const tray =
        visit.trays.get(name) ??
        makeTray(visit, { name, to: of.holder, act: { at, by: of.by }, ...(alone === undefined ? {} : { alone }) });
      const piece = addPiece(opening, { stepPieceId: there(step.pieceIds[index], 'a piece'), data, tray, at });
      movePiece(opening, piece, { act: 'off', count, at, by: of.by, tray });
    });
    if (step.data.pieces.length > 0)
      tell(
        visit,
        'piece.counted',
        { at, by: of.by },
        {
          step: title,
          pieces: step.data.pieces.map(({ name, expected }) => ({ name, count: expected - (of.fewer?.[name] ?? 0) })),
        },
      );
    if (Object.keys(of.fewer ?? {}).every((name) => !step.data.pieces.some((piece) => piece.name === name)))
      done(run, step, { at, by: of.by });
    at += (of.apart ?? 9) * 60_000;
  }
}

function addPiece(
  opening: Opening,
  of: {
    readonly stepPieceId: string;
    readonly data: StepRow['data']['pieces'][number];
    readonly tray: Tray;
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
  const piece: Piece = { id, row, name: data.name, oneTime: data.oneTime, tray: of.tray, loose: 0 };
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
    const rag = piece.name.startsWith('Rag');
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
