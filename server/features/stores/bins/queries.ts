import type { Bins } from '#contracts/stores.ts';
import type { Sql } from '#platform/database/client.ts';

export async function findOpenBins(sql: Sql): Promise<Bins['items']> {
  return sql<Bins['items']>`select id, code from bin where closed_at is null order by walk_order, code`;
}
