import type { StockClass } from '#contracts/counts.ts';
import type { PartName } from '#contracts/parts.ts';
import { usualLimits } from '#domain/stock/classes.ts';
import type { Sql } from '#platform/database/client.ts';
import { partName } from '../ledger/queries.ts';

/**
 * Every part that was handed out or came back within a year, classed as `classesByUse` (domain/stock) classes: by what
 * that was worth and by how often it happened, of which the stricter holds. Here and not there, since of fifty thousand
 * parts a schedule tells forty; a test holds the two to each other.
 */
const classed = (sql: Sql) => sql`
  used as (
    select part_id, greatest(0, -sum(value_change))::float8 as worth, count(*)::float8 as movements
    from stock_movement where act in ('issue', 'return') and moved_at > now() - interval '365 days' group by part_id
  ), cumulated as (
    select part_id, worth, movements, row_number() over (order by worth desc, part_id) as place,
      sum(worth) over () as all_worth, sum(movements) over () as all_movements,
      sum(worth) over (order by worth desc, part_id rows unbounded preceding) - worth as worth_before,
      sum(movements) over (order by movements desc, part_id rows unbounded preceding) - movements as movements_before
    from used
  ), valued as (
    select part_id, worth, movements, place,
      case when all_worth = 0 then 0 else worth / all_worth end as share,
      case when all_worth = 0 then 1 else worth_before / all_worth end as before,
      ${classAt(sql, sql`worth`, sql`worth_before / nullif(all_worth, 0)`)} as by_value,
      ${classAt(sql, sql`movements`, sql`movements_before / all_movements`)} as by_movement
    from cumulated
  ), classed as materialized (
    select *, least(by_value, by_movement) as class from valued
  )`;

const classAt = (sql: Sql, amount: ReturnType<Sql>, before: ReturnType<Sql>) => sql`
  case when ${amount} > 0 and ${before} < ${usualLimits.a}::float8 then 'A' when ${amount} > 0 and ${before} < ${usualLimits.b}::float8 then 'B' else 'C' end`;

interface ClassedRow {
  readonly part: PartName;
  readonly class: StockClass;
  /** What went out less what came back, at what it was worth; minor units, never below zero. */
  readonly worth: number;
  readonly share: number;
  readonly before: number;
  readonly byValue: StockClass;
  /** How often it was handed out or came back. */
  readonly movements: number;
  readonly byMovement: StockClass;
}

export interface BinLying {
  readonly id: string;
  readonly code: string;
  readonly lots: number;
  /** The strictest class of what lies there, and the most used part of it. */
  readonly class: StockClass;
  readonly because: PartName | null;
  readonly countedOn: string | null;
  readonly today: string;
  readonly sheet: { readonly id: string; readonly number: number; readonly counter: string } | null;
}

interface Lying {
  readonly bins: readonly BinLying[];
  /** The most used parts, and how many there are of each class among those that were used. */
  readonly parts: readonly ClassedRow[];
  readonly classes: Readonly<Partial<Record<StockClass, number>>>;
}

/** Every open bin in the order of the walk: what lies in it and when it was last counted to the end, by the shop's days. */
export async function findLying(sql: Sql, parts: number): Promise<Lying> {
  const [lying] = await sql<Lying[]>`
    with ${classed(sql)}, lying as (
      select l.bin_id, count(*) as lots, min(c.class || lpad(c.place::text, 9, '0')) as first
      from stock_lot l left join classed c on c.part_id = l.part_id where l.on_hand > 0 group by l.bin_id
    ), counted as (
      select bin_id, max(ended_at) as at from count_sheet_bin b
      where ended_at is not null and not exists (select from count_withdrawal w where w.sheet_id = b.sheet_id) group by bin_id
    ), open as (
      select distinct on (o.bin_id) o.bin_id, json_build_object('id', s.id, 'number', s.number, 'counter', p.name) as sheet
      from count_sheet_bin o join count_sheet s on s.id = o.sheet_id join count_round r on r.sheet_id = s.id
        join person p on p.id = r.counter_id
      where o.ended_at is null order by o.bin_id, r.round desc
    ), bins as (
      select b.id, b.code, coalesce(l.lots, 0)::int as lots, coalesce(c.class, 'C') as class,
        case when p.id is not null then ${partName(sql)} end as because,
        (n.at at time zone shop.zone)::date as "countedOn", (clock_timestamp() at time zone shop.zone)::date as today, o.sheet
      from bin b cross join shop left join lying l on l.bin_id = b.id
        left join classed c on c.place = substr(l.first, 2)::int left join part p on p.id = c.part_id
        left join counted n on n.bin_id = b.id left join open o on o.bin_id = b.id
      where b.closed_at is null order by b.walk_order, b.code
    ), most as (
      select ${partName(sql)} as part, c.class, c.worth, c.share, c.before, c.by_value as "byValue", c.movements::int as movements,
        c.by_movement as "byMovement"
      from classed c join part p on p.id = c.part_id where c.place <= ${parts} order by c.place
    )
    select (select coalesce(json_agg(bins), '[]') from bins) as bins, (select coalesce(json_agg(most), '[]') from most) as parts,
      (select coalesce(json_object_agg(class, count), '{}') from (select class, count(*) from classed group by class) n) as classes`;
  return lying ?? { bins: [], parts: [], classes: {} };
}

/** The classes of these parts; one that was not used within a year is not among them. */
export async function findClasses(sql: Sql, partIds: readonly string[]) {
  return sql<{ partId: string; class: StockClass }[]>`
    with ${classed(sql)} select part_id as "partId", class from classed where part_id = any(${partIds}::uuid[])`;
}
