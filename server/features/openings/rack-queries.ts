import type { RackPlace, ValvePlace } from '#domain/tally/rack.ts';
import type { Sql } from '#platform/database/client.ts';

export async function findValvesOfSheet(sql: Sql, revisionId: string): Promise<readonly ValvePlace[]> {
  return sql<ValvePlace[]>`select code, name, side from spec_valve where revision_id = ${revisionId} order by ordinal`;
}

export async function insertPlaces(sql: Sql, pieceId: string, places: readonly RackPlace[]): Promise<void> {
  let ordinal = 0;
  for (const { code, name, side } of places) {
    ordinal += 1;
    await sql`
      insert into piece_position (piece_id, code, name, side, ordinal) values (${pieceId}, ${code}, ${name}, ${side}, ${ordinal})`;
  }
}

export interface RackRow {
  readonly pieceId: string;
  readonly piece: string;
  readonly code: string;
  readonly name: string;
  readonly side: '' | 'intake' | 'exhaust';
  readonly atCode: string;
  readonly reason: string;
  readonly byId: string | null;
  readonly by: string | null;
  readonly movedAt: string | null;
}

export async function findRackRows(sql: Sql, of: { openingId: string }): Promise<readonly RackRow[]> {
  return sql<RackRow[]>`
    select s.piece_id as "pieceId", p.name as piece, s.code, s.name, s.side, s.at_code as "atCode", s.reason,
           w.id as "byId", w.name as by, s.moved_at as "movedAt"
    from piece p join position_standing s on s.piece_id = p.id left join person w on w.id = s.moved_by_id
    where p.opening_id = ${of.openingId} order by p.added_at, p.id, s.ordinal`;
}

/** `code` is the place it came from, `atCode` the one it is put into. */
export async function insertPositionMove(
  sql: Sql,
  of: { id: string; pieceId: string; code: string; atCode: string; reason: string; byId: string },
): Promise<void> {
  await sql`
    insert into position_move (id, piece_id, code, at_code, reason, moved_by_id)
    values (${of.id}, ${of.pieceId}, ${of.code}, ${of.atCode}, ${of.reason}, ${of.byId})`;
}
