import type { Sql } from '#platform/database/client.ts';

export interface BinNow {
  readonly id: string;
  readonly code: string;
  readonly walkOrder: number;
  readonly closed: boolean;
  /** Number of the sheet on which it is being counted. */
  readonly sheet: number | null;
}

/** Bins as they stand, held until the transaction ends; locked by id, so that two such acts cannot block each other. */
export async function lockBins(sql: Sql, ids: readonly string[]): Promise<readonly BinNow[]> {
  await sql`select from bin where id = any(${ids}::uuid[]) order by id for no key update`;
  return sql<BinNow[]>`
    select b.id, b.code, b.walk_order as "walkOrder", b.closed_at is not null as closed,
      (select max(s.number) from count_sheet_bin o join count_sheet s on s.id = o.sheet_id where o.bin_id = b.id and o.ended_at is null) as sheet
    from bin b where b.id = any(${ids}::uuid[])`;
}

export async function writeBins(sql: Sql, bins: readonly BinNow[]): Promise<void> {
  await sql`
    update bin b set walk_order = g.walk_order, closed_at = case when g.closed::boolean then coalesce(b.closed_at, clock_timestamp()) end
    from unnest(${bins.map(({ id }) => id)}::uuid[], ${bins.map(({ walkOrder }) => walkOrder)}::int[],
      ${bins.map(({ closed }) => String(closed))}::text[]) g (id, walk_order, closed)
    where b.id = g.id`;
}
