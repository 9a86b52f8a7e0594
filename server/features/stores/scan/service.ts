import type { Bins, Scanned } from '#contracts/stores.ts';
import type { Sql } from '#platform/database/client.ts';
import { findBinByCode, findOpenBins, findPartByNumber, findTrayByLabel } from './queries.ts';

/** Bins that take goods in. */
export const bins = (sql: Sql): Promise<Bins['items']> => findOpenBins(sql);

/** What a scanned or typed label is: a part, a bin or a tray, or nothing that is known here. */
export async function scanned(sql: Sql, text: string): Promise<Scanned> {
  const label = text.trim();
  const part = await findPartByNumber(sql, label);
  if (part !== undefined) return { kind: 'part', part };
  const bin = await findBinByCode(sql, label);
  if (bin !== undefined) return { kind: 'bin', ...bin };
  const tray = await findTrayByLabel(sql, label);
  return tray === undefined ? { kind: 'nothing' } : { kind: 'tray', ...tray };
}
