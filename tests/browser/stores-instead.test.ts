import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, none, standing } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let jobId: string;
let piston: { id: string; number: string };

beforeAll(async () => {
  shop = await openShop();
  const { sql } = shop;
  piston = await addPart(sql, { number: 'H355-P', name: 'Piston, standard' });
  const over = await addPart(sql, { number: 'H355-P25', name: 'Piston, +0.25' });
  await addPart(sql, { number: 'H355-P2', name: 'Piston, new crown' });
  await addLot(shop, { partId: over.id, quantity: 2 });
  const bin = await addBin(sql);
  const used = { partId: piston.id, binId: bin.id, quantity: 1, usedCondition: 'skirt 54.91 mm, no scores' };
  expect((await shop.as.clerk.post('/api/receipts', used)).status).toBe(201);
  ({ jobId } = await takeIn(shop, { serial: 'H355-0402' }));
  await demand(shop, jobId, [[piston.id, 2]]);
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

describe('one part for another', { sequential: true }, () => {
  test('the page of a part names what replaces it and what will do in its place', async () => {
    const { page } = clerk;
    await page.goto('/stores/parts');
    await page.getByLabel('Find a part').fill('H355-P');
    await page.getByRole('button', { name: /Piston, standard/ }).click();
    await page.getByText('Nothing replaces it').waitFor();
    await page.getByRole('button', { name: 'Say what replaces it' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Part').fill('new crown');
    await dialog.getByRole('button', { name: 'Choose Piston, new crown' }).click();
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await dialog.waitFor({ state: 'detached' });
    await page.getByText('A demand for it is served by H355-P, then H355-P2.').waitFor();
    await page.getByRole('button', { name: 'Name an alternative' }).click();
    await dialog.getByLabel('Part').fill('+0.25');
    await dialog.getByRole('button', { name: 'Choose Piston, +0.25' }).click();
    await dialog.getByLabel('When it will do').fill('once the cylinder is bored to +0.25');
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await dialog.waitFor({ state: 'detached' });
    const section = page.locator('section', { has: page.getByRole('heading', { name: 'In its place', exact: true }) });
    const condition = section.getByText('once the cylinder is bored to +0.25');
    // What can be promised names the alternative and its condition too.
    await expect.poll(() => condition.count()).toBe(2);
  });

  test('axe finds nothing on it, and nothing is cut off', async () => {
    // As high as the page, so that the bar at a phone's foot lies over nothing.
    for (const width of [390, 1280]) {
      await clerk.page.setViewportSize({ width, height: 2600 });
      expect(await clerk.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(await violationsOn(clerk.page)).toEqual([]);
    }
  });

  test('a used lot is reserved by who reads what was measured, an alternative by who says why', async () => {
    const { page } = clerk;
    await page.goto('/stores');
    const dialog = page.getByRole('dialog');
    await page.getByRole('button', { name: 'More about Piston, standard' }).click();
    await dialog.getByText('Reserve out of a lot', { exact: false }).first().click();
    await dialog.getByText('used: skirt 54.91 mm, no scores').click();
    await dialog.getByRole('button', { name: 'Reserve out of a lot' }).click();
    await dialog.waitFor({ state: 'detached' });
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, reserved: 1, notAsked: 1 });
    await page.getByRole('button', { name: 'More about Piston, standard' }).click();
    await dialog.getByText('Reserve out of a lot', { exact: false }).first().click();
    await dialog.getByText('alternative: Piston, +0.25').click();
    const go = dialog.getByRole('button', { name: 'Reserve out of a lot' });
    expect(await go.isDisabled()).toBe(true);
    await dialog.getByLabel('Why the alternative is taken').fill('bored to +0.25 on Tuesday');
    await go.click();
    await dialog.waitFor({ state: 'detached' });
    expect(await standing(shop, jobId, piston.id)).toEqual({ ...none, reserved: 2 });
    await page.getByText('H355-P25 in its place').waitFor();
    expect(clerk.complaints).toEqual([]);
  });

  test('what replaces it is taken back with a reason', async () => {
    const { page } = clerk;
    await page.goto('/stores/parts');
    await page.getByLabel('Find a part').fill('H355-P');
    await page.getByRole('button', { name: /Piston, standard/ }).click();
    await page.getByRole('button', { name: 'Take back: Piston, new crown' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Why').fill('the maker took the notice back');
    await dialog.getByRole('button', { name: 'Take back' }).click();
    await dialog.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Say what replaces it' }).waitFor();
  });
});
