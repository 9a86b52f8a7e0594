import type { Sql } from '#platform/database/client.ts';
import type { SuccessorRow } from './ties-file.ts';

/** Which part replaces which, by number in small letters. */
export async function findSuccessors(sql: Sql): Promise<ReadonlyMap<string, string>> {
  const rows = await sql<{ number: string; by: string }[]>`
    select lower(p.number) as number, lower(s.number) as by from part p join part s on s.id = p.superseded_by_id`;
  return new Map(rows.map(({ number, by }) => [number, by]));
}

/** The alternatives that these parts have now. */
export async function findAlternativesOf(sql: Sql, partIds: readonly string[]) {
  return sql<{ partId: string; otherId: string; number: string; condition: string }[]>`
    select a.part_id as "partId", a.other_id as "otherId", p.number, a.condition
    from part_alternative_now a join part p on p.id = a.other_id where a.part_id = any(${partIds}::uuid[])`;
}

const findReplaced = (sql: Sql, numbers: readonly string[]) => sql<{ number: string; how: string }[]>`
  select number, concat(superseded_by_id, ' ', interchangeable) as how from part where lower(number) = any(${numbers}::text[])`;

/**
 * What replaces these parts, and the numbers of those that differ from before; first what ends, so that a chain can be
 * turned round in one file.
 */
export async function writeSuccessors(sql: Sql, rows: readonly SuccessorRow[]): Promise<readonly string[]> {
  if (rows.length === 0) return [];
  const numbers = rows.map(({ number }) => number.toLowerCase());
  const before = new Map((await findReplaced(sql, numbers)).map(({ number, how }) => [number, how]));
  const named = rows.filter(({ by }) => by !== null).map(({ number }) => number.toLowerCase());
  await sql`update part set superseded_by_id = null where lower(number) = any(${named}::text[]) and superseded_by_id is not null`;
  await sql`
    update part p set
      superseded_by_id = case when g.by is null then p.superseded_by_id
        else (select s.id from part s where lower(s.number) = lower(g.by)) end,
      interchangeable = case when g.by = '' then true else coalesce(g.use_up::boolean, p.interchangeable) end
    from unnest(${rows.map(({ number }) => number)}::text[], ${rows.map(({ by }) => by)}::text[],
      ${rows.map(({ useUp }) => (useUp === null ? null : String(useUp)))}::text[]) g (number, by, use_up)
    where lower(p.number) = lower(g.number)`;
  const after = await findReplaced(sql, numbers);
  return after.filter(({ number, how }) => before.get(number) !== how).map(({ number }) => number);
}
