import type { Scanned } from '#contracts/labels.ts';
import type { LabelledKind } from '#domain/labels/code.ts';
import type { Sql } from '#platform/database/client.ts';

/** By its serial, as a code has it, or by what people call it, in any case. */
export type Sought = { readonly serial: string } | { readonly called: string };

const which = (sql: Sql, { alias, name }: { alias: string; name: string }, sought: Sought) =>
  'serial' in sought
    ? sql`${sql(alias)}.label_serial = ${sought.serial}`
    : sql`lower(${sql(alias)}.${sql(name)}) = lower(${sought.called})`;

const held = (sql: Sql, subject: 'engine_id' | 'tray_id', id: ReturnType<Sql>) => sql`
  (select json_build_object(
      'kind', case when c.person_id is not null then 'person' when c.rest_bay_id is not null then 'bay'
                   when c.vendor_id is not null then 'vendor' else 'owner' end,
      'id', coalesce(c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id),
      'name', coalesce(hp.name, hb.name, hv.name, ho.name),
      'place', case when hs.id is not null then json_build_object('id', hs.id, 'name', hs.name) end,
      'since', to_char(c.from_at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'))
   from custody c left join person hp on hp.id = c.person_id left join bay hb on hb.id = c.rest_bay_id
     left join vendor hv on hv.id = c.vendor_id left join owner ho on ho.id = c.owner_id left join bay hs on hs.id = c.place_id
   where c.${sql(subject)} = ${id} and c.until_at is null)`;

type Of<Kind extends LabelledKind> = Omit<Extract<Scanned, { kind: Kind }>, 'kind'>;

export async function findEngine(sql: Sql, sought: Sought): Promise<Of<'engine'> | undefined> {
  const [engine] = await sql<Of<'engine'>[]>`
    select e.id, e.serial, f.name as family, ${held(sql, 'engine_id', sql`e.id`)} as held,
      (select j.id from job j where j.engine_id = e.id and j.handed_back_at is null) as "jobId"
    from engine e join family f on f.id = e.family_id where ${which(sql, { alias: 'e', name: 'serial' }, sought)}`;
  return engine;
}

/** By label the newest tray: later jobs use labels again. */
export async function findTray(sql: Sql, sought: Sought): Promise<Of<'tray'> | undefined> {
  const [tray] = await sql<Of<'tray'>[]>`
    select t.id, t.label, t.name, t.layer, t.emptied_at as "emptiedAt",
      json_build_object('id', j.id, 'number', j.number, 'engineId', e.id, 'serial', e.serial, 'family', f.name) as job,
      ${held(sql, 'tray_id', sql`t.id`)} as held,
      (select o.handover_id from handover_tray o where o.tray_id = t.id and o.open) as "offeredIn"
    from tray t join job j on j.id = t.job_id join engine e on e.id = j.engine_id join family f on f.id = e.family_id
    where ${which(sql, { alias: 't', name: 'label' }, sought)}
    order by (t.emptied_at is null) desc, t.made_at desc limit 1`;
  return tray;
}

/** By its code alone: many lines are called the same. */
export async function findRack(sql: Sql, sought: Sought): Promise<Of<'rack'> | undefined> {
  if (!('serial' in sought)) return undefined;
  const [rack] = await sql<Of<'rack'>[]>`
    select r.id, p.name, o.id as "openingId", o.closed_at as "closedAt",
      json_build_object('id', j.id, 'number', j.number, 'engineId', e.id, 'serial', e.serial, 'family', f.name) as job
    from rack r join piece p on p.id = r.id join opening o on o.id = p.opening_id join job j on j.id = o.job_id
      join engine e on e.id = j.engine_id join family f on f.id = e.family_id
    where r.label_serial = ${sought.serial}`;
  return rack;
}

export async function findPart(sql: Sql, sought: Sought): Promise<Of<'part'> | undefined> {
  const [part] = await sql<Of<'part'>[]>`
    select json_build_object('id', p.id, 'number', p.number, 'name', p.name) as part, p.retired_at is not null as retired,
      (select json_build_object('id', s.id, 'number', s.number, 'name', s.name) from part s where s.id = p.superseded_by_id) as "supersededBy"
    from part p where ${which(sql, { alias: 'p', name: 'number' }, sought)}`;
  return part;
}

export async function findBin(sql: Sql, sought: Sought): Promise<Of<'bin'> | undefined> {
  const [bin] = await sql<Of<'bin'>[]>`
    select b.id, b.code, b.closed_at is not null as closed,
      (select coalesce(json_agg(distinct jsonb_build_object('id', p.id, 'number', p.number, 'name', p.name)), '[]')
       from stock_lot l join part p on p.id = l.part_id where l.bin_id = b.id and l.on_hand > 0) as parts
    from bin b where ${which(sql, { alias: 'b', name: 'code' }, sought)}`;
  return bin;
}

export async function findShopMark(sql: Sql): Promise<string> {
  const [shop] = await sql<{ mark: string }[]>`select label_mark as mark from shop`;
  return shop?.mark ?? '';
}
