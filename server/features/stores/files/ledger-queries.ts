import type { Sql } from '#platform/database/client.ts';
import { batch } from '../books/queries.ts';
import type { CoreLine, MovedLine, WantedLine } from './ledger-files.ts';

/** Every movement there was, the oldest first; of one part where it is named. A lot's bin is the one it lies in now. */
export const readMovements = (sql: Sql, partId?: string): AsyncIterable<readonly MovedLine[]> =>
  sql<MovedLine[]>`
    select m.moved_at as at, m.act, p.number, p.name, coalesce(nullif(l.code, ''), l.serial, '') as lot, b.code as bin,
      m.on_hand_change as "onHand", m.reserved_change as reserved, m.value_change as "valueMinor", j.number as job, m.reason,
      coalesce(w.name, '') as by
    from stock_movement m join part p on p.id = m.part_id join stock_lot l on l.id = m.lot_id join bin b on b.id = l.bin_id
      left join job j on j.id = m.job_id left join person w on w.id = m.moved_by_id
    where ${partId === undefined ? sql`true` : sql`m.part_id = ${partId}`}
    order by ${partId === undefined ? sql`m.id` : sql`m.moved_at, m.id`}`.cursor(batch);

export const readCores = (sql: Sql): AsyncIterable<readonly CoreLine[]> =>
  sql<CoreLine[]>`
    select p.number, p.name, v.name as vendor, o.number as order, c.quantity, c.charge_minor as "chargeMinor", c.owed_at as "owedAt",
      sent.marked_at as "sentAt", credited.marked_at as "creditedAt"
    from core_now c join purchase_line pl on pl.id = c.purchase_line_id join part p on p.id = pl.part_id
      join vendor v on v.id = pl.vendor_id left join purchase_order o on o.id = pl.order_id
      left join core_mark sent on sent.core_id = c.id and sent.mark = 'sent'
      left join core_mark credited on credited.core_id = c.id and credited.mark = 'credited'
    where c.quantity > 0 order by credited.marked_at is not null, c.owed_at, c.id`.cursor(batch);

export const readWanted = (sql: Sql): AsyncIterable<readonly WantedLine[]> =>
  sql<WantedLine[]>`
    select j.number as job, f.name as family, e.serial, jp.ready_on as "dueOn", p.number, p.name, p.unit, d.wanted,
      d.not_asked as "notAsked", d.reserved, d.short, d.issued, d.cancelled,
      coalesce((select string_agg(r.quantity || ' in ' || b.code || coalesce(', lot ' || nullif(l.code, ''), ''), '; ' order by b.walk_order, l.id)
                from reservation r join stock_lot l on l.id = r.lot_id join bin b on b.id = l.bin_id
                where r.demand_line_id = d.id and r.quantity > 0), '') as held
    from demand_line d join job j on j.id = d.job_id join engine e on e.id = j.engine_id join family f on f.id = e.family_id
      join part p on p.id = d.part_id left join job_promise jp on jp.job_id = j.id
    where j.handed_back_at is null order by j.number, p.number, d.id`.cursor(batch);
