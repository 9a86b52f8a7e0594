import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { busiestPart, fillStores } from '../bench/large-stores.ts';
import { crowdStores } from '../support/crowded-stores.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { labelCode } from '../support/label-code.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { wedge } from '../support/wedge.ts';

let shop: Shop;
let dashboard: Dashboard;
let page: Page;

beforeAll(async () => {
  shop = await openShop();
  await takeIn(shop, { serial: 'H355-8101' });
  await fillStores(shop.sql, { parts: 5000, movements: 20_000 });
  await crowdStores(shop.sql, { gone: 5, open: 40, picks: 10, shorts: 20, missing: 300 });
  dashboard = await openDashboard(shop);
  ({ page } = await dashboard.at('clerk', { width: 1280, height: 1000 }));
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const button = (name: string | RegExp) => page.getByRole('button', { name });

describe('a list that is long says so, and how the rest is seen', { sequential: true }, () => {
  test('on the walk all is counted, the first three hundred stand there, and more when asked for', async () => {
    await page.goto('/stores/pick');
    await page.getByText('0 of 400 picked').waitFor();
    await page.getByText('The first 300 of 400.').waitFor();
    expect(await page.locator('.walk-stops > li').count()).toBe(300);
    await button('Show more').press('Enter');
    await page.getByText('The first 300 of 400.').waitFor({ state: 'detached' });
    expect(await page.locator('.walk-stops > li').count()).toBe(400);
  });

  test('what is short by part stops at a hundred, and goes on where a part is scanned', async () => {
    await page.goto('/stores/short');
    await page.getByText('All 800').waitFor();
    await page.getByText('Part', { exact: true }).click();
    await page.getByText('The first 100 of').waitFor();
    expect(await page.locator('.short-group').count()).toBe(100);
    const last = page.locator('.short-group').last();
    const [part] = await shop.sql`select p.id from part p join demand_line d on d.part_id = p.id where d.short > 0
      order by d.short_since desc, d.id desc limit 1`;
    await last.waitFor();
    await wedge(page, await labelCode(shop, 'part', String(part?.id)));
    await page.locator('.short-group.marked').waitFor();
  });

  test('the board names how much more runs low, and leads to all of it', async () => {
    await page.goto('/stores');
    await page
      .getByText(/^The first 200 of [\d,. ]+\.$/)
      .first()
      .waitFor();
    await page.getByRole('complementary').getByRole('link', { name: 'What to order' }).waitFor();
  });

  test('a part’s life goes back to its first day', async () => {
    await page.goto('/stores/parts');
    await page.getByRole('searchbox', { name: 'Find a part' }).fill(busiestPart);
    await button(new RegExp(busiestPart)).click();
    const rows = page.getByRole('region', { name: 'Movements' }).locator('tbody tr');
    await rows.nth(19).waitFor();
    expect(await rows.count()).toBe(20);
    await button('Earlier movements').press('Enter');
    await rows.nth(119).waitFor();
    await button('Earlier movements').press('Enter');
    await rows.nth(219).waitFor();
  });
});
