import type { Order, OrderListed, OrdersQuery } from '#contracts/supply.ts';
import { packWorth } from '#domain/stock/packs.ts';
import { shopHead } from '#features/shop/head/service.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { pricedFor } from './money.ts';
import { findOrders, orderExists } from './order-list-queries.ts';
import { findLineFacts, findOrder, findOrderLines, type OrderLineRow } from './queries.ts';

const worthOrdered = ({ priceMinor, packSize, quantity }: OrderLineRow): number =>
  Number(packWorth({ priceMinor: BigInt(priceMinor ?? 0), packSize }, quantity));

/** An order as it stands: its lines, and all that became of each. */
export async function orderById(sql: Sql, id: string, seesMoney: boolean): Promise<Order> {
  const order = found(await findOrder(sql, id), 'such order');
  const [from, lines, facts, priced] = await Promise.all([
    shopHead(sql),
    findOrderLines(sql, id),
    findLineFacts(sql, id),
    pricedFor(sql, seesMoney),
  ]);
  const total = lines.every(({ priceMinor }) => priceMinor !== null)
    ? lines.reduce((sum, line) => sum + worthOrdered(line), 0)
    : null;
  return {
    ...order,
    from,
    lines: lines.map(({ priceMinor, ...line }) => ({
      ...line,
      price: priced(priceMinor),
      facts: facts.filter(({ lineId }) => lineId === line.id).map(({ lineId: _, ...fact }) => fact),
    })),
    total: priced(total),
  };
}

/** Orders page by page. The mark is the last one of the page before, which stands where it stands now. */
export async function orders(sql: Sql, query: OrdersQuery): Promise<{ items: OrderListed[]; next: string | null }> {
  const { limit = 50, after: afterId, vendorId, search = '', sort = 'newest' } = query;
  if (afterId !== undefined && !(await orderExists(sql, afterId))) {
    throw new ProblemError('invalid-request', 'Pass as `after` what the last page gave as `next`, unchanged.');
  }
  const [open, sent] = [truthOf(query.open), truthOf(query.sent)];
  const rows = await findOrders(sql, {
    open,
    sent,
    vendorId,
    words: search.split(/\s+/).filter((word) => word !== ''),
    sort,
    afterId,
    limit: limit + 1,
  });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}

const truthOf = (word: 'true' | 'false' | undefined): boolean | undefined =>
  word === undefined ? undefined : word === 'true';
