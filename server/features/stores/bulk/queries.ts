import type { PartName } from '#contracts/parts.ts';
import type { Sql } from '#platform/database/client.ts';
import { partName } from '../ledger/queries.ts';

export interface PartStanding {
  readonly part: PartName;
  readonly reorderPoint: number;
  readonly sizeClass: string | null;
  readonly grade: string;
  readonly placeCode: string | null;
  readonly oneTime: boolean;
  readonly vendorId: string | null;
  readonly vendor: string | null;
}

/** The parts by number as they stand, held until the transaction ends; locked by id, so that two such acts cannot block each other. */
export async function lockParts(sql: Sql, ids: readonly string[]): Promise<readonly PartStanding[]> {
  await sql`select id from part where id = any(${ids}::uuid[]) order by id for update`;
  return sql<PartStanding[]>`
    select ${partName(sql)} as part, p.reorder_point as "reorderPoint", p.size_class as "sizeClass", p.grade, p.place_code as "placeCode",
      p.one_time as "oneTime", p.usual_vendor_id as "vendorId", v.name as vendor
    from part p left join vendor v on v.id = p.usual_vendor_id where p.id = any(${ids}::uuid[]) order by p.number`;
}

type Facts = Omit<PartStanding, 'part' | 'vendor'>;

/** Each part’s facts as given. */
export async function writeParts(sql: Sql, rows: readonly ({ readonly id: string } & Facts)[]): Promise<void> {
  await sql`
    update part p set reorder_point = g.reorder_point, size_class = g.size_class, grade = g.grade, place_code = g.place_code,
      one_time = g.one_time::boolean, usual_vendor_id = g.vendor_id
    from unnest(${rows.map(({ id }) => id)}::uuid[], ${rows.map(({ reorderPoint }) => reorderPoint)}::int[],
      ${rows.map(({ sizeClass }) => sizeClass)}::text[], ${rows.map(({ grade }) => grade)}::text[],
      ${rows.map(({ placeCode }) => placeCode)}::text[], ${rows.map(({ oneTime }) => String(oneTime))}::text[],
      ${rows.map(({ vendorId }) => vendorId)}::uuid[]) g (id, reorder_point, size_class, grade, place_code, one_time, vendor_id)
    where p.id = g.id`;
}
