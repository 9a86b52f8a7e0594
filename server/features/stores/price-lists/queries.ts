import type { PriceListTaken } from '#contracts/price-lists.ts';
import { newId } from '#platform/act.ts';
import type { RowFault } from '#platform/csv-file.ts';
import type { Sql } from '#platform/database/client.ts';
import { packAsSold } from '../supply/queries.ts';
import type { PriceRow } from './file.ts';

/** Lays a vendor's rows out in a table of this transaction alone, each with the part it is of, where one is known. */
export async function stageRows(sql: Sql, rows: readonly PriceRow[], vendorId: string): Promise<void> {
  await sql`
    create temp table price_row (
      row int, new_part_id uuid, price_id uuid, theirs text, ours text, name text, price bigint, pack int, valid_from date, part_id uuid,
      same boolean not null default false
    ) on commit drop`;
  await sql`
    insert into price_row (row, new_part_id, price_id, theirs, ours, name, price, pack, valid_from)
    select * from unnest(${rows.map(({ row }) => row)}::int[], ${rows.map(newId)}::uuid[], ${rows.map(newId)}::uuid[],
      ${rows.map(({ theirs }) => theirs)}::text[], ${rows.map(({ ours }) => ours)}::text[], ${rows.map(({ name }) => name)}::text[],
      ${rows.map(({ priceMinor }) => priceMinor)}::bigint[], ${rows.map(({ packSize }) => packSize)}::int[],
      ${rows.map(({ from }) => from)}::text[]::date[])`;
  await sql`analyze price_row`;
  await sql`update price_row r set part_id = p.id from part p where r.ours <> '' and lower(p.number) = lower(r.ours)`;
  // A row that does not say our number is of the part this vendor called so before, else of one that we call so too.
  await sql`
    update price_row r set part_id = known.part_id
    from (select distinct on (lower(their_number)) lower(their_number) as theirs, part_id from vendor_price
          where vendor_id = ${vendorId} and their_number <> '' order by 1, valid_from desc, told_at desc) known
    where r.ours = '' and lower(r.theirs) = known.theirs`;
  await sql`
    update price_row r set part_id = p.id from part p where r.ours = '' and r.part_id is null and lower(p.number) = lower(r.theirs)`;
  await sql`
    update price_row r set pack = ${packAsSold(sql, { vendorId, partId: sql`r.part_id`, day: sql`r.valid_from` })} where r.pack is null`;
  await sql`
    update price_row r set same = true
    where r.part_id is not null and (
      select v.price_minor = r.price and v.pack_size = r.pack and (r.theirs = '' or v.their_number = r.theirs) from vendor_price v
      where v.part_id = r.part_id and v.vendor_id = ${vendorId} and v.valid_from <= r.valid_from
      order by v.valid_from desc, v.told_at desc limit 1)`;
}

/** What cannot be taken of the rows laid out, by row; as many as are told, and some more. */
export async function findRowFaults(sql: Sql, unknown: 'refuse' | 'make'): Promise<readonly RowFault[]> {
  return sql<RowFault[]>`
    with named as (
      select row, theirs, ours, name, valid_from, part_id, coalesce(part_id::text, lower(coalesce(nullif(ours, ''), theirs))) as part from price_row
    ), twice as (
      select row, ours, first_value(row) over (partition by part, valid_from order by row) as first from named
    )
    select row, case when ours = '' then 'their_number' else 'our_number' end as column, 'is of the same part and day as row ' || first || '.' as detail
      from twice where first < row
    union all
    select row, case when ours = '' then 'their_number' else 'our_number' end,
        'There is no part ' || coalesce(nullif(ours, ''), theirs) || '. Add it first, or have unknown parts made.'
      from named where part_id is null and ${unknown}::text = 'refuse'
    union all
    select row, 'name', 'is empty, and the part is new.' from named where part_id is null and name = '' and ${unknown}::text = 'make'
    union all
    select row, 'our_number', 'is empty, and their number is too long for a part of ours: at most 40 characters.'
      from named where part_id is null and ours = '' and length(theirs) > 40 and ${unknown}::text = 'make'
    order by 1, 2 limit 1000`;
}

/** What the rows laid out bring: prices that are news, and rows that say what was known. */
export async function countRows(sql: Sql): Promise<PriceListTaken> {
  const [counts] = await sql<PriceListTaken[]>`
    select count(*)::int as rows, count(distinct new_number)::int as made, count(*) filter (where not same)::int as prices,
      count(*) filter (where same)::int as unchanged
    from (select *, case when part_id is null then lower(coalesce(nullif(ours, ''), theirs)) end as new_number from price_row) r`;
  return counts ?? { rows: 0, made: 0, prices: 0, unchanged: 0 };
}

/** Makes the parts that nobody knows, and keeps every price that is news. */
export async function keepRows(sql: Sql, of: { readonly vendorId: string; readonly byId: string }): Promise<void> {
  await sql`
    with made as (
      insert into part (id, number, name)
      select distinct on (lower(coalesce(nullif(ours, ''), theirs))) new_part_id, coalesce(nullif(ours, ''), theirs), name
      from price_row where part_id is null order by lower(coalesce(nullif(ours, ''), theirs)), row
      returning id, lower(number) as number
    )
    update price_row r set part_id = made.id from made
    where r.part_id is null and lower(coalesce(nullif(r.ours, ''), r.theirs)) = made.number`;
  await sql`
    insert into vendor_price (id, vendor_id, part_id, price_minor, pack_size, valid_from, their_number, told_by_id)
    select price_id, ${of.vendorId}, part_id, price, pack, valid_from, theirs, ${of.byId} from price_row where not same order by row`;
}
