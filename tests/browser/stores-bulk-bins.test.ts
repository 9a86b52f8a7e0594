import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { expectGoodLooks } from '../support/good-looks.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { addBin } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let page: Page;
let bins: { id: string; code: string }[];

beforeAll(async () => {
  shop = await openShop();
  bins = [await addBin(shop.sql), await addBin(shop.sql), await addBin(shop.sql)];
  dashboard = await openDashboard(shop);
  ({ page } = await dashboard.at('clerk', { width: 1280, height: 1000 }));
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

describe('several bins at once, by keyboard alone', { sequential: true }, () => {
  test('are chosen with Shift, moved in the walk together, and shown before it is kept', async () => {
    await page.goto('/stores/bins');
    const tick = (at: number) => page.getByRole('checkbox', { name: `Choose ${bins[at]?.code}`, exact: true });
    await tick(0).focus();
    await page.keyboard.press('Space');
    await tick(2).focus();
    await page.keyboard.press('Shift+Space');
    await page.getByRole('button', { name: 'Change 3 bins' }).focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('textbox', { name: 'The first comes to place' }).focus();
    await page.keyboard.type('800');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('20');
    await dialog.getByRole('button', { name: 'Show what would change' }).focus();
    await page.keyboard.press('Enter');
    await dialog.getByText('3 bins would change. Nothing is kept yet.').waitFor();
    await dialog.getByRole('cell', { name: '840' }).waitFor();
    const walks = async () =>
      (
        await shop.sql`select walk_order as walk from bin where id = any(${bins.map(({ id }) => id)}) order by code`
      ).map(({ walk }) => walk);
    expect(await walks()).not.toContain(800);
    await dialog.getByRole('button', { name: 'Change 3', exact: true }).focus();
    await page.keyboard.press('Enter');
    await dialog.getByText('3 bins were changed.').waitFor();
    expect(await walks()).toEqual([800, 820, 840]);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  });

  test('nothing is cut off, by day and by night, on a phone, a desk and a wall', async () => {
    for (const path of [
      '/stores/bins',
      '/stores/pick',
      '/stores/receive',
      '/stores/order',
      '/stores/count',
      '/stores/short',
    ]) {
      await page.goto(path);
      await page.getByRole('heading', { level: 1 }).waitFor();
      await expectGoodLooks(page, 1400);
    }
  });
});
