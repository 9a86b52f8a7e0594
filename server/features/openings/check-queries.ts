import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface CheckRow {
  readonly id: string;
  readonly kind: 'piece' | 'put in';
  readonly name: string;
  readonly fitted: number;
  readonly renewed: number;
  readonly accounted: number;
  readonly cameOut: number;
  /** Loose, missing, or still in. */
  readonly open: number;
  /** Places of its rack that hold another's piece: "intake left from intake right". */
  readonly swapped: readonly string[];
  /** Where those of it lie that are loose, and of a rack in which places; a null label: beside the engine. */
  readonly lying: readonly {
    readonly trayId: string | null;
    readonly label: string | null;
    readonly count: number;
    readonly places: readonly string[];
  }[];
  readonly doneBy: readonly { readonly id: string; readonly name: string }[];
  readonly trayIds: readonly string[];
  readonly tickedById: string | null;
  readonly tickedBy: string | null;
  readonly tickedAt: string | null;
}

/**
 * The lines of the closing check, the last removed first: pieces that came off, and what was put in. A tick counts only
 * when nothing was done to its line after it.
 */
export async function findCheckLines(sql: Sql, openingId: string): Promise<readonly CheckRow[]> {
  return sql<CheckRow[]>`
    with line as (
      select p.id, 'piece' as kind, piece_name(p) as name,
             p.fitted, p.renewed, p.accounted, 0 as came_out,
             p.off - p.fitted - p.renewed - p.accounted + greatest(p.expected - p.off, 0) as open,
             m.off_at, greatest(m.last_at, (select max(moved_at) from position_move w where w.piece_id = p.id)) as last_at, s.ordinal as step, sp.ordinal as within,
             array(select counted_with from piece_counted_with t where t.piece_id = p.id) as tray_ids,
             (select coalesce(json_agg(json_build_object('trayId', i.tray_id, 'label', i.label, 'count', i.count, 'places', array(
                       select there.name from position_standing s
                       join piece_position there on there.piece_id = s.piece_id and there.code = s.at_code
                       where s.piece_id = p.id and s.laid and s.tray_id is not distinct from i.tray_id order by there.ordinal))
                     order by i.label nulls first), '[]')
              from piece_lying i where i.piece_id = p.id) as lying,
             array(select there.name || ' from ' || mine.name
                   from position_standing mine join piece_position there on there.piece_id = mine.piece_id and there.code = mine.at_code
                   where mine.piece_id = p.id and mine.at_code <> mine.code order by there.ordinal) as swapped,
             (select coalesce(json_agg(distinct jsonb_build_object('id', w.id, 'name', w.name)), '[]')
              from piece_hand h join person w on w.id = h.person_id where h.piece_id = p.id) as done_by
      from piece p
      join lateral (select max(moved_at) filter (where act = 'off') as off_at, max(moved_at) as last_at
                    from piece_movement where piece_id = p.id and act <> 'moved') m on true
      left join step_piece sp on sp.id = p.step_piece_id
      left join procedure_step s on s.id = sp.step_id
      where p.opening_id = ${openingId} and p.off > 0
      union all
      select i.id, 'put in', i.name || ', ' || i.where_words, 0, 0, 0, i.came_out, i.count - i.came_out, i.put_in_at,
             greatest(i.put_in_at, (select max(acted_at) from put_in_act a where a.put_in_id = i.id)), null, null, '{}'::uuid[], '[]'::json, '{}'::text[],
             (select coalesce(json_agg(distinct jsonb_build_object('id', w.id, 'name', w.name)), '[]')
              from put_in_act a join person w on w.id = a.acted_by_id where a.put_in_id = i.id)
      from put_in i where i.opening_id = ${openingId}
    )
    select l.id, l.kind, l.name, l.fitted, l.renewed, l.accounted, l.came_out as "cameOut", l.open, l.swapped, l.done_by as "doneBy",
           l.tray_ids as "trayIds", l.lying, w.id as "tickedById", w.name as "tickedBy", c.checked_at as "tickedAt"
    from line l
    left join lateral (
      select c.checked_by_id, c.checked_at from closing_check c
      where c.opening_id = ${openingId} and (c.piece_id = l.id or c.put_in_id = l.id) and c.checked_at > l.last_at
      order by c.checked_at desc, c.id desc limit 1
    ) c on true
    left join person w on w.id = c.checked_by_id
    order by l.off_at desc, l.step desc nulls last, l.within desc nulls last, l.id desc`;
}

export async function insertCheck(
  sql: Sql,
  of: { openingId: string; pieceId: string | null; putInId: string | null; byId: string },
): Promise<void> {
  await sql`
    insert into closing_check (id, opening_id, piece_id, put_in_id, checked_by_id)
    values (${newId()}, ${of.openingId}, ${of.pieceId}, ${of.putInId}, ${of.byId})`;
}
