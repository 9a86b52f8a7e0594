import type { PartName } from '#contracts/parts.ts';
import type { Sql } from '#platform/database/client.ts';
import { partName } from '../ledger/queries.ts';

export interface CoreNow {
  readonly id: string;
  readonly part: PartName;
  readonly vendor: string;
  /** How many are owed; none, where what was bought went back or was called off. */
  readonly quantity: number;
  readonly state: 'owed' | 'sent' | 'credited';
}

/** Cores as they stand, held until the transaction ends; locked by id, so that two such acts cannot block each other. */
export async function lockCores(sql: Sql, ids: readonly string[]): Promise<readonly CoreNow[]> {
  await sql`select from core_owed where id = any(${ids}::uuid[]) order by id for no key update`;
  return sql<CoreNow[]>`
    select c.id, ${partName(sql)} as part, v.name as vendor, c.quantity,
      case when exists (select from core_mark m where m.core_id = c.id and m.mark = 'credited') then 'credited'
           when exists (select from core_mark m where m.core_id = c.id and m.mark = 'sent') then 'sent' else 'owed' end as state
    from core_now c join purchase_line pl on pl.id = c.purchase_line_id join part p on p.id = pl.part_id
      join vendor v on v.id = pl.vendor_id
    where c.id = any(${ids}::uuid[])`;
}
