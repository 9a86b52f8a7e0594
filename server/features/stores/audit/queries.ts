import type { Sql } from '#platform/database/client.ts';

/** Where a figure that is kept differs from what the facts it is kept from add up to. */
export interface Difference {
  readonly what: string;
  readonly part: string;
  /** Code of the lot and of its bin, or the number of the job: whichever it is about. */
  readonly where: string;
  readonly kept: number;
  readonly counted: number;
}

/** Lots against their movements, and against what is reserved of them. */
export async function findLotDifferences(sql: Sql): Promise<readonly Difference[]> {
  return sql<Difference[]>`
    with moved as (
      select lot_id, sum(on_hand_change)::bigint as on_hand, sum(reserved_change)::bigint as reserved from stock_movement group by lot_id
    ), held as (
      select lot_id, sum(quantity)::bigint as quantity from reservation group by lot_id
    )
    select c.what, p.number as part, 'lot ' || coalesce(nullif(l.code, ''), l.id::text) || ' in bin ' || b.code as where, c.kept, c.counted
    from stock_lot l join part p on p.id = l.part_id join bin b on b.id = l.bin_id
      left join moved m on m.lot_id = l.id left join held h on h.lot_id = l.id
      cross join lateral (values
        ('on hand, against its movements', l.on_hand::bigint, coalesce(m.on_hand, 0)),
        ('reserved, against its movements', l.reserved::bigint, coalesce(m.reserved, 0)),
        ('reserved, against its reservations', l.reserved::bigint, coalesce(h.quantity, 0))
      ) c (what, kept, counted)
    where c.kept <> c.counted order by p.number, b.code, l.id, c.what`;
}

/** What parts are worth against their movements, and their pieces against their lots. */
export async function findValueDifferences(sql: Sql): Promise<readonly Difference[]> {
  return sql<Difference[]>`
    with moved as (select part_id, sum(value_change)::bigint as value from stock_movement group by part_id),
      lying as (select part_id, sum(on_hand)::bigint as on_hand from stock_lot group by part_id)
    select c.what, p.number as part, 'all lots' as where, c.kept, c.counted
    from part p left join part_value v on v.part_id = p.id left join moved m on m.part_id = p.id left join lying l on l.part_id = p.id
      cross join lateral (values
        ('value in minor units, against its movements', coalesce(v.value_minor, 0), coalesce(m.value, 0)),
        ('pieces that are valued, against its lots', coalesce(v.on_hand, 0)::bigint, coalesce(l.on_hand, 0))
      ) c (what, kept, counted)
    where c.kept <> c.counted order by p.number, c.what`;
}

/** Lines of demand against their reservations and against what was handed out to them, and each against its own sum. */
export async function findDemandDifferences(sql: Sql): Promise<readonly Difference[]> {
  return sql<Difference[]>`
    with held as (select demand_line_id, sum(quantity)::bigint as quantity from reservation group by demand_line_id),
      gone as (select demand_line_id, -sum(on_hand_change)::bigint as quantity from stock_movement
               where demand_line_id is not null group by demand_line_id)
    select c.what, p.number as part, 'job ' || j.number as where, c.kept, c.counted
    from demand_line d join part p on p.id = d.part_id join job j on j.id = d.job_id
      left join held h on h.demand_line_id = d.id left join gone g on g.demand_line_id = d.id
      cross join lateral (values
        ('reserved for the job, against its reservations', d.reserved::bigint, coalesce(h.quantity, 0)),
        ('issued to the job, against its movements', d.issued::bigint, coalesce(g.quantity, 0)),
        ('wanted, against where its pieces stand', d.wanted::bigint, d.reserved::bigint + d.short + d.issued + d.cancelled + d.not_asked)
      ) c (what, kept, counted)
    where c.kept <> c.counted order by j.number, p.number, c.what`;
}

/** Cores that are owed beyond the pieces of their line that are here, and that were neither sent nor credited. */
export async function findCoreDifferences(sql: Sql): Promise<readonly Difference[]> {
  return sql<Difference[]>`
    select 'cores owed, against the pieces that came' as what, p.number as part,
      'ordered ' || to_char(pl.ordered_at at time zone s.zone, 'YYYY-MM-DD') || ' from ' || v.name as where, c.owed as kept,
      (c.owed - least(c.open, c.owed - pl.received))::bigint as counted
    from shop s, purchase_line pl join part p on p.id = pl.part_id join vendor v on v.id = pl.vendor_id cross join lateral (
      select coalesce(sum(n.quantity), 0)::bigint as owed,
        coalesce(sum(n.quantity) filter (where not exists (select from core_mark m where m.core_id = n.id)), 0)::bigint as open
      from core_now n where n.purchase_line_id = pl.id) c
    where c.open > 0 and c.owed > pl.received order by p.number, pl.ordered_at, pl.id`;
}

export async function countBooks(sql: Sql) {
  const [books] = await sql<{ parts: number; lots: number; movements: number; lines: number }[]>`
    select (select count(*)::int from part) as parts, (select count(*)::int from stock_lot) as lots,
      (select count(*)::int from stock_movement) as movements, (select count(*)::int from demand_line) as lines`;
  return books ?? { parts: 0, lots: 0, movements: 0, lines: 0 };
}
