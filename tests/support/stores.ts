import { expect } from 'vitest';
import { newId } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';
import type { Shop } from './shop.ts';

let last = 0;
const next = (): number => {
  last += 1;
  return last;
};

export interface PartFacts {
  readonly number?: string;
  readonly name?: string;
  readonly familyId?: string;
  readonly placeCode?: string;
  readonly shimNm?: number;
  readonly priceMinor?: number;
  readonly reorderPoint?: number;
}

export async function addPart(sql: SqlPool, facts: PartFacts = {}): Promise<{ id: string; number: string }> {
  const id = newId();
  const number = facts.number ?? `T-${String(next()).padStart(4, '0')}`;
  await sql`
    insert into part (id, number, name, family_id, place_code, shim_nm, shim_diameter_nm, price_minor, reorder_point)
    values (${id}, ${number}, ${facts.name ?? `Part ${number}`}, ${facts.familyId ?? null},
            ${facts.placeCode ?? null}, ${facts.shimNm ?? null},
            ${facts.shimNm === undefined ? null : 9_480_000}, ${facts.priceMinor ?? 0}, ${facts.reorderPoint ?? 0})`;
  return { id, number };
}

export async function addBin(sql: SqlPool, closed = false): Promise<{ id: string; code: string }> {
  const id = newId();
  const walk = next();
  const code = `Z-${walk}`;
  await sql`
    insert into bin (id, code, walk_order, closed_at)
    values (${id}, ${code}, ${walk}, case when ${closed} then clock_timestamp() end)`;
  return { id, code };
}

/** Puts pieces on the shelf through the ledger, as the first movement of a lot of their own. */
export async function addLot(
  shop: Shop,
  of: { partId: string; quantity: number; binId?: string; receivedAt?: string; valueMinor?: number; shimNm?: number },
): Promise<string> {
  const id = newId();
  const binId = of.binId ?? (await addBin(shop.sql)).id;
  await shop.sql`
    insert into stock_lot (id, part_id, bin_id, shim_nm, received_at)
    values (${id}, ${of.partId}, ${binId}, ${of.shimNm ?? null}, coalesce(${of.receivedAt ?? null}::timestamptz, clock_timestamp()))`;
  await shop.sql`
    insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, value_change, moved_by_id)
    values (${newId()}, ${id}, 'receive', ${of.quantity}, 0, ${of.valueMinor ?? 0}, ${shop.people.clerk})`;
  return id;
}

export async function addKit(shop: Shop, lines: readonly (readonly [partId: string, quantity: number])[]) {
  const id = newId();
  await shop.sql`insert into kit (id, family_id, name) values (${id}, ${shop.sheet.familyId}, ${`Kit ${next()}`})`;
  for (const [partId, quantity] of lines) {
    await shop.sql`insert into kit_line (kit_id, part_id, quantity) values (${id}, ${partId}, ${quantity})`;
  }
  return id;
}

/** Writes into a job's demand so many of each part, and tells the line of each. */
export async function demand(
  shop: Shop,
  jobId: string,
  lines: readonly (readonly [partId: string, quantity: number])[],
): Promise<ReadonlyMap<string, string>> {
  const { status, body } = await shop.as.technician.post(`/api/jobs/${jobId}/demands`, {
    lines: lines.map(([partId, quantity]) => ({ partId, quantity, words: 'for this rebuild' })),
  });
  expect(status, JSON.stringify(body)).toBe(201);
  return new Map(body.lines.map((line: { id: string; part: { id: string } }) => [line.part.id, line.id] as const));
}

/** How one line of a job stands: its five counts. */
export async function standing(shop: Shop, jobId: string, partId: string) {
  const { body } = await shop.as.clerk.get(`/api/jobs/${jobId}/demands`);
  const line = body.lines.find((candidate: { part: { id: string } }) => candidate.part.id === partId);
  const { reserved, short, issued, cancelled, notAsked } = line;
  return { reserved, short, issued, cancelled, notAsked };
}

export const none = { reserved: 0, short: 0, issued: 0, cancelled: 0, notAsked: 0 };

export async function lotNow(sql: SqlPool, id: string) {
  const [lot] = await sql<{ onHand: number; reserved: number; valueMinor: number }[]>`
    select on_hand as "onHand", reserved, value_minor as "valueMinor" from stock_lot where id = ${id}`;
  return lot;
}

/** Every lot's balance is the sum of its movements, and what is reserved of it is what lines hold of it. */
export async function expectBooksToAgree(sql: SqlPool): Promise<void> {
  const disagreeing = await sql`
    select l.id from stock_lot l
      left join lateral (select coalesce(sum(m.on_hand_change), 0) as on_hand, coalesce(sum(m.reserved_change), 0) as reserved,
                                coalesce(sum(m.value_change), 0) as value from stock_movement m where m.lot_id = l.id) m on true
      left join lateral (select coalesce(sum(r.quantity), 0) as held from reservation r where r.lot_id = l.id) r on true
    where (l.on_hand, l.reserved, l.value_minor, l.reserved) is distinct from (m.on_hand, m.reserved, m.value, r.held)`;
  expect(disagreeing).toHaveLength(0);
  const lines = await sql`
    select d.id from demand_line d
      left join lateral (select coalesce(sum(r.quantity), 0) as held from reservation r where r.demand_line_id = d.id) r on true
      left join lateral (select coalesce(-sum(m.on_hand_change), 0) as out from stock_movement m where m.demand_line_id = d.id) m on true
    where d.reserved <> r.held or d.issued <> m.out`;
  expect(lines).toHaveLength(0);
}
