import type { Sql } from '#platform/database/client.ts';

export interface LyingPiece {
  readonly pieceId: string;
  readonly name: string;
  /** Null: beside the engine. */
  readonly trayId: string | null;
  readonly label: string | null;
  readonly count: number;
}

/** Every loose piece of a job, tray by tray, those beside the engine first. */
export async function findLyingPieces(sql: Sql, jobId: string): Promise<readonly LyingPiece[]> {
  return sql<LyingPiece[]>`
    select p.id as "pieceId", piece_name(p) as name,
           l.tray_id as "trayId", l.label, l.count
    from piece_lying l join piece p on p.id = l.piece_id join opening o on o.id = p.opening_id
    where o.job_id = ${jobId} order by l.label nulls first, p.added_at, p.id`;
}

/** Pieces that were never counted off or never found, and what was put in and never came out. */
export async function findMissingPieces(sql: Sql, jobId: string) {
  return sql<{ name: string; count: number; inside: number }[]>`
    select piece_name(p) as name, p.expected - p.off as count, p.inside
    from piece p join opening o on o.id = p.opening_id where o.job_id = ${jobId} and p.expected > p.off
    union all
    select i.name || ', ' || i.where_words, i.not_found, i.not_found
    from put_in i join opening o on o.id = i.opening_id where o.job_id = ${jobId} and i.not_found > 0
    order by 1`;
}

/** What was put into the opening and has neither come out nor is looked for. */
export async function findStillIn(sql: Sql, openingId: string) {
  return sql<{ name: string; where: string; count: number }[]>`
    select name, where_words as where, count - came_out - not_found as count from put_in
    where opening_id = ${openingId} and came_out + not_found < count order by put_in_at`;
}

export async function updateLeftInBoxes(sql: Sql, of: { id: string; byId: string; note: string }): Promise<void> {
  await sql`
    update opening set closed_by_id = ${of.byId}, closed_at = clock_timestamp(), closing_note = ${of.note}, left_in_boxes = true
    where id = ${of.id} and closed_at is null`;
}
