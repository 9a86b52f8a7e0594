import type { Sql } from '#platform/database/client.ts';
import type { CompanionsRow } from './companions-file.ts';
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

/** What goes with which part, by number in small letters. */
export async function findCompanionNumbers(sql: Sql): Promise<ReadonlyMap<string, readonly string[]>> {
  const rows = await sql<{ number: string; others: string[] }[]>`
    select lower(p.number) as number, array_agg(lower(o.number)) as others
    from part_companion c join part p on p.id = c.part_id join part o on o.id = c.companion_id group by p.id`;
  return new Map(rows.map(({ number, others }) => [number, others]));
}

const findGoing = (sql: Sql, numbers: readonly string[]) => sql<{ number: string; what: string | null }[]>`
  select p.number, string_agg(concat(c.companion_id, '*', c.quantity), ' ' order by c.companion_id) as what
  from part p left join part_companion c on c.part_id = p.id where lower(p.number) = any(${numbers}::text[]) group by p.id`;

/** What goes with these parts, and the numbers of those that differ from before; first what ends, so that two can change places in one file. */
export async function writeCompanionRows(sql: Sql, rows: readonly CompanionsRow[]): Promise<readonly string[]> {
  if (rows.length === 0) return [];
  const numbers = rows.map(({ number }) => number.toLowerCase());
  const before = new Map((await findGoing(sql, numbers)).map(({ number, what }) => [number, what]));
  await sql`delete from part_companion c using part p where p.id = c.part_id and lower(p.number) = any(${numbers}::text[])`;
  const pairs = rows.flatMap(({ number, others }) => others.map((other) => ({ number, other })));
  await sql`
    insert into part_companion (part_id, companion_id, quantity)
    select p.id, o.id, g.count
    from unnest(${pairs.map(({ number }) => number)}::text[], ${pairs.map(({ other }) => other.number)}::text[],
      ${pairs.map(({ other }) => other.count)}::int[]) g (number, other, count)
      join part p on lower(p.number) = lower(g.number) join part o on lower(o.number) = lower(g.other)`;
  const after = await findGoing(sql, numbers);
  return after.filter(({ number, what }) => before.get(number) !== what).map(({ number }) => number);
}
