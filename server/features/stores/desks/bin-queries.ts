import type { BinStanding } from '#contracts/stores-desks.ts';
import type { Sql } from '#platform/database/client.ts';
import { containing } from '#platform/database/containing.ts';

export interface BinsAsked {
  /** Each has to be there. */
  readonly words: readonly string[];
  /** The last bin of the page before. */
  readonly afterId: string | undefined;
  readonly limit: number;
}

/** Bins of which a word tells: its code, or a part that lies in it, as parts are found (part_words). */
const told = (sql: Sql, word: string) => sql`
  and (b.code ilike ${containing(word)} or b.id in (
    select l.bin_id from part_words w join stock_lot l on l.part_id = w.part_id and l.on_hand > 0
    where w.words like ${containing(word.toLowerCase())}))`;

/** A page of bins in the order of the walk; what lies in all the others is left unread. */
export async function findBins(sql: Sql, { words, afterId, limit }: BinsAsked): Promise<readonly BinStanding[]> {
  const none = sql``;
  return sql<BinStanding[]>`
    select b.id, b.code, b.walk_order as "walkOrder", b.closed_at is not null as closed,
      lying.parts, lying.pieces, lying.reserved
    from (
      select b.id, b.code, b.walk_order, b.closed_at from bin b
      where true ${words.reduce((all, word) => sql`${all} ${told(sql, word)}`, none)}
        ${afterId === undefined ? none : sql`and (b.walk_order, b.code) > (select walk_order, code from bin where id = ${afterId})`}
      order by b.walk_order, b.code limit ${limit}
    ) b cross join lateral (
      select count(distinct l.part_id)::int as parts, coalesce(sum(l.on_hand), 0)::int as pieces, coalesce(sum(l.reserved), 0)::int as reserved
      from stock_lot l where l.bin_id = b.id and l.on_hand > 0
    ) lying
    order by b.walk_order, b.code`;
}

export const binExists = async (sql: Sql, id: string): Promise<boolean> =>
  (await sql`select from bin where id = ${id}`).length === 1;
