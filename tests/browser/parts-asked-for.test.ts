import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments, pistonOf } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addLot, addPart } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let job: Awaited<ReturnType<typeof takeIn>>;

beforeAll(async () => {
  shop = await openShop();
  job = await takeIn(shop, { serial: 'H355-0417' });
  await insertInstruments(shop.sql, shop.people.lead);
  const piston = await addPart(shop.sql, {
    number: 'H355-P',
    name: 'Piston',
    familyId: shop.sheet.familyId,
    placeCode: 'piston',
  });
  await addLot(shop, { partId: piston.id, quantity: 3 });
  await addPart(shop.sql, { number: 'H355-C', name: 'Circlip' });
  for (let nth = 10; nth < 45; nth += 1) await addPart(shop.sql, { number: `BOLT-${nth}`, name: `Bolt ${nth}` });
  const { status, body } = await shop.as.technician.post(`/api/jobs/${job.jobId}/readings`, {
    round: 'as received',
    dimension: 'piston',
    readings: pistonOf('87.910'),
  });
  expect(status, JSON.stringify(body)).toBe(201);
  dashboard = await openDashboard(shop);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

test('who decides to renew a piston asks for the one that fits, and for two circlips found by name', async () => {
  const { page, complaints } = await dashboard.at('technician', { width: 1280, height: 1100 });
  await page.goto(`/engines/${job.engineId}`);
  const section = page.getByRole('region', { name: 'Obligations' });
  await section.getByRole('button', { name: 'Decide' }).click();
  const dialog = page.getByRole('dialog');
  expect(await dialog.getByRole('group', { name: 'Parts it asks stores for' }).count()).toBe(0);
  await dialog.getByText('renew', { exact: true }).click();
  await dialog.getByRole('button', { name: 'Ask for Piston 3 available' }).click();
  await dialog.getByRole('searchbox').fill('circ');
  await dialog.getByRole('searchbox').press('Enter');
  await dialog.getByRole('button', { name: 'Choose Circlip' }).click();
  await dialog.getByRole('textbox', { name: 'How many: Circlip' }).fill('2');
  await dialog.getByRole('textbox', { name: 'How many: Circlip' }).press('Tab');
  await dialog.getByRole('button', { name: 'Decide' }).click();
  await dialog.waitFor({ state: 'detached' });
  await section.getByText('2 × Circlip').waitFor();
  const { body } = await shop.as.clerk.get(`/api/jobs/${job.jobId}/demands`);
  const wanted = body.lines.map((line: { part: { name: string }; wanted: number }) => [line.part.name, line.wanted]);
  expect(Object.fromEntries(wanted)).toEqual({ Piston: 1, Circlip: 2 });
  expect(complaints).toEqual([]);
});

test('stores reach every part that a search finds, a page at a time', async () => {
  const { page } = await dashboard.at('clerk', { width: 1280, height: 1000 });
  await page.goto('/stores');
  await page.getByRole('button', { name: 'Find a part' }).click();
  const panel = page.getByRole('region', { name: 'Parts' });
  await panel.getByRole('searchbox').fill('bolt');
  await panel.getByRole('button', { name: /Bolt 10/ }).waitFor();
  expect(await panel.getByRole('listitem').count()).toBe(30);
  await panel.getByRole('button', { name: 'More parts' }).click();
  await panel.getByRole('button', { name: /Bolt 44/ }).waitFor();
  expect(await panel.getByRole('listitem').count()).toBe(35);
  expect(await panel.getByRole('button', { name: 'More parts' }).count()).toBe(0);
});
