import { openSql } from '#platform/database/client.ts';
import { findActor } from '#platform/identity/sessions.ts';
import { findFloor } from '../../server/features/floor/queries.ts';
import { storesBoard } from '../../server/features/stores/board/service.ts';
import { findLying } from '../../server/features/stores/counting/class-queries.ts';
import { findLacks } from '../../server/features/stores/desks/queries.ts';
import { findMovements, findParts } from '../../server/features/stores/parts/queries.ts';
import { findLevelsInChains, findLowToBuy } from '../../server/features/stores/supply/buying-queries.ts';
import { findOrders } from '../../server/features/stores/supply/order-list-queries.ts';
import { crowdStores } from '../support/crowded-stores.ts';
import type { BenchShop } from './bench-shop.ts';
import { type Figure, medians } from './figures.ts';
import { deskViews, readByAll, waitingRound } from './large-desks.ts';
import { largeMemory } from './large-memory.ts';
import { busiestPart, fillStores, fullSize } from './large-stores.ts';

/** What a clerk looks at in stores of 50 000 parts and 1 000 000 movements, over HTTP and by its statements alone. */
export async function largeViews(shop: BenchShop): Promise<readonly Figure[]> {
  const { sql, get, superuser, token } = shop;
  const filling = openSql(superuser, { max: 1 });
  try {
    await fillStores(filling, fullSize);
    await crowdStores(filling, { gone: 3000, open: 300, picks: 6, shorts: 4, missing: 200 });
  } finally {
    await filling.end();
  }
  const [busy] = await sql<{ id: string }[]>`select id from part where number = ${busiestPart}`;
  const partId = busy?.id ?? '';
  const search = (text: string) => ({
    path: `/parts?limit=30&search=${text}`,
    bare: () => findParts(sql, { search: text, limit: 31 }),
  });
  const orders = {
    open: undefined,
    sent: undefined,
    vendorId: undefined,
    words: [],
    afterId: undefined,
    limit: 41,
  } as const;
  const views = {
    'by-number': search('lg-045'),
    'by-their-number': search('v0123'),
    'by-nothing-there': search('nothing-such'),
    'one-life': {
      path: `/parts/${partId}?limit=20`,
      bare: () => findMovements(sql, { partId, after: undefined, limit: 21 }),
    },
    board: { path: '/stores/board', bare: () => storesBoard(sql) },
    suggestions: {
      path: '/stores/to-buy',
      bare: () => Promise.all([findLacks(sql), findLevelsInChains(sql), findLowToBuy(sql, { besides: [], most: 300 })]),
    },
    orders: { path: '/purchase-orders?limit=40', bare: () => findOrders(sql, { ...orders, sort: 'newest' }) },
    'orders-by-day': {
      path: '/purchase-orders?limit=40&sort=expected',
      bare: () => findOrders(sql, { ...orders, sort: 'expected' }),
    },
    'count-schedule': { path: '/count-schedule?limit=60', bare: () => findLying(sql, 40) },
    floor: { path: '/floor', bare: () => findFloor(sql) },
    ...(await deskViews(sql)),
  };
  const figures: Figure[] = [];
  for (const [name, { path, bare }] of Object.entries(views)) {
    const ways = {
      http: () => get(path),
      bare: async () => {
        await findActor(sql, token);
        await bare();
      },
    };
    const taken = await medians(RUNS, ways);
    figures.push({ name: `large-stores.${name}.http`, value: taken.http, unit: 'ms' });
    figures.push({ name: `large-stores.${name}.bare`, value: taken.bare, unit: 'ms' });
    figures.push({ name: `large-stores.${name}.ratio`, value: taken.http / taken.bare, unit: '' });
  }
  const paths = Object.values(views).map(({ path }) => path);
  return [...figures, ...(await readByAll(shop)), ...(await largeMemory(shop, paths)), ...(await waitingRound(shop))];
}

const RUNS = 20;
