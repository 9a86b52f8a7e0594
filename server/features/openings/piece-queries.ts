import type { Layer, PieceAct, PieceBalance } from '#domain/tally/pieces.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** A line of the tally: its balance, and what else is known of it. */
export interface PieceRow extends PieceBalance {
  readonly stepPieceId: string | null;
  readonly fromWhere: string;
  readonly why: string;
  readonly trayId: string | null;
  readonly trayLabel: string | null;
}

export async function findPieces(sql: Sql, openingId: string): Promise<readonly PieceRow[]> {
  return sql<PieceRow[]>`
    select p.id, p.step_piece_id as "stepPieceId", p.name, p.from_where as "fromWhere", p.why, p.layer, p.one_time as "oneTime",
           p.matched_set as "matchedSet", p.expected, p.off, p.fitted, p.renewed, p.accounted,
           p.tray_id as "trayId", t.label as "trayLabel",
           exists (select from piece_movement m where m.piece_id = p.id and m.act in ('off', 'found')) as counted
    from piece p
    left join tray t on t.id = p.tray_id
    left join step_piece sp on sp.id = p.step_piece_id
    left join procedure_step s on s.id = sp.step_id
    where p.opening_id = ${openingId} order by s.ordinal nulls last, sp.ordinal, p.added_at, p.id`;
}

export interface StepTally {
  readonly stepId: string;
  readonly ordinal: number;
  readonly title: string;
  readonly expected: number;
  readonly off: number;
  readonly trayIds: readonly string[];
}

/** Expected and off by step of the strip procedures that run on the opening's job. */
export async function findStepTallies(
  sql: Sql,
  of: { jobId: string; openingId: string },
): Promise<readonly StepTally[]> {
  return sql<StepTally[]>`
    select s.id as "stepId", s.ordinal, s.title, sum(coalesce(p.expected, sp.expected))::int as expected,
           coalesce(sum(p.off), 0)::int as off,
           coalesce(array_agg(distinct p.tray_id) filter (where p.tray_id is not null), '{}') as "trayIds"
    from procedure_run r
    join procedure_version v on v.id = r.version_id
    join procedure pr on pr.id = v.procedure_id and pr.kind = 'strip'
    join procedure_step s on s.version_id = v.id
    join step_piece sp on sp.step_id = s.id
    left join piece p on p.step_piece_id = sp.id and p.opening_id = ${of.openingId}
    where r.job_id = ${of.jobId} and not step_left_out(r.id, s.id)
    group by r.started_at, s.id, s.ordinal, s.title order by r.started_at, s.ordinal`;
}

export interface NewPiece {
  readonly openingId: string;
  readonly stepPieceId: string | null;
  readonly name: string;
  readonly fromWhere: string;
  readonly why: string;
  readonly layer: Layer | null;
  readonly oneTime: boolean;
  readonly matchedSet: string | null;
  readonly expected: number;
}

/** A piece that a procedure running on this job asks for, as a line of the tally not yet written. */
export async function findStepPiece(sql: Sql, of: { stepPieceId: string; jobId: string }) {
  const [piece] = await sql<Omit<NewPiece, 'openingId'>[]>`
    select sp.id as "stepPieceId", sp.name, sp.from_where as "fromWhere", sp.why, sp.layer, sp.one_time as "oneTime",
           sp.matched_set as "matchedSet", sp.expected
    from step_piece sp join procedure_step s on s.id = sp.step_id join procedure_run r on r.version_id = s.version_id
    where sp.id = ${of.stepPieceId} and r.job_id = ${of.jobId}`;
  return piece;
}

export async function insertPiece(sql: Sql, piece: NewPiece): Promise<string> {
  const id = newId();
  await sql`
    insert into piece (id, opening_id, step_piece_id, name, from_where, why, layer, one_time, matched_set, expected)
    values (${id}, ${piece.openingId}, ${piece.stepPieceId}, ${piece.name}, ${piece.fromWhere}, ${piece.why}, ${piece.layer},
            ${piece.oneTime}, ${piece.matchedSet}, ${piece.expected})`;
  return id;
}

export interface NewMovement {
  readonly pieceId: string;
  readonly act: PieceAct;
  readonly count: number;
  readonly trayId: string | null;
  readonly reason: string;
  readonly movedById: string;
}

/** Adds a movement; a trigger keeps the counts of its line. */
export async function insertMovement(sql: Sql, of: NewMovement): Promise<string> {
  const id = newId();
  await sql`
    insert into piece_movement (id, piece_id, act, count, tray_id, reason, moved_by_id)
    values (${id}, ${of.pieceId}, ${of.act}, ${of.count}, ${of.trayId}, ${of.reason}, ${of.movedById})`;
  return id;
}

/** How many of a missing piece somebody has said may be inside. */
export async function countPossiblyInside(sql: Sql, pieceId: string): Promise<number> {
  const [row] = await sql<{ count: number }[]>`
    select coalesce(sum(count), 0)::int as count from piece_movement where piece_id = ${pieceId} and act = 'possibly inside'`;
  return row?.count ?? 0;
}
