import type { Sql } from '#platform/database/client.ts';

/** What of a line is out of each lot, and what those pieces were worth when they went. */
export interface OutOfLot {
  readonly lotId: string;
  readonly quantity: number;
  readonly valueMinor: number;
}

/** What went out for a line less what came back, lot by lot, the last one first (stock_movement_out). */
export async function findOut(sql: Sql, lineId: string): Promise<readonly OutOfLot[]> {
  return sql<OutOfLot[]>`
    select m.lot_id as "lotId", (-sum(m.on_hand_change))::int as quantity, (-sum(m.value_change))::bigint as "valueMinor"
    from stock_movement m
    where m.demand_line_id = ${lineId} and m.act in ('issue', 'return')
    group by m.lot_id having sum(m.on_hand_change) < 0
    order by max(m.moved_at) desc, m.lot_id`;
}

export async function findLotHolders(sql: Sql, lotId: string) {
  const [lot] = await sql<{ code: string; bin: string; partId: string; jobs: readonly number[] }[]>`
    select l.code, b.code as bin, l.part_id as "partId",
      (select coalesce(array_agg(j.number order by j.number), '{}') from reservation r
         join demand_line d on d.id = r.demand_line_id join job j on j.id = d.job_id
       where r.lot_id = l.id and r.quantity > 0) as jobs
    from stock_lot l join bin b on b.id = l.bin_id where l.id = ${lotId}`;
  return lot;
}

export async function findClosedBins(sql: Sql, lotIds: readonly string[]): Promise<readonly string[]> {
  const rows = await sql<{ code: string }[]>`
    select distinct b.code from stock_lot l join bin b on b.id = l.bin_id
    where l.id = any(${lotIds}::uuid[]) and b.closed_at is not null order by b.code`;
  return rows.map(({ code }) => code);
}
