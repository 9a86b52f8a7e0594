import type { JobName, PartName } from '#contracts/parts.ts';
import type { Bins } from '#contracts/stores.ts';
import type { Sql } from '#platform/database/client.ts';
import { jobName, partName } from '../ledger/queries.ts';

export async function findOpenBins(sql: Sql): Promise<Bins['items']> {
  return sql<Bins['items']>`select id, code from bin where closed_at is null order by walk_order, code`;
}

/** A reader sends what is printed; a hand may type it in small letters. */
export async function findPartByNumber(sql: Sql, number: string): Promise<PartName | undefined> {
  const [row] = await sql<{ part: PartName }[]>`
    select ${partName(sql)} as part from part p where lower(p.number) = lower(${number})`;
  return row?.part;
}

export async function findBinByCode(sql: Sql, code: string) {
  const [bin] = await sql<{ id: string; code: string; parts: PartName[] }[]>`
    select b.id, b.code,
      (select coalesce(json_agg(distinct jsonb_build_object('id', p.id, 'number', p.number, 'name', p.name)), '[]')
       from stock_lot l join part p on p.id = l.part_id where l.bin_id = b.id and l.on_hand > 0) as parts
    from bin b where lower(b.code) = lower(${code})`;
  return bin;
}

/** The newest tray with that label: labels are used again by later jobs. */
export async function findTrayByLabel(sql: Sql, label: string) {
  const [tray] = await sql<{ id: string; label: string; job: JobName }[]>`
    select t.id, t.label, ${jobName(sql)} as job
    from tray t join job j on j.id = t.job_id where lower(t.label) = lower(${label})
    order by (t.emptied_at is null) desc, t.made_at desc limit 1`;
  return tray;
}
