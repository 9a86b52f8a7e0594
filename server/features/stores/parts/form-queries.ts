import type { PartName } from '#contracts/parts.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface PartBasics {
  readonly name: string;
  readonly familyId: string | null;
  readonly placeCode: string | null;
  readonly sizeClass: string | null;
  readonly grade: string;
  readonly oneTime: boolean;
  readonly priceMinor: number;
  readonly coreMinor: number;
  readonly reorderPoint: number;
}

export interface KnownBasics extends PartBasics {
  readonly id: string;
  readonly number: string;
  readonly retired: boolean;
}

/** A part's basics, locked: of two who change it the second sees what the first has written. */
export async function lockBasics(sql: Sql, id: string): Promise<KnownBasics | undefined> {
  const [part] = await sql<KnownBasics[]>`
    select id, number, name, family_id as "familyId", place_code as "placeCode", size_class as "sizeClass", grade,
      one_time as "oneTime", price_minor as "priceMinor", core_minor as "coreMinor", reorder_point as "reorderPoint", retired_at is not null as retired
    from part where id = ${id} for no key update`;
  return part;
}

/** The number of a part by that number, small and large letters alike. */
export async function findNumber(sql: Sql, number: string): Promise<string | undefined> {
  const [part] = await sql<{ number: string }[]>`select number from part where lower(number) = ${number.toLowerCase()}`;
  return part?.number;
}

export async function familyExists(sql: Sql, id: string): Promise<boolean> {
  return (await sql`select from family where id = ${id}`).length === 1;
}

export async function insertPart(
  sql: Sql,
  part: PartBasics & { readonly number: string; readonly unit: string; readonly bySerial: boolean },
): Promise<PartName> {
  const id = newId();
  await sql`
    insert into part (id, number, name, unit, family_id, place_code, size_class, grade, one_time, by_serial, price_minor, core_minor, reorder_point)
    values (${id}, ${part.number}, ${part.name}, ${part.unit}, ${part.familyId}, ${part.placeCode}, ${part.sizeClass}, ${part.grade},
      ${part.oneTime}, ${part.bySerial}, ${part.priceMinor}, ${part.coreMinor}, ${part.reorderPoint})`;
  return { id, number: part.number, name: part.name };
}

export async function updateBasics(
  sql: Sql,
  part: PartBasics & { readonly id: string; readonly retired: boolean },
): Promise<void> {
  await sql`
    update part set name = ${part.name}, family_id = ${part.familyId}, place_code = ${part.placeCode},
      size_class = ${part.sizeClass}, grade = ${part.grade}, one_time = ${part.oneTime}, price_minor = ${part.priceMinor},
      core_minor = ${part.coreMinor}, reorder_point = ${part.reorderPoint},
      retired_at = case when ${part.retired} then coalesce(retired_at, clock_timestamp()) end
    where id = ${part.id}`;
}
