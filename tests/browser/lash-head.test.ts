import { afterAll, beforeAll, expect, test } from 'vitest';
import { insertAssemblySheet, insertShims } from '../support/assembly-sheet.ts';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let jobId: string;
let familyId: string;

beforeAll(async () => {
  shop = await openShop();
  const valves = [
    { code: 'EX-L', name: 'exhaust left' },
    { code: 'EX-R', name: 'exhaust right' },
  ];
  ({ familyId } = await insertAssemblySheet(shop.sql, shop.people.lead, valves));
  await insertShims(shop.sql, { thicknesses: [2.3, 2.35, 2.4], count: 2, movedById: shop.people.clerk });
  await insertInstruments(shop.sql, shop.people.lead);
  jobId = await jobWithLash('H388-0801', [
    ['lash-in-l', '0.05', '0.10'],
    ['lash-ex-l', '0.15', '0.20'],
    ['lash-ex-r', '0.10', '0.15'],
  ]);
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

async function jobWithLash(serial: string, lashes: readonly (readonly [string, string, string])[]): Promise<string> {
  const { body } = await shop.as.writer.post('/api/jobs', {
    engine: { serial, familyId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '120',
    complaint: 'Rattles when warm',
    bayId: shop.bays.rack,
  });
  for (const [dimension, go, noGo] of lashes) {
    const { status } = await shop.as.technician.post(`/api/jobs/${body.id}/readings`, {
      round: 'as received',
      dimension,
      readings: [{ position: '1', repeat: 1, unit: 'mm', instrumentCode: 'FE-1', interval: { go, noGo } }],
    });
    expect(status).toBe(201);
  }
  return body.id;
}

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
  await page.getByLabel(/^Printed on it/).fill('2.35');
  await ask.click();
  await whole.getByText(/From the bins: 0; to buy: 0/).waitFor();
  expect(await page.getByRole('button', { name: /^(Take 2|Keep)/ }).count()).toBe(0);
  // The two shims change places, and the valve between them keeps its own.
  await page.locator('[data-move="EX-L IN-L"]').waitFor({ state: 'attached' });
  await page.locator('[data-move="IN-L EX-L"]').waitFor({ state: 'attached' });
  expect(await violationsOn(page, '.lash-pane')).toEqual([]);
  await whole.getByRole('button', { name: 'Take them all' }).click();
  await whole.getByRole('button', { name: 'Take them all' }).waitFor({ state: 'detached' });
  const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
  const words = body.valves.map(({ choice }: { choice: { words: string } }) => choice.words);
  expect(words).toEqual(['from exhaust left', 'from intake left', 'the shim in it stays']);
  expect(body.valves.map(({ fitted }: { fitted: { thickness: { value: string } } }) => fitted.thickness.value)).toEqual(
    ['2.350', '2.300', '2.320'],
  );
  expect(body.valves[2].fitted.printed.value).toBe('2.350');
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('two engines that draw on one bin are chosen for together, and what is not in its bin is left out', async () => {
  const lashes = [
    ['lash-in-l', '0.20', '0.25'],
    ['lash-ex-l', '0.20', '0.25'],
    ['lash-ex-r', '0.10', '0.15'],
  ] as const;
  const [here, there] = [await jobWithLash('H388-0802', lashes), await jobWithLash('H388-0803', lashes)];
  const measured = ['IN-L', 'EX-L', 'EX-R'].map((valve) => ({ valve, thickness: { value: '2.350', unit: 'mm' } }));
  for (const one of [here, there]) {
    expect((await shop.as.technician.post(`/api/jobs/${one}/fitted-shims`, { valves: measured })).status).toBe(201);
  }
  const { page, complaints } = await dashboard.at('technician', { width: 1280, height: 900 });
  await page.goto(`/bench/${here}/assemble?step=lash`);
  const whole = page.getByRole('region', { name: 'All valves at once' });
  await whole.getByLabel(/H388-0803/).check();
  await whole.getByRole('button', { name: 'Which shims for all valves of 2 engines?' }).click();
  // Four valves want a 2.40, two lie in the bin.
  await whole.getByText(/From the bins: 2; to buy: 2/).waitFor();
  await whole.getByRole('button', { name: 'It is not in the bin' }).first().click();
  await whole.getByText(/From the bins: 0; to buy: 4/).waitFor();
  expect(await violationsOn(page, '.lash-pane')).toEqual([]);
  await whole.getByRole('button', { name: 'Take them all' }).click();
  await whole.getByRole('button', { name: 'Take them all' }).waitFor({ state: 'detached' });
  for (const one of [here, there]) {
    const { body } = await shop.as.technician.get(`/api/jobs/${one}/demands`);
    expect(body.lines).toMatchObject([{ part: { number: 'SH-748-2.40' }, wanted: 2, short: 2 }]);
  }
  expect(complaints).toEqual([]);
  await page.context().close();
});
