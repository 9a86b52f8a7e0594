import type { Sql } from '#platform/database/client.ts';

/** Parts by id, and whether what goes with each leads to this part, over however many. */
export async function findWhereLeading(sql: Sql, of: { readonly partId: string; readonly ids: readonly string[] }) {
  return sql<{ id: string; number: string; leadsBack: boolean }[]>`
    with recursive reached (start, id) as (
      select p.id, p.id from part p where p.id = any(${of.ids}::uuid[])
      union
      select r.start, c.companion_id from reached r join part_companion c on c.part_id = r.id
    )
    select p.id, p.number, bool_or(r.id = ${of.partId}) as "leadsBack"
    from reached r join part p on p.id = r.start group by p.id`;
}

export interface CompanionToKeep {
  readonly partId: string;
  readonly quantity: number;
}

/** Exactly these go with a part from now on. */
export async function keepCompanions(sql: Sql, partId: string, companions: readonly CompanionToKeep[]): Promise<void> {
  const ids = companions.map((companion) => companion.partId);
  await sql`delete from part_companion where part_id = ${partId} and companion_id <> all(${ids}::uuid[])`;
  await sql`
    insert into part_companion as c (part_id, companion_id, quantity)
    select ${partId}, g.id, g.count from unnest(${ids}::uuid[], ${companions.map(({ quantity }) => quantity)}::int[]) g (id, count)
    on conflict (part_id, companion_id) do update set quantity = excluded.quantity where c.quantity <> excluded.quantity`;
}
