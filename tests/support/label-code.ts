import type { Shop } from './shop.ts';

/** What is written in the label of a bin, a part, a tray or an engine of a test's shop. */
export async function labelCode(shop: Shop, kind: string, id: string): Promise<string> {
  const { body } = await shop.as.clerk.post('/api/labels/drawings', { labels: [{ kind, id }], stock: '65-on-a4' });
  return body.items[0].code;
}
