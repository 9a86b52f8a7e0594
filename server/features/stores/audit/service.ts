import type { SqlPool } from '#platform/database/client.ts';
import {
  countBooks,
  type Difference,
  findCoreDifferences,
  findDemandDifferences,
  findLotDifferences,
  findValueDifferences,
} from './queries.ts';

export interface StockAudit {
  readonly parts: number;
  readonly lots: number;
  readonly movements: number;
  readonly lines: number;
  readonly differences: readonly Difference[];
}

/**
 * Adds up the whole ledger anew and compares it with every balance that is kept: lots, values, reservations, demands, cores.
 * All of it is read at one instant, so a shop at work does not make differences.
 */
export async function auditStock(db: SqlPool): Promise<StockAudit> {
  return db.begin('isolation level repeatable read read only', async (sql) => {
    const books = await countBooks(sql);
    const lots = await findLotDifferences(sql);
    const values = await findValueDifferences(sql);
    const demands = await findDemandDifferences(sql);
    const cores = await findCoreDifferences(sql);
    return { ...books, differences: [...lots, ...values, ...demands, ...cores] };
  });
}
