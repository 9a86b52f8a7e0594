import type { ShopHead } from '#contracts/shop.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findShopHead } from './queries.ts';

/** The shop as its papers begin: name, address, and how it is reached. */
export const shopHead = async (sql: Sql): Promise<ShopHead> => found(await findShopHead(sql), 'shop yet');
