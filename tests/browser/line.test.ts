import { afterAll, beforeAll, test } from 'vitest';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

test('a line that falls silent is said to be down, though nothing broke it off, and comes back by itself', async () => {
  const { page, context } = await dashboard.at('writer');
  await page.clock.install();
  await page.goto('/');
  await page.getByText(/^Live \d/).waitFor();
  await context.route('**/api/live', (route) => route.abort());
  await page.clock.fastForward(60_000);
  await page.getByText('Not live', { exact: true }).waitFor();
  await page.clock.fastForward(5000);
  await page.getByText(/^Not live since/).waitFor();
  await context.unroute('**/api/live');
  await page.clock.fastForward(5000);
  await page.getByText(/^Live \d/).waitFor();
  await takeIn(shop, { serial: 'H355-0777' });
  await page.clock.runFor(1000);
  await page.getByText('H355-0777').first().waitFor();
  await context.close();
});

test('a line that the server ends, as when it is started anew, is opened again while somebody is signed in', async () => {
  const { page, context } = await dashboard.at('lead');
  await page.goto('/');
  await page.getByText(/^Live \d/).waitFor();
  const [session] = await shop.sql<{ id: string }[]>`
    select id from session where ended_at is null and person_id = ${shop.people.lead} order by started_at desc limit 1`;
  await shop.sql`select pg_notify('crosshatch_session', ${session?.id ?? ''})`;
  await page.getByText('Not live', { exact: true }).waitFor();
  await page.getByText(/^Live \d/).waitFor();
  await takeIn(shop, { serial: 'H355-0778' });
  await page.getByText('H355-0778').first().waitFor();
  await context.close();
});
