import type { LabelChoices } from '#contracts/labels.ts';
import type { LabelledKind } from '#domain/labels/code.ts';
import type { Sql } from '#platform/database/client.ts';
import { containing } from '#platform/database/containing.ts';

export async function findMark(sql: Sql): Promise<{ mark: string; name: string }> {
  const [shop] = await sql<{ mark: string; name: string }[]>`select label_mark as mark, name from shop`;
  return shop ?? { mark: '00', name: '' };
}

interface Drawn {
  readonly stroke: 'four-stroke' | 'two-stroke';
  readonly cooling: 'water' | 'air';
}

export async function findEngines(sql: Sql, ids: readonly string[]) {
  return sql<(Drawn & { id: string; serial: string; name: string; family: string; job: number | null })[]>`
    select e.id, e.label_serial as serial, e.serial as name, f.name as family, f.cycle as stroke, f.cooling,
      (select max(j.number) from job j where j.engine_id = e.id) as job
    from engine e join family f on f.id = e.family_id where e.id = any(${[...ids]}::uuid[])`;
}

/** Pieces by name alone: whoever a tray is handed to counts it blind. */
export async function findTrays(sql: Sql, ids: readonly string[]) {
  return sql<
    (Drawn & {
      id: string;
      serial: string;
      name: string;
      words: string;
      alone: boolean;
      layer: 'cover' | 'head' | 'cylinder' | 'case' | null;
      job: number;
      engine: string;
      pieces: string[];
    })[]
  >`
    select t.id, t.label_serial as serial, t.label as name, t.name as words, t.alone, t.layer, j.number as job, e.serial as engine,
      f.cycle as stroke, f.cooling,
      array(select distinct p.name from piece_in_tray i join piece p on p.id = i.piece_id where i.tray_id = t.id and i.count > 0 order by 1) as pieces
    from tray t join job j on j.id = t.job_id join engine e on e.id = j.engine_id join family f on f.id = e.family_id
    where t.id = any(${[...ids]}::uuid[])`;
}

/** By name and places alone, never how many lie in it: its tray may be counted blind. */
export async function findRacks(sql: Sql, ids: readonly string[]) {
  return sql<
    { id: string; serial: string; name: string; fromWhere: string; places: string[]; job: number; engine: string }[]
  >`
    select r.id, r.label_serial as serial, p.name, p.from_where as "fromWhere", j.number as job, e.serial as engine,
      array(select s.name from piece_position s where s.piece_id = p.id order by s.ordinal) as places
    from rack r join piece p on p.id = r.id join opening o on o.id = p.opening_id join job j on j.id = o.job_id
      join engine e on e.id = j.engine_id
    where r.id = any(${[...ids]}::uuid[])`;
}

export async function findBins(sql: Sql, ids: readonly string[]) {
  return sql<{ id: string; serial: string; name: string; parts: string[] }[]>`
    select b.id, b.label_serial as serial, b.code as name,
      array(select distinct p.name from stock_lot l join part p on p.id = l.part_id where l.bin_id = b.id and l.on_hand > 0 order by 1) as parts
    from bin b where b.id = any(${[...ids]}::uuid[])`;
}

export async function findParts(sql: Sql, ids: readonly string[]) {
  return sql<{ id: string; serial: string; name: string; words: string; shim: number | null; bins: string[] }[]>`
    select p.id, p.label_serial as serial, p.number as name, p.name as words, p.shim_nm as shim,
      array(select distinct b.code from stock_lot l join bin b on b.id = l.bin_id where l.part_id = p.id and l.on_hand > 0 order by 1) as bins
    from part p where p.id = any(${[...ids]}::uuid[])`;
}

interface ChoicesAsked {
  readonly kind: LabelledKind;
  readonly search: string;
  readonly limit: number;
}

/** What can be chosen to print a label of, found by part of what names it. */
export async function findChoices(sql: Sql, { kind, search, limit }: ChoicesAsked): Promise<LabelChoices['items']> {
  const like = containing(search);
  switch (kind) {
    case 'engine':
      return sql<LabelChoices['items']>`
        select e.id, e.serial as name, f.name || coalesce(', job ' || j.number, '') as about
        from engine e join family f on f.id = e.family_id left join job j on j.engine_id = e.id and j.handed_back_at is null
        where e.serial ilike ${like} or f.name ilike ${like} or j.number::text like ${like}
        order by j.number desc nulls last, e.serial limit ${limit}`;
    case 'tray':
      return sql<LabelChoices['items']>`
        select t.id, t.label as name, t.name || ', job ' || j.number || ', ' || e.serial as about
        from tray t join job j on j.id = t.job_id join engine e on e.id = j.engine_id
        where t.emptied_at is null and j.handed_back_at is null
          and (t.label ilike ${like} or t.name ilike ${like} or e.serial ilike ${like} or j.number::text like ${like})
        order by j.number, t.made_at, t.id limit ${limit}`;
    case 'rack':
      return sql<LabelChoices['items']>`
        select r.id, p.name, concat_ws(', ', nullif(p.from_where, ''), 'job ' || j.number, e.serial) as about
        from rack r join piece p on p.id = r.id join opening o on o.id = p.opening_id join job j on j.id = o.job_id
          join engine e on e.id = j.engine_id
        where o.closed_at is null
          and (p.name ilike ${like} or p.from_where ilike ${like} or e.serial ilike ${like} or j.number::text like ${like})
        order by j.number, p.added_at, p.id limit ${limit}`;
    case 'bin':
      return sql<LabelChoices['items']>`
        select b.id, b.code as name, coalesce((select string_agg(distinct p.name, ', ') from stock_lot l join part p on p.id = l.part_id
          where l.bin_id = b.id and l.on_hand > 0), '') as about
        from bin b where b.closed_at is null and b.code ilike ${like} order by b.walk_order, b.code limit ${limit}`;
    case 'part':
      return sql<LabelChoices['items']>`
        select p.id, p.number as name, p.name as about from part p
        where p.retired_at is null and (p.number ilike ${like} or p.name ilike ${like}) order by p.number limit ${limit}`;
  }
}
