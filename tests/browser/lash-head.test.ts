import AxeBuilder from '@axe-core/playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { insertAssemblySheet, insertShims } from '../support/assembly-sheet.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let jobId: string;

beforeAll(async () => {
  shop = await openShop();
  const valves = [
    { code: 'EX-L', name: 'exhaust left' },
    { code: 'EX-R', name: 'exhaust right' },
  ];
  const { familyId } = await insertAssemblySheet(shop.sql, shop.people.lead, valves);
  await insertShims(shop.sql, { thicknesses: [2.3, 2.35, 2.4], count: 2, movedById: shop.people.clerk });
  await insertInstruments(shop.sql, shop.people.lead);
  const { body } = await shop.as.writer.post('/api/jobs', {
    engine: { serial: 'H388-0801', familyId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '120',
    complaint: 'Rattles when warm',
    bayId: shop.bays.rack,
  });
  jobId = body.id;
  for (const [dimension, go, noGo] of [
    ['lash-in-l', '0.05', '0.10'],
    ['lash-ex-l', '0.15', '0.20'],
    ['lash-ex-r', '0.10', '0.15'],
  ]) {
    const { status } = await shop.as.technician.post(`/api/jobs/${jobId}/readings`, {
      round: 'as received',
      dimension,
      readings: [{ position: '1', repeat: 1, unit: 'mm', instrumentCode: 'FE-1', interval: { go, noGo } }],
    });
    expect(status).toBe(201);
  }
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

test('every shim keyed, the board shows them exchanged, and all are taken at once', async () => {
  const { page, complaints } = await dashboard.at('technician', { width: 1700, height: 1100 });
  await page.goto(`/bench/${jobId}/assemble?step=lash`);
  const whole = page.getByRole('region', { name: 'All valves at once' });
  await whole.getByText(/key the shim that is in: intake left, exhaust left, exhaust right/).waitFor();
  const ask = whole.getByRole('button', { name: 'Which shims for all valves?' });
  expect(await ask.isDisabled()).toBe(true);
  for (const [valve, fitted] of [
    ['intake left', '2.350'],
    ['exhaust left', '2.300'],
    ['exhaust right', '2.320'],
  ] as const) {
    await page.locator('.valve-choice').getByRole('button', { name: valve }).click();
    await page.getByLabel('Shim in it now, mm').fill(fitted);
  }
  await ask.click();
  await whole.getByText(/From the bins: 0; to buy: 0/).waitFor();
  expect(await page.getByRole('button', { name: /^(Take 2|Keep)/ }).count()).toBe(0);
  // The two shims change places, and the valve between them keeps its own.
  await page.locator('[data-move="EX-L IN-L"]').waitFor({ state: 'attached' });
  await page.locator('[data-move="IN-L EX-L"]').waitFor({ state: 'attached' });
  const { violations } = await new AxeBuilder({ page }).include('.lash-pane').analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  await whole.getByRole('button', { name: 'Take them all' }).click();
  await whole.getByRole('button', { name: 'Take them all' }).waitFor({ state: 'detached' });
  const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
  const words = body.valves.map(({ choice }: { choice: { words: string } }) => choice.words);
  expect(words).toEqual(['from exhaust left', 'from intake left', 'the shim in it stays']);
  expect(complaints).toEqual([]);
  await page.context().close();
});
