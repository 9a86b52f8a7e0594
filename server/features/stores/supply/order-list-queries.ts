import type { OrderListed, OrderSort } from '#contracts/supply.ts';
import type { Sql } from '#platform/database/client.ts';
import { containing } from '#platform/database/containing.ts';
import { markedAt } from './queries.ts';

interface OrdersAsked {
  readonly open: boolean | undefined;
  readonly sent: boolean | undefined;
  readonly vendorId: string | undefined;
  /** Each has to be there. */
  readonly words: readonly string[];
  readonly sort: OrderSort;
  /** The last order of the page before. */
  readonly afterId: string | undefined;
  readonly limit: number;
}

/** How far the lines of an order have come. */
const linesOf = (sql: Sql) => sql`
  lateral (
    select count(*)::int as lines, count(*) filter (where pl.received < pl.quantity)::int as open,
      count(*) filter (where pl.received < pl.quantity and pl.promised_on is not null)::int as dated,
      max(pl.promised_on) filter (where pl.received < pl.quantity) as last
    from purchase_line pl where pl.order_id = o.id)`;

/** By the day of what comes last; what has no date comes after what has one, what is all in after that. */
const byDay = (sql: Sql) => sql`
  lateral (select l.open = 0 as came, coalesce(case when l.dated = l.open then l.last end, 'infinity') as day from ${linesOf(sql)} l)`;

/** Orders of which a word tells: how the number begins, the vendor's name, or a part on it as parts are found (part_words). */
const told = (sql: Sql, word: string) => sql`
  and (o.number::text like ${`${containing(word).slice(1)}`}
    or o.vendor_id in (select id from vendor where name ilike ${containing(word)})
    or o.id in (select pl.order_id from part_words w join purchase_line pl on pl.part_id = w.part_id where w.words like ${containing(word.toLowerCase())}))`;

/** The page's orders alone, in the sorting asked for: the lines of all the others are left unread. */
function pageOf(sql: Sql, sort: OrderSort, after: string | undefined) {
  const [named, dated] = [sql`join vendor v on v.id = o.vendor_id`, sql`cross join ${byDay(sql)} d`];
  const ways = {
    newest: { join: sql``, place: sql`-o.number`, order: sql`o.number desc` },
    oldest: { join: sql``, place: sql`o.number`, order: sql`o.number` },
    vendor: { join: named, place: sql`v.name, -o.number`, order: sql`v.name, o.number desc` },
    expected: { join: dated, place: sql`d.came, d.day, -o.number`, order: sql`d.came, d.day, o.number desc` },
  };
  const { join, place, order } = ways[sort];
  const from =
    after === undefined
      ? sql``
      : sql`and (${place}) > (select ${place} from purchase_order o ${join} where o.id = ${after})`;
  return { join, from, order };
}

/** A page of orders. What is not asked for is not in the statement. */
export async function findOrders(sql: Sql, asked: OrdersAsked): Promise<readonly OrderListed[]> {
  const { open, sent, vendorId } = asked;
  const { join, from, order } = pageOf(sql, asked.sort, asked.afterId);
  const none = sql``;
  const unless = (holds: boolean) => (holds ? none : sql`not`);
  return sql<OrderListed[]>`
    select o.id, o.number, json_build_object('id', v.id, 'name', v.name) as vendor, o.opened_at as "openedAt",
      ${markedAt(sql, 'sent')} as "sentAt", ${markedAt(sql, 'confirmed')} as "confirmedAt", l.lines, l.open,
      case when l.dated = l.open then l.last end as "expectedOn"
    from (
      select o.id, o.number, o.vendor_id, o.opened_at, row_number() over (order by ${order}) as place from purchase_order o ${join}
      where true
        ${vendorId === undefined ? none : sql`and o.vendor_id = ${vendorId}`}
        ${asked.words.reduce((all, word) => sql`${all} ${told(sql, word)}`, none)}
        ${open === undefined ? none : sql`and ${unless(open)} exists (select from purchase_line w where w.order_id = o.id and w.received < w.quantity)`}
        ${sent === undefined ? none : sql`and ${unless(sent)} exists (select from purchase_order_mark k where k.order_id = o.id and k.mark = 'sent')`}
        ${from}
      order by ${order} limit ${asked.limit}
    ) o join vendor v on v.id = o.vendor_id cross join ${linesOf(sql)} l
    order by o.place`;
}

export const orderExists = async (sql: Sql, id: string): Promise<boolean> =>
  (await sql`select from purchase_order where id = ${id}`).length === 1;
