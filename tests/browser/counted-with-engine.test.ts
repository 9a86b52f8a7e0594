import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
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
async function beside(): Promise<TallyBench & { readonly serial: string; readonly washerId: string }> {
  const bench = await openBench(shop);
  const { body } = await bench.off([{ byHand: { name: 'washer' }, count: 4 }], { trayId: undefined });
  const [engine] = await shop.sql<{ serial: string }[]>`select serial from engine where id = ${bench.engineId}`;
  return { ...bench, serial: engine?.serial ?? '', washerId: body.pieces[0].id };
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

/** Counts in the dialog that is open, and goes by the button that names how many. */
async function countAndGo(page: Page, washers: number, go: RegExp) {
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('heading', { name: 'In no tray, with the engine' }).waitFor();
  await count(page, washers);
  await dialog.getByRole('button', { name: go }).click();
}
const pick = (page: Page, name: string) => page.getByRole('dialog').locator('label').filter({ hasText: name }).click();
const gone = (page: Page) => page.getByRole('dialog').waitFor({ state: 'detached' });

test('the engine is taken from a bay, sent out with a day it is due, is late, and comes back, counted each time', async () => {
  const of = await beside();
  const counts = [{ trayId: of.engineId, pieceId: of.washerId, counted: 4 }];
  await of.as.post(`/api/engines/${of.engineId}/leave`, { bayId: shop.bays.rack, trayIds: [of.trayId], counts });
  const { page, context, complaints } = await dashboard.at('technician');
  await page.goto('/bench');
  await button(page, `Take it: Halden 355 ${of.serial}`).click();
  await pick(page, 'Bay 1');
  await countAndGo(page, 4, /4 pieces/);
  await gone(page);

  const card = page.getByRole('article', { name: new RegExp(of.serial) });
  await card.getByRole('button', { name: 'Send out' }).click();
  await pick(page, 'The engine itself');
  await pick(page, 'Saltmere Plating');
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('What they do to it').fill('Bore and plate');
  await dialog.getByLabel('Due back').fill('2099-03-14');
  await countAndGo(page, 4, /^Send it out: 4 pieces counted$/);
  await gone(page);
  const away = page.getByRole('region', { name: 'At a vendor' }).getByRole('listitem').filter({ hasText: of.serial });
  await away.getByText(/Saltmere Plating, due .*14 Mar 2099/).waitFor();
  expect(await away.getByText(/, late$/).count()).toBe(0);
  await page.goto('/');
  const standing = page.getByRole('article').filter({ hasText: of.serial });
  await standing.getByText(/outside work: Saltmere Plating, due .*2099/).waitFor();
  const notes = page.getByRole('region', { name: 'counter and stores' });
  await notes.getByText(/14 Mar 2099$/).waitFor();

  await shop.sql`alter table outside_work disable trigger user`;
  await shop.sql`update outside_work set due_on = current_date - 2 where job_id = ${of.jobId}`;
  await shop.sql`alter table outside_work enable trigger user`;
  await page.reload();
  await standing.getByText(/outside work: Saltmere Plating, was due/).waitFor();
  await notes.getByText(/, late$/).waitFor();
  await page.goto('/bench');
  await away.getByText(/, late$/).waitFor();
  await away.getByRole('button', { name: /^It is back/ }).click();
  await pick(page, 'Rack');
  await countAndGo(page, 3, /^Take it in: 3 pieces counted$/);
  await dialog.getByText('With the engine: 3 × washer counted, 4 on the tally.').waitFor();
  await dialog.getByText(/^This count is kept, and a lead settles the difference/).waitFor();
  expect(await violationsOn(page)).toEqual([]);
  await dialog.getByRole('button', { name: 'Go on with the difference' }).click();
  await gone(page);
  await away.waitFor({ state: 'detached' });
  const kept = await shop.sql`select words from obligation where job_id = ${of.jobId}`;
  expect(kept.map(({ words }) => words)).toEqual(['With the engine: 3 × washer counted, 4 given']);
  expect(complaints.filter((text) => !text.includes('409'))).toEqual([]);
  await context.close();
});

test('a lead who moves the engine for somebody absent counts what lies with it', async () => {
  const of = await beside();
  const { page, context, complaints } = await dashboard.at('lead');
  await page.goto('/shift-end');
  await button(page, `Move it: Halden 355 ${of.serial}, held by Nadia Quill`).click();
  await page.getByLabel('Why, in the place of who holds it').fill('Nadia has gone home ill');
  await pick(page, 'Rack');
  await countAndGo(page, 4, /^Move it: 4 pieces counted$/);
  await gone(page);
  const [held] =
    await shop.sql`select rest_bay_id as bay from custody where engine_id = ${of.engineId} and until_at is null`;
  expect(held?.bay).toBe(shop.bays.rack);
  expect(complaints).toEqual([]);
  await context.close();
});
