import type { StockClass } from '#contracts/counts.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface UsedPart {
  readonly id: string;
  readonly number: string;
  readonly name: string;
  /** What went out less what came back within a year, at what it was worth; minor units, never below zero. */
  readonly worth: number;
  /** How often it was handed out or came back. */
  readonly movements: number;
}

/** Every part that was used within a year. */
export async function findUsedParts(sql: Sql): Promise<readonly UsedPart[]> {
  return sql<UsedPart[]>`
    select p.id, p.number, p.name, u.worth, u.movements
    from (select part_id, greatest(0, -sum(value_change))::bigint as worth, count(*)::int as movements
          from stock_movement where act in ('issue', 'return') and moved_at > clock_timestamp() - interval '365 days' group by part_id) u
      join part p on p.id = u.part_id order by p.id`;
}

export interface RuleRow {
  readonly class: StockClass;
  readonly tolerancePieces: number;
  readonly tolerancePermille: number;
  readonly everyDays: number;
  readonly setBy: string;
}

/** The newest rule of each class that the shop has set. */
export async function findRules(sql: Sql): Promise<readonly RuleRow[]> {
  return sql<RuleRow[]>`
    select distinct on (r.class) r.class, r.tolerance_pieces as "tolerancePieces", r.tolerance_permille as "tolerancePermille",
      r.every_days as "everyDays", p.name as "setBy"
    from count_rule r join person p on p.id = r.set_by_id order by r.class, r.set_at desc, r.id desc`;
}

export async function insertRule(sql: Sql, rule: Omit<RuleRow, 'setBy'> & { readonly byId: string }): Promise<void> {
  await sql`
    insert into count_rule (id, class, tolerance_pieces, tolerance_permille, every_days, set_by_id)
    values (${newId()}, ${rule.class}, ${rule.tolerancePieces}, ${rule.tolerancePermille}, ${rule.everyDays}, ${rule.byId})`;
}

export interface BinLying {
  readonly id: string;
  readonly code: string;
  readonly lots: number;
  readonly partIds: readonly string[];
  readonly countedOn: string | null;
  readonly today: string;
  readonly sheet: { readonly id: string; readonly number: number; readonly counter: string } | null;
}

/** Every open bin in the order of the walk: what lies in it and when it was last counted to the end, by the shop's days. */
export async function findBinsLying(sql: Sql): Promise<readonly BinLying[]> {
  return sql<BinLying[]>`
    with lying as (
      select bin_id, count(*)::int as lots, array_agg(distinct part_id) as parts from stock_lot where on_hand > 0 group by bin_id
    ), counted as (
      select bin_id, max(ended_at) as at from count_sheet_bin b
      where ended_at is not null and not exists (select from count_withdrawal w where w.sheet_id = b.sheet_id) group by bin_id
    ), open as (
      select distinct on (o.bin_id) o.bin_id, json_build_object('id', s.id, 'number', s.number, 'counter', p.name) as sheet
      from count_sheet_bin o join count_sheet s on s.id = o.sheet_id join count_round r on r.sheet_id = s.id
        join person p on p.id = r.counter_id
      where o.ended_at is null order by o.bin_id, r.round desc
    )
    select b.id, b.code, coalesce(l.lots, 0) as lots, coalesce(l.parts, '{}') as "partIds",
      (c.at at time zone shop.zone)::date::text as "countedOn", (clock_timestamp() at time zone shop.zone)::date::text as today, o.sheet
    from bin b cross join shop left join lying l on l.bin_id = b.id left join counted c on c.bin_id = b.id left join open o on o.bin_id = b.id
    where b.closed_at is null order by b.walk_order, b.code`;
}
