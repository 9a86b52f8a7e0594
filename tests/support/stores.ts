import { expect } from 'vitest';
import { auditStock } from '#features/stores/audit/service.ts';
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
  of: {
    partId: string;
    quantity: number;
    binId?: string;
    receivedAt?: string;
    valueMinor?: number;
    shimNm?: number;
    grade?: string;
  },
): Promise<string> {
  const id = newId();
  const binId = of.binId ?? (await addBin(shop.sql)).id;
  await shop.sql`
    insert into stock_lot (id, part_id, bin_id, shim_nm, grade, received_at)
    values (${id}, ${of.partId}, ${binId}, ${of.shimNm ?? null}, ${of.grade ?? ''}, coalesce(${of.receivedAt ?? null}::timestamptz, clock_timestamp()))`;
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
    select l.on_hand as "onHand", l.reserved, v.value_minor as "valueMinor"
    from stock_lot l left join part_value v on v.part_id = l.part_id where l.id = ${id}`;
  return lot;
}

/** Everything that is kept of the stores is what its ledger adds up to. */
export async function expectBooksToAgree(sql: SqlPool): Promise<void> {
  expect((await auditStock(sql)).differences).toEqual([]);
}
