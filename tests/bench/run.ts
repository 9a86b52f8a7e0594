/**
 * `npm run bench [-- GROUP…] [--json]`: floor-read, reservation, kit-rate, large-stores, metrology, lash, start. Ratios are taken in one run: HTTP
 * against the same statements straight through the driver on one connection; a whole head of shims against HiGHS. The aims
 * are those of the project, not of a test.
 */

import { openSql } from '#platform/database/client.ts';
import { openBenchShop } from './bench-shop.ts';
import type { Figure } from './figures.ts';
import { floorRead } from './floor-read.ts';
import { kitRate } from './kit-rate.ts';
import { largeViews } from './large-views.ts';
import { lash } from './lash.ts';
import { metrology } from './metrology.ts';
import { lengthenHistory } from './more-history.ts';
import { reservation } from './reservation.ts';
import { start } from './start.ts';

const groups = ['floor-read', 'reservation', 'kit-rate', 'large-stores', 'metrology', 'lash', 'start'] as const;
const aims: Readonly<Record<string, string>> = {
  'floor-read.ratio': 'at most 2.0',
  'floor-read.history-x10.ratio': 'at most 2.0',
  'reservation.ratio': 'at most 2.0',
  'reservation.history-x10.ratio': 'at most 2.0',
  'kit-reservation.rate.ratio': 'at least 0.60',
  'large-stores.memory.growth': 'at most 300 MB',
  'metrology.engine': 'at most 2 ms of CPU',
  'metrology.histories.rss-growth': 'at most 200 MB',
  'lash.16x400': 'at most 10 ms',
  'start.second': 'at most 5 s',
};

const json = process.argv.includes('--json');
const asked = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const unknown = asked.filter((word) => !(groups as readonly string[]).includes(word));
if (unknown.length > 0) {
  console.error(`There is no group ${unknown.join(', ')}. The groups are ${groups.join(', ')}.`);
  process.exit(1);
}
const wants = (group: (typeof groups)[number]): boolean => asked.length === 0 || asked.includes(group);

function print(figures: readonly Figure[]): void {
  for (const { name, value, unit } of figures) {
    if (json) console.log(JSON.stringify({ name, value: Number(value.toFixed(3)), unit }));
    else
      console.log(
        `${name.padEnd(36)} ${value.toFixed(unit === '' && Number.isInteger(value) ? 0 : 2).padStart(9)} ${unit.padEnd(3)} ${aims[name] ?? ''}`,
      );
  }
}

if (wants('floor-read') || wants('reservation')) {
  const shop = await openBenchShop();
  try {
    if (wants('floor-read')) print(await floorRead(shop));
    if (wants('reservation')) print(await reservation(shop));
    const { events, findings } = await lengthenHistory(shop.sql, 10);
    print([
      { name: 'history-x10.events', value: events, unit: '' },
      { name: 'history-x10.findings', value: findings, unit: '' },
    ]);
    if (wants('floor-read')) print(await floorRead(shop, '.history-x10'));
    if (wants('reservation')) print(await reservation(shop, '.history-x10'));
  } finally {
    await shop.close();
  }
}
if (wants('kit-rate')) {
  const shop = await openBenchShop(8);
  const direct = openSql(shop.url, { max: 8 });
  try {
    print(await kitRate(shop, direct));
  } finally {
    await direct.end();
    await shop.close();
  }
}
if (wants('large-stores')) {
  const shop = await openBenchShop();
  try {
    print(await largeViews(shop));
  } finally {
    await shop.close();
  }
}
if (wants('metrology')) print(metrology());
if (wants('lash')) print(await lash());
if (wants('start')) print(await start());
