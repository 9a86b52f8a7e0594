import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
async function count(page: Page, washers: number) {
  await page.getByRole('textbox', { name: 'How many: washer' }).fill(String(washers));
  await page.keyboard.press('Tab');
}

/** Nadia holds an open engine with four washers beside it in no tray. */
async function beside(): Promise<TallyBench & { readonly serial: string }> {
  const bench = await openBench(shop);
  await bench.off([{ byHand: { name: 'washer' }, count: 4 }], { trayId: undefined });
  const [engine] = await shop.sql<{ serial: string }[]>`select serial from engine where id = ${bench.engineId}`;
  return { ...bench, serial: engine?.serial ?? '' };
}

test('what lies with the engine is counted with it at a handover, and a difference is named so', async () => {
  const of = await beside();
  const body = { receiverId: shop.people.colleague, placeId: shop.bays.rack, includeEngine: true, trayIds: [] };
  const { id } = (await of.as.post(`/api/jobs/${of.jobId}/handovers`, body)).body;
  const { page, context, complaints } = await dashboard.at('colleague');
  await page.goto(`/handovers/${id}`);
  await page.getByText('In no tray, with the engine').waitFor();
  await page.getByText('Accept opens when what lies with the engine is counted.').waitFor();
  await count(page, 3);
  await button(page, 'My count: 3 pieces').click();
  await page.getByText('1 × washer fewer: 3 of 4.').waitFor();
  await button(page, 'Accept with a difference: 1 × washer').click();
  await page.getByRole('link', { name: 'The engine’s page' }).click();
  await page.getByText('With the engine: 3 × washer counted, 4 given').first().waitFor();
  await page.getByText('handover, with the engine: washer').first().waitFor();
  expect(complaints).toEqual([]);
  await context.close();
});

test('who leaves the engine in a bay counts what lies with it', async () => {
  const of = await beside();
  const { page, context } = await dashboard.at('technician');
  await page.goto('/bench');
  const card = page.getByRole('article', { name: new RegExp(of.serial) });
  await card.getByRole('button', { name: 'Leave in a bay' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('heading', { name: 'In no tray, with the engine' }).waitFor();
  await dialog.locator('label').filter({ hasText: 'Rack' }).click();
  await count(page, 3);
  await dialog.getByRole('button', { name: /3 pieces/ }).click();
  await dialog.getByText('With the engine: 3 × washer counted, 4 on the tally.').waitFor();
  await count(page, 4);
  await dialog.getByRole('button', { name: /4 pieces/ }).click();
  await dialog.waitFor({ state: 'detached' });
  const [held] =
    await shop.sql`select rest_bay_id as bay from custody where engine_id = ${of.engineId} and until_at is null`;
  expect(held?.bay).toBe(shop.bays.rack);
  await context.close();
});
