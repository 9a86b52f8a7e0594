import type { Lying } from '#domain/tally/lying.ts';
import type { Layer, PieceAct, PieceBalance } from '#domain/tally/pieces.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** A line of the tally: its balance, and what else is known of it. */
export interface PieceRow extends PieceBalance {
  readonly stepPieceId: string | null;
  readonly fromWhere: string;
  readonly why: string;
  /** Where its loose pieces lie, one entry a place that holds any; a null label: with the engine. */
  readonly lying: readonly (Lying & { readonly label: string | null })[];
  /** Every tray in which any of them ever lay: what is told of the line tells of these. */
  readonly trayIds: readonly string[];
}

export async function findPieces(sql: Sql, openingId: string): Promise<readonly PieceRow[]> {
  return sql<PieceRow[]>`
    select p.id, p.step_piece_id as "stepPieceId", p.name, p.from_where as "fromWhere", p.why, p.layer, p.one_time as "oneTime",
           p.matched_set as "matchedSet", p.expected, p.off, p.fitted, p.renewed, p.accounted,
           p.inside,
           (select coalesce(json_agg(json_build_object('trayId', l.tray_id, 'label', l.label, 'count', l.count) order by l.label nulls first), '[]')
            from piece_lying l where l.piece_id = p.id) as lying,
           array(select counted_with from piece_counted_with i where i.piece_id = p.id) as "trayIds",
           exists (select from piece_movement m where m.piece_id = p.id and m.act in ('off', 'found')) as counted
    from piece p
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
           array(select distinct i.counted_with from piece_counted_with i join piece pp on pp.id = i.piece_id join step_piece ss on ss.id = pp.step_piece_id
                 where pp.opening_id = ${of.openingId} and ss.step_id = s.id) as "trayIds"
    from procedure_run r
    join procedure_version v on v.id = r.version_id
    join procedure pr on pr.id = v.procedure_id and pr.kind = 'strip'
    join procedure_step s on s.version_id = v.id
    join step_piece sp on sp.step_id = s.id
    left join piece p on p.step_piece_id = sp.id and p.opening_id = ${of.openingId}
    where r.job_id = ${of.jobId} and not step_left_out(r.id, s.id)
    group by r.started_at, s.id, s.ordinal, s.title order by r.started_at, s.ordinal`;
}

/** Where a piece of the tally is dealt with: the assembly step that names it, and the strip step it came off at. */
export interface PieceSteps {
  readonly pieceId: string;
  /** The layer that is off with it; null: none, or it is on again. */
  readonly layerOff: Layer | null;
  readonly backAt: string | null;
  readonly offAt: string | null;
}

/** Of the procedures that run on the job; of two assemblies that name a piece, the one begun last. */
export async function findStepsOfPieces(
  sql: Sql,
  of: { jobId: string; openingId: string },
): Promise<readonly PieceSteps[]> {
  return sql<PieceSteps[]>`
    select p.id as "pieceId", case when p.off > p.fitted + p.renewed then p.layer end as "layerOff", sp.step_id as "offAt",
           (select s.id from procedure_run r
            join procedure_version v on v.id = r.version_id
            join procedure pr on pr.id = v.procedure_id and pr.kind = 'assemble'
            join procedure_step s on s.version_id = v.id
            join step_piece b on b.step_id = s.id and lower(b.name) = lower(p.name)
            where r.job_id = ${of.jobId} and not step_left_out(r.id, s.id)
            order by r.started_at desc, s.ordinal limit 1) as "backAt"
    from piece p left join step_piece sp on sp.id = p.step_piece_id
    where p.opening_id = ${of.openingId} order by p.added_at, p.id`;
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
  /** Laid in; null: kept with the engine. */
  readonly trayId: string | null;
  /** Taken out of; null: it lay with the engine. */
  readonly fromTrayId: string | null;
  readonly reason: string;
  readonly movedById: string;
}

/** Adds a movement; a trigger keeps the counts of its line. */
export async function insertMovement(sql: Sql, of: NewMovement): Promise<string> {
  const id = newId();
  await sql`
    insert into piece_movement (id, piece_id, act, count, tray_id, from_tray_id, reason, moved_by_id)
    values (${id}, ${of.pieceId}, ${of.act}, ${of.count}, ${of.trayId}, ${of.fromTrayId}, ${of.reason}, ${of.movedById})`;
  return id;
}
