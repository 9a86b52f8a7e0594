import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertProcedure } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { tickTheCheck } from './walk/assembling.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  await insertProcedure(shop.sql, {
    familyId: shop.sheet.familyId,
    code: 'covers-off',
    kind: 'strip',
    steps: [
      { title: 'Cover off', pieces: [{ name: 'valve cover', expected: 1, layer: 'cover' }] },
      { title: 'Caps off', secondPerson: true, pieces: [{ name: 'cap dowel', expected: 8 }] },
    ],
  });
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const serial = 'H355-0333';
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { name });
const howMany = (page: Page, piece: string) => page.getByRole('textbox', { name: `How many: ${piece}`, exact: true });

async function key(page: Page, piece: string, number: number) {
  await howMany(page, piece).fill(String(number));
  await page.keyboard.press('Tab');
}

/** Offers engine and trays from the giver's terminal. */
async function offer(giver: AtTerminal, { jobId, receiver }: { jobId: string; receiver: string }) {
  const { page } = giver;
  await page.goto(`/bench/${jobId}/offer`);
  await page.getByRole('radio', { name: receiver }).focus();
  await page.keyboard.press('Space');
  await page.locator('label').filter({ hasText: 'Rack' }).click();
  await button(page, `Offer it to ${receiver}`).click();
  await heading(page, `Waiting for ${receiver}`).waitFor();
}

/** Counts blind what is offered, tray by tray, and accepts. The giver's numbers are not on the page before the count. */
async function countAndAccept(receiver: AtTerminal, counts: Readonly<Record<string, number>>) {
  const { page } = receiver;
  const offered = page.getByRole('region', { name: 'Offered to me' });
  await offered.getByText(serial).waitFor();
  await offered.getByRole('link', { name: 'Count it now' }).click();
  for (const [piece, number] of Object.entries(counts)) {
    await howMany(page, piece).waitFor();
    expect(await page.getByText(/counted, \d+ given/).count()).toBe(0);
    await key(page, piece, number);
  }
  await button(page, /^My count: /).click();
  await page.getByText(/counted, \d+ given/).waitFor();
  await button(page, 'Accept').click();
  await heading(page, 'Accepted').waitFor();
}

test('three people strip an engine, hand it over twice counted blind, lose a dowel and find it, and close it with a second person’s check', async () => {
  const { jobId, engineId } = await takeIn(shop, { serial });
  const [nadia, oskar, maren] = await Promise.all([
    dashboard.at('technician'),
    dashboard.at('colleague'),
    dashboard.at('lead'),
  ]);
  const floor = await dashboard.at('writer');
  await floor.page.goto('/');
  const onFloor = floor.page.getByRole('article', { name: new RegExp(serial) });
  /** The floor has it right within a second, without being touched. */
  const floorSays = (words: string | RegExp) => onFloor.getByText(words).first().waitFor({ timeout: 1000 });
  await onFloor.waitFor();
  await Promise.all([oskar.page.goto('/bench'), maren.page.goto('/bench')]);
  await heading(oskar.page, 'My bench').waitFor();

  expect(
    (await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] })).status,
  ).toBe(200);
  await floorSays('Nadia Quill');

  const { page } = nadia;
  await page.goto(`/bench/${jobId}/procedure`);
  await button(page, 'Begin: covers-off').click();
  await heading(page, 'Cover off').waitFor();
  await button(page, 'Open the engine').click();
  await floorSays(/uncovered/);
  await button(page, 'New tray').click();
  await page.getByLabel('What goes in it').fill('Cover and dowels');
  await page.keyboard.press('Enter');
  await page.getByRole('radio', { name: /Cover and dowels/ }).waitFor({ state: 'attached' });
  await button(page, 'All 1: valve cover').click();
  await button(page, /^Count off: 1 piece into/).click();
  await button(page, 'Step done').click();

  // A dowel is lost: the short count stops the work, until it is found.
  await heading(page, 'Caps off').waitFor();
  await key(page, 'cap dowel', 7);
  await button(page, /^Count off: 7 pieces into/).click();
  await heading(page, 'Stop: 1 × cap dowel missing').waitFor();
  expect(await button(page, 'Step done').isDisabled()).toBe(true);
  await floorSays(/decision/);
  const refused = await shop.as.technician.post(
    `/api/openings/${(await shop.as.technician.get(`/api/jobs/${jobId}/opening`)).body.id}/close`,
    {},
  );
  expect(refused.status).toBe(409);
  await button(page, 'Found').click();
  await button(page, 'On the bench').click();
  await button(page, 'It is found').click();
  await page.getByText('8 of 8 off').first().waitFor();
  await button(page, 'Step done').click();
  await heading(page, 'Waits for a second person').waitFor();

  const waiting = oskar.page.getByRole('region', { name: 'Waiting for a second person' });
  await waiting.getByRole('link', { name: 'Look and sign' }).click();
  await button(oskar.page, 'I have looked: sign it').click();
  await oskar.page.getByText('Looked at and signed').first().waitFor();
  await oskar.page.goto('/bench');

  await offer(nadia, { jobId, receiver: 'Oskar Pell' });
  await floorSays(/Oskar Pell/);
  await countAndAccept(oskar, { 'valve cover': 1, 'cap dowel': 8 });
  await floorSays('Oskar Pell');
  await heading(nadia.page, 'Accepted').waitFor();
  await offer(oskar, { jobId, receiver: 'Maren Tolk' });
  await countAndAccept(maren, { 'valve cover': 1, 'cap dowel': 8 });
  await floorSays('Maren Tolk');

  const opening = (await shop.as.lead.get(`/api/jobs/${jobId}/opening`)).body;
  const pieces = opening.pieces.map(({ id, loose }: { id: string; loose: number }) => ({ pieceId: id, count: loose }));
  expect((await shop.as.lead.post(`/api/openings/${opening.id}/pieces/fitted`, { pieces })).status).toBe(200);
  await floorSays(/cover off/);
  await maren.page.goto(`/bench/${jobId}/assemble`);
  await maren.page.getByText('Close and prove').first().click();
  await maren.page
    .getByText(/not ticked by a second person/)
    .first()
    .waitFor();
  // Who put them back does not check them: Oskar goes through the list, the last removed first.
  await tickTheCheck(oskar.page, jobId);
  await button(maren.page, 'Close the engine, and sign for it').click();
  await floorSays(/^closed/);

  await floor.page.goto('/custody');
  await floor.page.getByRole('combobox', { name: 'Of what' }).selectOption(engineId);
  const table = floor.page.getByRole('table').first();
  await table.getByText('Maren Tolk').first().waitFor();
  await button(floor.page, 'The change before').click();
  await button(floor.page, 'The change before').click();
  await table.getByText('Oskar Pell').first().waitFor();
  await table.getByRole('link', { name: 'the handover' }).first().waitFor();
  for (const { complaints } of [nadia, oskar, maren, floor]) expect(complaints).toEqual([]);
});
