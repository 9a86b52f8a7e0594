import type { Money } from '#contracts/wire.ts';
import type { Sql } from '#platform/database/client.ts';
import { findCurrency } from '../ledger/queries.ts';

/** Money, or nothing for those who may not see it, and nothing where none is known. */
export type Priced = (minor: number | null) => Money | null;

export async function pricedFor(sql: Sql, seesMoney: boolean): Promise<Priced> {
  if (!seesMoney) return () => null;
  const currency = await findCurrency(sql);
  return (minor) => (minor === null ? null : { minor: String(minor), currency });
}
