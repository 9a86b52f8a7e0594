import type { FileTaken } from '#contracts/stores-files.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import type { BinRow } from './bins-file.ts';
import type { KitRow } from './kits-file.ts';
import type { VendorKnown, VendorRow } from './vendors-file.ts';

type Counts = Omit<FileTaken, 'rows'>;
const none: Counts = { added: 0, changed: 0, unchanged: 0 };

/** The driver sends arrays of booleans as something else. */
const wordOf = (yes: boolean | null): string | null => (yes === null ? null : String(yes));

/** Puts up bins, or changes those whose code is known; what a row leaves empty stays. */
export async function upsertBins(sql: Sql, bins: readonly BinRow[]): Promise<Counts> {
  const [counts] = await sql<Counts[]>`
    with given as (
      select g.*, b.id as known, coalesce(g.walk, b.walk_order) as walk_order, coalesce(g.closed::boolean, b.closed_at is not null) as shut,
        b.walk_order is distinct from coalesce(g.walk, b.walk_order)
          or (b.closed_at is not null) is distinct from coalesce(g.closed::boolean, b.closed_at is not null) as differs
      from unnest(${bins.map(newId)}::uuid[], ${bins.map(({ code }) => code)}::text[], ${bins.map(({ walkOrder }) => walkOrder)}::int[],
        ${bins.map(({ closed }) => wordOf(closed))}::text[]) with ordinality g (id, code, walk, closed, at)
        left join bin b on lower(b.code) = lower(g.code)
    ), changed as (
      update bin b set walk_order = g.walk_order, closed_at = case when g.shut then coalesce(b.closed_at, clock_timestamp()) end
      from given g where b.id = g.known and g.differs returning b.id
    ), added as (
      insert into bin (id, code, walk_order, closed_at)
      select g.id, g.code,
        coalesce(g.walk, (select coalesce(max(walk_order), 0) from bin)::int + 10 * row_number() over (partition by g.walk is null order by g.at)::int),
        case when g.closed::boolean then clock_timestamp() end
      from given g where g.known is null returning id
    )
    select (select count(*)::int from added) as added, (select count(*)::int from changed) as changed,
      (select count(*)::int from given where known is not null and not differs) as unchanged`;
  return counts ?? none;
}

/** Every vendor, also those that nothing is bought from any more; nobody adds or changes one until this act is done. */
export async function lockVendors(sql: Sql): Promise<readonly VendorKnown[]> {
  await sql`lock table vendor in share row exclusive mode`;
  return sql<VendorKnown[]>`select name, retired_at is not null as retired from vendor`;
}

/** Adds vendors, or changes those whose name is known; what a row leaves empty stays. */
export async function upsertVendors(sql: Sql, vendors: readonly VendorRow[]): Promise<Counts> {
  const [counts] = await sql<Counts[]>`
    with given as (
      select g.*, v.id as known, (g.trade <> '' and g.trade <> v.trade) or (g.contact <> '' and g.contact <> v.contact) as differs
      from unnest(${vendors.map(newId)}::uuid[], ${vendors.map(({ name }) => name)}::text[], ${vendors.map(({ trade }) => trade)}::text[],
        ${vendors.map(({ contact }) => contact)}::text[]) g (id, name, trade, contact) left join vendor v on v.name = g.name
    ), changed as (
      update vendor v set trade = coalesce(nullif(g.trade, ''), v.trade), contact = coalesce(nullif(g.contact, ''), v.contact)
      from given g where v.id = g.known and g.differs returning v.id
    ), added as (
      insert into vendor (id, name, trade, contact) select g.id, g.name, g.trade, g.contact from given g where g.known is null returning id
    )
    select (select count(*)::int from added) as added, (select count(*)::int from changed) as changed,
      (select count(*)::int from given where known is not null and not differs) as unchanged`;
  return counts ?? none;
}

/** Lays the rows of kits out in a table of this transaction alone, each with its kit, where there is one. */
async function stageKits(sql: Sql, rows: readonly KitRow[]): Promise<void> {
  await sql`create temp table kit_row (family_id uuid, name text, part_id uuid, quantity int, kit_id uuid) on commit drop`;
  await sql`
    insert into kit_row
    select g.*, k.id from unnest(${rows.map(({ familyId }) => familyId)}::uuid[], ${rows.map(({ kit }) => kit)}::text[],
      ${rows.map(({ partId }) => partId)}::uuid[], ${rows.map(({ quantity }) => quantity)}::int[]) g (family_id, name, part_id, quantity)
      left join kit k on k.family_id = g.family_id and lower(k.name) = lower(g.name)`;
}

/** Makes the kits named, and gives each the very parts its rows say; kits that no row names stay as they are. */
export async function replaceKits(sql: Sql, rows: readonly KitRow[]): Promise<Counts> {
  await stageKits(sql, rows);
  const [counts] = await sql<Counts[]>`
    with said as (
      select family_id, lower(name) as name, kit_id, jsonb_object_agg(part_id, quantity) as lines from kit_row group by 1, 2, 3
    ), held as (
      select said.*, (select coalesce(jsonb_object_agg(l.part_id, l.quantity), '{}') from kit_line l where l.kit_id = said.kit_id) as before
      from said
    )
    select count(*) filter (where kit_id is null)::int as added,
      count(*) filter (where kit_id is not null and lines <> before)::int as changed,
      count(*) filter (where kit_id is not null and lines = before)::int as unchanged
    from held`;
  const made = await sql<{ familyId: string; name: string }[]>`
    select distinct on (family_id, lower(name)) family_id as "familyId", name from kit_row where kit_id is null order by family_id, lower(name), name`;
  await sql`
    with made as (
      insert into kit (id, family_id, name)
      select * from unnest(${made.map(newId)}::uuid[], ${made.map(({ familyId }) => familyId)}::uuid[], ${made.map(({ name }) => name)}::text[])
      returning id, family_id, name
    )
    update kit_row r set kit_id = made.id from made where r.kit_id is null and made.family_id = r.family_id and lower(made.name) = lower(r.name)`;
  await sql`
    delete from kit_line l using (select distinct kit_id from kit_row) named
    where l.kit_id = named.kit_id and not exists (select from kit_row r where r.kit_id = l.kit_id and r.part_id = l.part_id)`;
  await sql`
    insert into kit_line (kit_id, part_id, quantity) select kit_id, part_id, quantity from kit_row
    on conflict (kit_id, part_id) do update set quantity = excluded.quantity`;
  return counts ?? none;
}
