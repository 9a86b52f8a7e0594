import type { Order, OrderListed, OrdersQuery } from '#contracts/supply.ts';
import { packWorth } from '#domain/stock/packs.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { pricedFor } from './money.ts';
import { findLineFacts, findOrder, findOrderLines, findOrders, type OrderLineRow } from './queries.ts';

const worthOrdered = ({ priceMinor, packSize, quantity }: OrderLineRow): number =>
  Number(packWorth({ priceMinor: BigInt(priceMinor ?? 0), packSize }, quantity));

/** An order as it stands: its lines, and all that became of each. */
export async function orderById(sql: Sql, id: string, seesMoney: boolean): Promise<Order> {
  const order = found(await findOrder(sql, id), 'such order');
  const [lines, facts, priced] = await Promise.all([
    findOrderLines(sql, id),
    findLineFacts(sql, id),
    pricedFor(sql, seesMoney),
  ]);
  const total = lines.every(({ priceMinor }) => priceMinor !== null)
    ? lines.reduce((sum, line) => sum + worthOrdered(line), 0)
    : null;
  return {
    ...order,
    lines: lines.map(({ priceMinor, ...line }) => ({
      ...line,
      price: priced(priceMinor),
      facts: facts.filter(({ lineId }) => lineId === line.id).map(({ lineId: _, ...fact }) => fact),
    })),
    total: priced(total),
  };
}

export async function orders(sql: Sql, query: OrdersQuery): Promise<{ items: OrderListed[]; next: string | null }> {
  const limit = query.limit ?? 50;
  const open = query.open === undefined ? undefined : query.open === 'true';
  const rows = await findOrders(sql, { after: query.after, open, limit: limit + 1 });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}
