import type { RackInShop } from '#contracts/searches.ts';
import type { RackPlace, ValvePlace } from '#domain/tally/rack.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export async function findValvesOfSheet(sql: Sql, revisionId: string): Promise<readonly ValvePlace[]> {
  return sql<ValvePlace[]>`select code, name, side from spec_valve where revision_id = ${revisionId} order by ordinal`;
}

export type RackOwner = Pick<RackInShop, 'job' | 'openingId' | 'closedAt'>;

/** Whose rack it is. */
export async function findRackOwner(sql: Sql, id: string): Promise<RackOwner | undefined> {
  const [owner] = await sql<RackOwner[]>`
    select o.id as "openingId", o.closed_at as "closedAt",
      json_build_object('id', j.id, 'number', j.number, 'engineId', e.id, 'serial', e.serial, 'family', f.name) as job
    from rack r join piece p on p.id = r.id join opening o on o.id = p.opening_id join job j on j.id = o.job_id
      join engine e on e.id = j.engine_id join family f on f.id = e.family_id
    where r.id = ${id}`;
  return owner;
}

export async function insertPlaces(sql: Sql, pieceId: string, places: readonly RackPlace[]): Promise<void> {
  let ordinal = 0;
  for (const { code, name, side } of places) {
    ordinal += 1;
    await sql`
      insert into piece_position (piece_id, code, name, side, ordinal) values (${pieceId}, ${code}, ${name}, ${side}, ${ordinal})`;
  }
}

/** A piece of a line kept in order: `code` is the place it came from, `atCode` the one it lies in or belongs to now. */
export interface RackRow {
  readonly pieceId: string;
  readonly piece: string;
  readonly fromWhere: string;
  readonly oneTime: boolean;
  readonly loose: number;
  readonly code: string;
  readonly name: string;
  readonly side: '' | 'intake' | 'exhaust';
  readonly atCode: string;
  readonly reason: string;
  readonly byId: string | null;
  readonly by: string | null;
  readonly movedAt: string | null;
  readonly laid: boolean;
  /** Where it is laid; null: beside the engine, or in no place. */
  readonly trayId: string | null;
  readonly tray: string | null;
  readonly filledById: string | null;
  readonly filledBy: string | null;
  readonly filledAt: string | null;
  readonly lying: readonly { readonly trayId: string | null; readonly label: string | null; readonly count: number }[];
  /** Every tray in which any of the line ever lay. */
  readonly trayIds: readonly string[];
}

/** The racks of an opening, or the one of a line, place by place. */
export async function findRackRows(
  sql: Sql,
  of: { readonly openingId: string; readonly pieceId?: string },
): Promise<readonly RackRow[]> {
  return sql<RackRow[]>`
    select s.piece_id as "pieceId", p.name as piece, p.from_where as "fromWhere", p.one_time as "oneTime",
           p.off - p.fitted - p.renewed - p.accounted as loose, s.code, s.name, s.side, s.at_code as "atCode", s.reason,
           w.id as "byId", w.name as by, s.moved_at as "movedAt", s.laid, s.tray_id as "trayId", lt.label as tray, f.id as "filledById", f.name as "filledBy",
           s.filled_at as "filledAt",
           (select coalesce(json_agg(json_build_object('trayId', l.tray_id, 'label', l.label, 'count', l.count) order by l.label nulls first), '[]')
            from piece_lying l where l.piece_id = p.id) as lying,
           array(select counted_with from piece_counted_with i where i.piece_id = p.id) as "trayIds"
    from piece p join position_standing s on s.piece_id = p.id
    left join person w on w.id = s.moved_by_id
    left join person f on f.id = s.filled_by_id
    left join tray lt on lt.id = s.tray_id
    where p.opening_id = ${of.openingId} and (${of.pieceId ?? null}::uuid is null or p.id = ${of.pieceId ?? null})
    order by p.added_at, p.id, s.ordinal`;
}

/** `code` is the place it came from, `atCode` the one it is put into. */
export async function insertPositionMove(
  sql: Sql,
  of: { pieceId: string; code: string; atCode: string; reason: string; byId: string },
): Promise<void> {
  await sql`
    insert into position_move (id, piece_id, code, at_code, reason, moved_by_id)
    values (${newId()}, ${of.pieceId}, ${of.code}, ${of.atCode}, ${of.reason}, ${of.byId})`;
}

export interface Fills {
  readonly pieceId: string;
  /** The places the pieces came from. */
  readonly codes: readonly string[];
  /** The tray they are laid in, null: beside the engine; undefined: taken out of the rack. */
  readonly laidIn: string | null | undefined;
  readonly byId: string;
  /** Somebody says so of the places themselves: who does, is not the second person of the closing check. */
  readonly byHand?: boolean;
}

/** Pieces by the place they came from: laid in their rack, or taken out of it. */
export async function insertFills(sql: Sql, of: Fills): Promise<void> {
  for (const code of of.codes) {
    await sql`
      insert into position_fill (id, piece_id, code, laid, tray_id, filled_by_id, by_hand)
      values (${newId()}, ${of.pieceId}, ${code}, ${of.laidIn !== undefined}, ${of.laidIn ?? null}, ${of.byId}, ${of.byHand ?? false})`;
  }
}
