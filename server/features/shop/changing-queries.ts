import type { AddTerminal, ChangeShop, ChangeVendor } from '#contracts/shop.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import type { ShopRow } from './queries.ts';

type Bay = Omit<ShopRow['bays'][number], 'id'>;

/** The bay as it is set up, locked until the act is through; so is who comes to stand in it. */
export async function lockBay(sql: Sql, id: string): Promise<(Bay & { readonly standing: number }) | undefined> {
  const [bay] = await sql<(Bay & { standing: number })[]>`
    select name, kind, capacity,
      json_build_object('column', grid_column, 'row', grid_row, 'width', grid_width, 'height', grid_height) as grid,
      (select count(*)::int from custody c where c.place_id = bay.id and c.until_at is null and c.engine_id is not null) as standing
    from bay where id = ${id} and retired_at is null for update`;
  return bay;
}

export async function updateBay(sql: Sql, id: string, { name, kind, capacity, grid }: Bay): Promise<void> {
  await sql`
    update bay set name = ${name}, kind = ${kind}, capacity = ${capacity}, grid_column = ${grid.column},
      grid_row = ${grid.row}, grid_width = ${grid.width}, grid_height = ${grid.height}
    where id = ${id}`;
}

export async function retireBay(sql: Sql, id: string): Promise<void> {
  await sql`update bay set retired_at = clock_timestamp() where id = ${id}`;
}

export async function insertTerminal(sql: Sql, terminal: AddTerminal): Promise<string> {
  const id = newId();
  await sql`
    insert into terminal (id, name, bay_id, idle_minutes)
    values (${id}, ${terminal.name}, ${terminal.bayId}, ${terminal.idleMinutes})`;
  return id;
}

export async function lockTerminal(sql: Sql, id: string): Promise<AddTerminal | undefined> {
  const [terminal] = await sql<AddTerminal[]>`
    select name, bay_id as "bayId", idle_minutes as "idleMinutes" from terminal where id = ${id} and retired_at is null for update`;
  return terminal;
}

export async function updateTerminal(sql: Sql, id: string, terminal: AddTerminal): Promise<void> {
  await sql`
    update terminal set name = ${terminal.name}, bay_id = ${terminal.bayId}, idle_minutes = ${terminal.idleMinutes}
    where id = ${id}`;
}

export async function retireTerminal(sql: Sql, id: string): Promise<void> {
  await sql`update terminal set retired_at = clock_timestamp() where id = ${id}`;
}

export async function lockVendor(sql: Sql, id: string): Promise<{ readonly name: string } | undefined> {
  const [vendor] = await sql<{ name: string }[]>`
    select name from vendor where id = ${id} and retired_at is null for update`;
  return vendor;
}

export async function updateVendor(sql: Sql, id: string, asked: ChangeVendor): Promise<void> {
  await sql`
    update vendor set name = coalesce(${asked.name?.trim() ?? null}, name),
      trade = coalesce(${asked.trade?.trim() ?? null}, trade), contact = coalesce(${asked.contact?.trim() ?? null}, contact)
    where id = ${id}`;
}

export async function vendorHolds(sql: Sql, id: string): Promise<boolean> {
  const [row] = await sql<{ holds: boolean }[]>`
    select exists (select from custody where vendor_id = ${id} and until_at is null) as holds`;
  return row?.holds === true;
}

export async function retireVendor(sql: Sql, id: string): Promise<void> {
  await sql`update vendor set retired_at = clock_timestamp() where id = ${id}`;
}

export async function updateShop(sql: Sql, asked: ChangeShop): Promise<void> {
  await sql`
    update shop set name = coalesce(${asked.name?.trim() ?? null}, name), address = coalesce(${asked.address?.trim() ?? null}, address),
      phone = coalesce(${asked.phone?.trim() ?? null}, phone), email = coalesce(${asked.email?.trim() ?? null}, email), zone = coalesce(${asked.zone ?? null}, zone),
      locale = coalesce(${asked.locale ?? null}, locale)`;
}
