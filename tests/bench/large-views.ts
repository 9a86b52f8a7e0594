import { openSql } from '#platform/database/client.ts';
import { findMovements, findParts } from '../../server/features/stores/parts/queries.ts';
import type { BenchShop } from './bench-shop.ts';
import { type Figure, medians } from './figures.ts';
import { busiestPart, fillStores, fullSize } from './large-stores.ts';

/** What a clerk looks at in stores of 50 000 parts and 1 000 000 movements, over HTTP and by its statement alone. */
export async function largeViews({ sql, get, superuser }: BenchShop): Promise<readonly Figure[]> {
  const filling = openSql(superuser, { max: 1 });
  await fillStores(filling, fullSize).finally(() => filling.end());
  const [busy] = await sql<{ id: string }[]>`select id from part where number = ${busiestPart}`;
  const partId = busy?.id ?? '';
  const search = (text: string) => ({
    http: () => get(`/parts?limit=30&search=${text}`),
    bare: () => findParts(sql, { search: text, limit: 31 }),
  });
  const views = {
    'by-number': search('lg-045'),
    'by-their-number': search('v0123'),
    'by-nothing-there': search('nothing-such'),
    'one-life': {
      http: () => get(`/parts/${partId}?limit=20`),
      bare: () => findMovements(sql, { partId, after: undefined, limit: 21 }),
    },
  };
  const figures: Figure[] = [];
  for (const [name, ways] of Object.entries(views)) {
    const taken = await medians(40, ways);
    figures.push({ name: `large-stores.${name}.http`, value: taken.http, unit: 'ms' });
    figures.push({ name: `large-stores.${name}.bare`, value: taken.bare, unit: 'ms' });
    figures.push({ name: `large-stores.${name}.ratio`, value: taken.http / taken.bare, unit: '' });
  }
  return figures;
}
