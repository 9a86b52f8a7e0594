import type { AddBay, ShopFacts } from '#contracts/shop.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export type ShopRow = Omit<ShopFacts, 'instruments'>;

/** The shop and what it is set up with, in one statement. */
export async function findShop(sql: Sql): Promise<ShopRow | undefined> {
  const [shop] = await sql<ShopRow[]>`
    select s.name, s.address, s.phone, s.email, s.zone, s.locale, s.currency, s.open_limit_minutes as "openLimitMinutes", s.figures_invented as "figuresInvented",
      (select coalesce(json_agg(json_build_object('id', b.id, 'name', b.name, 'kind', b.kind, 'capacity', b.capacity, 'grid',
                json_build_object('column', b.grid_column, 'row', b.grid_row, 'width', b.grid_width, 'height', b.grid_height))
                order by b.grid_row, b.grid_column, b.name), '[]') from bay b where b.retired_at is null) as bays,
      (select coalesce(json_agg(json_build_object('id', p.id, 'name', p.name, 'initials', p.initials, 'roles',
                (select coalesce(json_agg(r.role order by r.role), '[]') from person_role r where r.person_id = p.id))
                order by p.name), '[]') from person p where p.left_at is null) as people,
      (select coalesce(json_agg(json_build_object('id', v.id, 'name', v.name, 'trade', v.trade, 'contact', v.contact) order by v.name), '[]')
       from vendor v where v.retired_at is null) as vendors,
      (select coalesce(json_agg(json_build_object('id', t.id, 'name', t.name, 'bay',
                case when b.id is not null then json_build_object('id', b.id, 'name', b.name) end,
                'idleMinutes', t.idle_minutes) order by t.name), '[]')
       from terminal t left join bay b on b.id = t.bay_id where t.retired_at is null) as terminals,
      (select coalesce(json_agg(json_build_object('id', f.id, 'code', f.code, 'name', f.name, 'revision',
                (select max(r.number) from spec_revision r where r.family_id = f.id and r.published_at is not null)) order by f.name), '[]')
       from family f) as families
    from shop s`;
  return shop;
}

/** The shop's row is the lock under which the floor plan changes. */
export async function lockFloorPlan(sql: Sql): Promise<void> {
  await sql`select id from shop for update`;
}

type Grid = ShopRow['bays'][number]['grid'];

export async function findOverlapping(
  sql: Sql,
  { column, row, width, height }: Grid,
  but: string | undefined,
): Promise<string | undefined> {
  const [bay] = await sql<{ name: string }[]>`
    select name from bay
    where retired_at is null and id is distinct from ${but ?? null} and grid_column < ${column + width} and ${column} < grid_column + grid_width
      and grid_row < ${row + height} and ${row} < grid_row + grid_height
    order by name limit 1`;
  return bay?.name;
}

export async function insertBay(sql: Sql, bay: Omit<AddBay, 'grid'>, grid: Grid): Promise<string> {
  const id = newId();
  await sql`
    insert into bay (id, name, kind, capacity, grid_column, grid_row, grid_width, grid_height)
    values (${id}, ${bay.name}, ${bay.kind}, ${bay.capacity}, ${grid.column}, ${grid.row}, ${grid.width}, ${grid.height})`;
  return id;
}

export async function insertVendor(
  sql: Sql,
  vendor: { name: string; trade: string; contact: string },
): Promise<string> {
  const id = newId();
  await sql`insert into vendor (id, name, trade, contact) values (${id}, ${vendor.name}, ${vendor.trade}, ${vendor.contact})`;
  return id;
}

export async function insertOwner(sql: Sql, owner: { name: string; contact: string }): Promise<string> {
  const id = newId();
  await sql`insert into owner (id, name, contact) values (${id}, ${owner.name}, ${owner.contact})`;
  return id;
}
