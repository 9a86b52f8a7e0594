import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const phone = { width: 390, height: 844 };
const caps = { name: 'cam cap', fromWhere: 'head', matchedSet: 'head and cam caps', expected: 4 };
const place = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const press = (page: Page, name: string) => page.getByRole('button', { name }).click();

test('on a phone, three caps are laid in their places, one goes back into its own, two are swapped with a reason', async () => {
  const bench = await openBench(shop);
  await bench.off([{ byHand: caps, count: 3 }]);
  const { page, complaints } = await dashboard.at('technician', phone);
  await page.goto(`/trays/${bench.trayId}`);
  await page.getByText('3 are loose and lie in no place yet').waitFor();
  for (const number of ['1', '2', '4']) await place(page, `${number}, empty`).click();
  await page.getByText('Chosen: 1, 2, 4').waitFor();
  await press(page, 'They lie here');
  await page.getByText('3 filled, 3 loose.').waitFor();

  await place(page, '2, filled').focus();
  await page.keyboard.press('Space');
  expect(await place(page, '2, filled').getAttribute('aria-pressed')).toBe('true');
  await press(page, 'Back on: 1 piece');
  await page.getByText('2 filled, 2 loose.').waitFor();
  await place(page, '2, empty').waitFor();

  await place(page, '1, filled').click();
  await place(page, '3, empty').click();
  await page.getByText('Choose only filled places, or only empty ones.').waitFor();
  await place(page, '3, empty').click();
  await place(page, '4, filled').click();
  await press(page, 'Swap these two');
  await page.getByLabel('Why they change places').fill('Marked the other way round');
  await press(page, 'Swap them, and sign for it');
  await page.getByText('1 holds the piece of 4').waitFor();
  await place(page, '4 from 1: in the wrong place').waitFor();
  expect(await page.locator('[data-crossing]').count()).toBe(2);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  expect(await violationsOn(page)).toEqual([]);
  expect(complaints).toEqual([]);
}, 120_000);

test('somebody without the bench sees the rack and changes nothing in it', async () => {
  const bench = await openBench(shop);
  await bench.off([{ byHand: caps, count: 4 }]);
  const { page } = await dashboard.at('writer', phone);
  await page.goto(`/trays/${bench.trayId}`);
  await page.getByText('4 filled, 4 loose.').waitFor();
  await page.getByRole('img', { name: 'rack of cam cap: 1, filled; 2, filled; 3, filled; 4, filled' }).waitFor();
  expect(await place(page, '1, filled').count()).toBe(0);
}, 120_000);
