import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** So many pieces of a line, promised out of one lot, lie in another now: why they were taken goes with them. */
export interface CarriedHold {
  readonly demandLineId: string;
  readonly count: number;
}

export async function carryReasons(
  sql: Sql,
  of: { readonly lotId: string; readonly toLotId: string; readonly holds: readonly CarriedHold[] },
): Promise<void> {
  const { lotId, toLotId, holds } = of;
  const carried = sql`
    unnest(${holds.map(newId)}::uuid[], ${holds.map(({ demandLineId }) => demandLineId)}::uuid[], ${holds.map(({ count }) => count)}::int[])
      c (id, line, count)`;
  await sql`
    insert into lot_against_rule (id, demand_line_id, lot_id, rule_id, quantity, reason, taken_by_id)
    select c.id, c.line, ${toLotId}, t.rule_id, c.count, t.reason, t.taken_by_id
    from ${carried} join demand_line d on d.id = c.line cross join lateral (
      select t.* from lot_against_rule t
      where t.demand_line_id = c.line and t.lot_id = ${lotId} and t.rule_id = d.lot_rule_id
      order by t.taken_at desc, t.id desc limit 1) t`;
  await sql`
    insert into alternative_taken (id, demand_line_id, lot_id, quantity, condition, reason, taken_by_id)
    select c.id, c.line, ${toLotId}, c.count, t.condition, t.reason, t.taken_by_id
    from ${carried} cross join lateral (
      select t.* from alternative_taken t where t.demand_line_id = c.line and t.lot_id = ${lotId}
      order by t.taken_at desc, t.id desc limit 1) t`;
}

/** Until it is set off again: what is promised in this transaction was promised before, out of the like of its lot. */
export async function setCarrying(sql: Sql, on: boolean): Promise<void> {
  await sql`select set_config('crosshatch.carry', ${on ? 'on' : 'off'}, true)`;
}
