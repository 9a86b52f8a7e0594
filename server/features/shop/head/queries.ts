import type { ShopHead } from '#contracts/shop.ts';
import type { Sql } from '#platform/database/client.ts';

export async function findShopHead(sql: Sql): Promise<ShopHead | undefined> {
  const [head] = await sql<ShopHead[]>`select name, address, phone, email from shop`;
  return head;
}
