import type { Bins } from '#contracts/stores.ts';
import type { Sql } from '#platform/database/client.ts';
import { findOpenBins } from './queries.ts';

/** Bins that take goods in. */
export const bins = (sql: Sql): Promise<Bins['items']> => findOpenBins(sql);
