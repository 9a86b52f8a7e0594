import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** The delivery that brought it, and what its goods cost with their share of the freight, where any came in. */
export interface DeliveryShare {
  readonly id: string;
  readonly goods?: bigint;
  readonly freight?: bigint;
}

/** Whole packs and loose ones, as somebody keyed them. */
export interface Keyed {
  readonly packs: number;
  readonly loose: number;
}

/** What was keyed, packs or pieces or both, as it is kept. */
export const keyedOf = (said: {
  readonly packs?: number | undefined;
  readonly quantity?: number | undefined;
}): Keyed => ({
  packs: said.packs ?? 0,
  loose: said.quantity ?? 0,
});

/** What became of a purchase line; its figures follow by trigger. */
export async function insertFact(
  sql: Sql,
  fact: {
    readonly lineId: string;
    readonly kind: 'received' | 'came wrong' | 'came damaged' | 'sent back' | 'called off';
    readonly quantity: number;
    readonly lotId: string | null;
    readonly words: string;
    readonly byId: string;
    readonly delivery?: DeliveryShare;
    readonly keyed?: Keyed;
  },
): Promise<void> {
  await sql`
    insert into purchase_fact (id, purchase_line_id, kind, quantity, lot_id, words, done_by_id, delivery_id, cost_minor, freight_minor, keyed_packs, keyed_loose)
    values (${newId()}, ${fact.lineId}, ${fact.kind}, ${fact.quantity}, ${fact.lotId}, ${fact.words}, ${fact.byId},
            ${fact.delivery?.id ?? null}, ${minorOf(fact.delivery?.goods)}, ${minorOf(fact.delivery?.freight)},
            ${fact.keyed?.packs ?? null}, ${fact.keyed?.loose ?? null})`;
}

const minorOf = (sum: bigint | undefined): number | null => (sum === undefined ? null : Number(sum));

/**
 * A part that is bought against its worn one leaves so many worn ones owed to the vendor: one for each piece that was kept.
 * What replaces a piece whose core the vendor has already asks for no second one.
 */
export async function insertCoresOwed(sql: Sql, lineId: string, quantity: number): Promise<void> {
  await sql`
    insert into core_owed (id, purchase_line_id, quantity, charge_minor)
    select ${newId()}, pl.id, least(${quantity}::int, pl.received - o.owed), p.core_minor
    from purchase_line pl join part p on p.id = pl.part_id cross join lateral (
      select coalesce(sum(c.quantity), 0)::int as owed from core_now c where c.purchase_line_id = pl.id) o
    where pl.id = ${lineId} and p.core_minor > 0 and pl.received > o.owed`;
}

/** So many pieces of a locked purchase line went back: cores that the vendor has not got yet are not owed for them, the newest first. */
export async function liftCores(
  sql: Sql,
  of: { readonly lineId: string; readonly quantity: number; readonly words: string; readonly byId: string },
): Promise<void> {
  const cores = await sql<{ id: string; quantity: number }[]>`
    select c.id, c.quantity from core_now c
    where c.purchase_line_id = ${of.lineId} and c.quantity > 0
      and not exists (select from core_mark m where m.core_id = c.id)
    order by c.owed_at desc, c.id desc`;
  let left = of.quantity;
  for (const core of cores) {
    const quantity = Math.min(left, core.quantity);
    left -= quantity;
    if (quantity === 0) return;
    await sql`
      insert into core_lifted (id, core_id, quantity, words, lifted_by_id)
      values (${newId()}, ${core.id}, ${quantity}, ${of.words}, ${of.byId})`;
  }
}
