import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** What became of a purchase line; its figures follow by trigger. */
export async function insertFact(
  sql: Sql,
  fact: {
    readonly lineId: string;
    readonly kind: 'received' | 'came wrong' | 'sent back' | 'called off';
    readonly quantity: number;
    readonly lotId: string | null;
    readonly words: string;
    readonly byId: string;
  },
): Promise<void> {
  await sql`
    insert into purchase_fact (id, purchase_line_id, kind, quantity, lot_id, words, done_by_id)
    values (${newId()}, ${fact.lineId}, ${fact.kind}, ${fact.quantity}, ${fact.lotId}, ${fact.words}, ${fact.byId})`;
}

/** A part that is bought against its worn one leaves so many worn ones owed to the vendor. */
export async function insertCoresOwed(sql: Sql, lineId: string, quantity: number): Promise<void> {
  await sql`
    insert into core_owed (id, purchase_line_id, quantity, charge_minor)
    select ${newId()}, pl.id, ${quantity}, p.core_minor from purchase_line pl join part p on p.id = pl.part_id
    where pl.id = ${lineId} and p.core_minor > 0`;
}
