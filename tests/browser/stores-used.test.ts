import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addPart, demand } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let bin: string;

beforeAll(async () => {
  shop = await openShop();
  bin = (await addBin(shop.sql)).code;
  const cam = await addPart(shop.sql, { number: 'H355-CAM', name: 'Camshaft' });
  const { jobId } = await takeIn(shop, { serial: 'USED-1' });
  await demand(shop, jobId, [[cam.id, 1]]);
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

test('a used piece is taken in with what was measured on it, and read before it is taken for a job', {
  timeout: 90_000,
}, async () => {
  const { page } = clerk;
  const measured = 'lobes 33.41 mm, no pits';
  await page.goto('/stores/parts');
  await page.getByLabel('Find a part').fill('H355-CAM');
  await page.getByRole('button', { name: /Camshaft/ }).click();
  await page.getByRole('button', { name: 'Receive', exact: true }).click();
  const dialog = page.getByRole('dialog');
  const take = dialog.getByRole('button', { name: 'Take in' });
  await dialog.getByLabel('Bin').selectOption({ label: bin });
  expect(await dialog.getByLabel('What was measured on it').count()).toBe(0);
  await dialog.getByLabel('Used, and good to go in again').check();
  expect(await take.isDisabled()).toBe(true);
  await dialog.getByLabel('What was measured on it').fill(` ${measured} `);
  await take.click();
  await dialog.getByText('1 × Camshaft taken in.').waitFor();
  await dialog.getByRole('button', { name: 'Done' }).click();
  await page.getByRole('row').getByText(`used: ${measured}`).waitFor();
  expect(await shop.sql`select used, condition from stock_lot`).toEqual([{ used: true, condition: measured }]);

  await page.goto('/stores');
  await page.getByRole('button', { name: 'More about Camshaft', exact: true }).click();
  await dialog.getByText('Reserve out of a lot').click();
  await dialog.getByText(new RegExp(`used: ${measured}`)).waitFor();
  expect(clerk.complaints).toEqual([]);
});
