import type { SqlPool } from '#platform/database/client.ts';
import { withoutTriggers } from '../support/without-triggers.ts';

/** How large stores are made: 50 000 parts and 1 000 000 movements is what a view has to bear. */
export interface Size {
  readonly parts: number;
  readonly movements: number;
}
export const fullSize: Size = { parts: 50_000, movements: 1_000_000 };

/** The part that moved most: a twentieth of all movements are its own. */
export const busiestPart = 'LG-000001';

/**
 * Fills stores by set-based SQL, with balances that are what the movements add up to (`admin -- audit` agrees). Each part is
 * received once at one price, then issued, reserved and released piece by piece, so that the average never moves.
 */
export async function fillStores(owner: SqlPool, { parts, movements }: Size): Promise<void> {
  const busy = Math.round(movements / 20);
  const each = Math.floor((movements - busy) / parts);
  await owner.begin(async (sql) => {
    await sql.unsafe(partsAndShelves(parts));
    await withoutTriggers(sql, tables, async () => {
      await sql.unsafe(lots);
      await sql.unsafe(ledger(each, busy));
      await sql.unsafe(balances);
      await sql.unsafe(purchases);
    });
    await sql.unsafe('drop table large_part');
  });
  await owner.unsafe('vacuum analyze');
}

const tables = ['stock_lot', 'stock_movement', 'part_value', 'purchase_order', 'purchase_line', 'vendor_price'];

const partsAndShelves = (parts: number) => `
  insert into bin (id, code, walk_order)
    select gen_random_uuid(), 'L-' || lpad(n::text, 4, '0'), 100000 + n from generate_series(1, 2000) n;
  insert into vendor (id, name, trade, contact)
    select gen_random_uuid(), 'Large vendor ' || n, 'parts', '' from generate_series(1, 40) n;
  create temp table large_part as
    select n, gen_random_uuid() as part_id, gen_random_uuid() as lot_id, 'LG-' || lpad(n::text, 6, '0') as number,
      (array['Piston', 'Head gasket', 'Intake valve', 'Exhaust valve', 'Main bearing', 'Crank seal', 'Wrist pin', 'Ring set',
             'Base gasket', 'Cam chain'])[1 + n % 10] || ' ' || (40 + n % 60) || '.' || lpad((n % 1000)::text, 3, '0') as name,
      100 + n % 9000 as cost
    from generate_series(1, ${parts}) n;
  insert into part (id, number, name, price_minor, reorder_point)
    select part_id, number, name, cost * 2, case when n % 10 = 0 then 4 + n % 40 else 0 end from large_part;
`;

const lots = `
  insert into stock_lot (id, part_id, bin_id, code, received_at)
    select p.lot_id, p.part_id, b.id, 'B' || p.n, now() - interval '3 years'
    from large_part p join (select id, row_number() over (order by code) - 1 as at from bin where code like 'L-%') b on b.at = p.n % 2000;
`;

/** The first movement receives, then issue, reserve and release take turns; reserved is never more than one. */
const ledger = (each: number, busy: number) => `
  insert into stock_movement (id, lot_id, part_id, act, on_hand_change, reserved_change, value_change, reason, moved_by_id, moved_at)
    select gen_random_uuid(), p.lot_id, p.part_id, m.act, m.on_hand, m.reserved, m.on_hand * p.cost, '', w.id,
      now() - interval '3 years' + (m.k::float8 / m.of) * interval '1090 days' + p.n * interval '1 second'
    from large_part p
      cross join lateral (
        select k, count as of,
          case when k = 1 then 'receive' when k % 3 = 2 then 'issue' when k % 3 = 0 then 'reserve' else 'release' end as act,
          case when k = 1 then count when k % 3 = 2 then -1 else 0 end as on_hand,
          case when k = 1 or k % 3 = 2 then 0 when k % 3 = 0 then 1 else -1 end as reserved
        from (select case when p.n = 1 then ${busy} else 0 end + ${each} as count) c, generate_series(1, c.count) k) m
      cross join (select id from person order by id limit 1) w;
`;

const balances = `
  update stock_lot l set on_hand = m.on_hand, reserved = m.reserved
    from (select lot_id, sum(on_hand_change)::int as on_hand, sum(reserved_change)::int as reserved from stock_movement group by lot_id) m
    where m.lot_id = l.id and l.id in (select lot_id from large_part);
  insert into stock_movement (id, lot_id, part_id, act, on_hand_change, reserved_change, reason, moved_by_id)
    select gen_random_uuid(), l.id, l.part_id, 'release', 0, -l.reserved, '', (select id from person order by id limit 1)
    from stock_lot l join large_part p on p.lot_id = l.id where l.reserved > 0;
  update stock_lot l set reserved = 0 from large_part p where p.lot_id = l.id;
  insert into part_value (part_id, on_hand, value_minor)
    select p.part_id, l.on_hand, l.on_hand::bigint * p.cost from large_part p join stock_lot l on l.id = p.lot_id;
`;

/** Five thousand orders of ten lines, the last fifty of them still to come, and a price of each part. */
const purchases = `
  create temp table large_order as
    select n, gen_random_uuid() as order_id, v.id as vendor_id, now() - (5001 - n) * interval '5 hours' as at
    from generate_series(1, 5000) n join (select id, row_number() over (order by name) - 1 as at from vendor where name like 'Large vendor %') v on v.at = n % 40;
  insert into purchase_order (id, vendor_id, opened_by_id, opened_at)
    select order_id, vendor_id, (select id from person order by id limit 1), at from large_order order by n;
  insert into purchase_line (id, vendor_id, part_id, quantity, received, ordered_by_id, ordered_at, order_id, price_minor)
    select gen_random_uuid(), o.vendor_id, p.part_id, 5, case when o.n > 4950 then 0 else 5 end, (select id from person order by id limit 1), o.at, o.order_id, p.cost
    from large_order o join large_part p on p.n % 5000 = o.n - 1;
  insert into vendor_price (id, vendor_id, part_id, price_minor, valid_from, their_number, told_by_id)
    select gen_random_uuid(), o.vendor_id, p.part_id, p.cost, current_date - 300, 'V' || lpad((p.n * 7)::text, 7, '0'), (select id from person order by id limit 1)
    from large_order o join large_part p on p.n % 5000 = o.n - 1;
  drop table large_order;
`;
