import type { Order, OrderListed, OrdersQuery } from '#contracts/supply.ts';
import { csvFileOf } from '#platform/csv-file.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { pricedFor } from './money.ts';
import { findLineFacts, findOrder, findOrderLines, findOrders } from './queries.ts';

/** An order as it stands: its lines, and all that became of each. */
export async function orderById(sql: Sql, id: string, seesMoney: boolean): Promise<Order> {
  const order = found(await findOrder(sql, id), 'such order');
  const [lines, facts, priced] = await Promise.all([
    findOrderLines(sql, id),
    findLineFacts(sql, id),
    pricedFor(sql, seesMoney),
  ]);
  const total = lines.every(({ priceMinor }) => priceMinor !== null)
    ? lines.reduce((sum, line) => sum + (line.priceMinor ?? 0) * line.quantity, 0)
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

/** An order as plain text, to be put into a letter. */
export async function orderText(sql: Sql, id: string): Promise<string> {
  const order = await orderById(sql, id, false);
  const lines = order.lines.map(
    ({ quantity, unit, part, theirNumber }, at) =>
      `${String(at + 1).padStart(3)}. ${quantity} ${unit === 'piece' ? 'pcs' : unit}  ${part.name}, ours ${part.number}${theirNumber === '' ? '' : `, yours ${theirNumber}`}`,
  );
  return [
    `Order ${order.number}`,
    `To ${order.vendor.name}`,
    '',
    ...lines,
    ...(order.words === '' ? [] : ['', order.words]),
    '',
    `${order.openedBy}, ${order.openedAt.slice(0, 10)}`,
    '',
  ].join('\r\n');
}

export async function orderCsv(sql: Sql, id: string): Promise<string> {
  const order = await orderById(sql, id, false);
  return csvFileOf(
    ['order', 'line', 'number', 'their_number', 'name', 'quantity', 'unit', 'received', 'promised_on'],
    order.lines.map((line, at) =>
      guardedRow({
        order: String(order.number),
        line: String(at + 1),
        number: line.part.number,
        their_number: line.theirNumber,
        name: line.part.name,
        quantity: String(line.quantity),
        unit: line.unit,
        received: String(line.received),
        promised_on: line.promisedOn ?? '',
      }),
    ),
  );
}
