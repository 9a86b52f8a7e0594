import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { expectGoodLooks } from '../support/good-looks.ts';
import { labelCode } from '../support/label-code.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';
import { wedge } from '../support/wedge.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let page: Page;
let jobId: string;
let rings: { id: string; number: string };
let seals: { id: string; number: string };
let pistons: { id: string; number: string };
let [ringBin, sealBin]: { id: string; code: string }[] = [];
const price = (minor: string) => ({ minor, currency: 'EUR' });

beforeAll(async () => {
  shop = await openShop();
  rings = await addPart(shop.sql, { number: 'H355-R', name: 'Ring set' });
  seals = await addPart(shop.sql, { number: 'H355-VS', name: 'Valve-stem seal' });
  pistons = await addPart(shop.sql, { number: 'H355-P', name: 'Piston' });
  [ringBin, sealBin] = [await addBin(shop.sql), await addBin(shop.sql)];
  await addLot(shop, { partId: rings.id, quantity: 3, binId: ringBin.id });
  await addLot(shop, { partId: seals.id, quantity: 8, binId: sealBin.id });
  ({ jobId } = await takeIn(shop, { serial: 'H355-0402' }));
  await demand(shop, jobId, [
    [rings.id, 2],
    [seals.id, 4],
    [pistons.id, 1],
  ]);
  await shop.as.technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  const lines = [
    { partId: pistons.id, quantity: 2, jobId, price: price('9000'), promisedOn: '2020-02-03' },
    { partId: seals.id, quantity: 10, price: price('100') },
  ];
  expect((await shop.as.clerk.post('/api/purchase-orders', { vendorId: shop.vendorId, lines })).status).toBe(201);
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
  page = clerk.page;
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const codeOf = (kind: string, id: string) => labelCode(shop, kind, id);
const said = (text: string | RegExp) => page.locator('.scan-note').getByText(text).waitFor();
const button = (name: string | RegExp) => page.getByRole('button', { name });

/** Good looks, and a page that complained of nothing. */
async function expectNoFault() {
  await expectGoodLooks(page, 2600);
  await page.emulateMedia({ colorScheme: 'light' });
  await page.setViewportSize({ width: 1280, height: 1000 });
  // A refusal is an answer 400, which the browser logs as an error.
  expect(clerk.complaints.filter((text) => !text.includes('status of 400'))).toEqual([]);
}

describe('the short desk', { sequential: true }, () => {
  test('says what is ordered, from whom, and that it is late', async () => {
    await page.goto('/stores/short');
    await page.getByRole('heading', { name: /Halden 355 H355-0402/ }).waitFor();
    const row = page.locator('.short-row').filter({ hasText: 'Piston' });
    await row.getByText(/late, was due Mon,? 3 Feb 2020/).waitFor();
    await row.getByText('Late', { exact: true }).waitFor();
    expect(await row.getByRole('button', { name: 'Order Piston' }).count()).toBe(0);
    await page.getByText('Late 1').click();
    expect(await page.locator('.short-row').count()).toBe(1);
    await page.getByText('Not ordered 0').click();
    await page.getByText('None of these.').waitFor();
    await wedge(page, await codeOf('part', pistons.id));
    await said('what is short of it is marked.');
    await page.getByRole('heading', { name: /^Piston/ }).waitFor();
    await expectNoFault();
  });
});

describe('the walk', { sequential: true }, () => {
  test('is picked with a reader alone: the bin says where one stands, the part is picked', async () => {
    await page.goto('/stores/pick');
    await page.getByText('0 of 2 picked').waitFor();
    await wedge(page, await codeOf('bin', ringBin?.id ?? ''));
    await said('this is the bin.');
    await wedge(page, await codeOf('part', rings.id));
    await said('2 pieces picked.');
    await page.getByText('1 of 2 picked').waitFor();
    // The seals lie in the next bin, which is the present stop now.
    await wedge(page, await codeOf('part', pistons.id));
    await said('is not to be picked. Put it back.');
    await expectNoFault();
  });

  test('what is picked outlives the page, and goes to its job', async () => {
    await page.reload();
    const box = page.getByRole('region', { name: 'In the box' });
    await box.getByText('2 × Ring set').waitFor();
    await box.getByRole('button', { name: /Issue 2 pieces to job \d+/ }).click();
    await box.getByText('Nothing yet').waitFor();
    expect(await standing(shop, jobId, rings.id)).toEqual({ ...none, issued: 2 });
  });

  test('fewer than were promised lie there: what is missing is short by name, and the rest is picked', async () => {
    await button(/^Fewer lie there: Valve-stem seal/).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('textbox', { name: 'So many lie there' }).fill('3');
    await dialog.getByRole('button', { name: 'That is all' }).click();
    await dialog.getByText(/^1 for job \d+, Halden 355 H355-0402/).waitFor();
    await dialog.getByRole('button', { name: 'Close' }).click();
    await button('Picked 3 Valve-stem seal').waitFor();
    expect(await standing(shop, jobId, seals.id)).toEqual({ ...none, reserved: 3, short: 1 });
    await expectBooksToAgree(shop.sql);
  });

  test('on a phone one thing stands alone, until the whole walk is asked for', async () => {
    await page.setViewportSize({ width: 390, height: 800 });
    expect(await page.locator('.stop:visible').count()).toBe(1);
    await button('The whole walk').click();
    await button('One at a time').click();
    await page.setViewportSize({ width: 1280, height: 1000 });
  });
});

describe('the receiving desk', { sequential: true }, () => {
  test('opens the vendor of a part that is scanned, with the part in the delivery', async () => {
    await page.goto('/stores/receive');
    await page.getByText('Choose the vendor, or scan a part that came.').waitFor();
    await wedge(page, await codeOf('part', pistons.id));
    await page.getByRole('textbox', { name: 'Good ones: Piston' }).waitFor();
    await wedge(page, await codeOf('bin', ringBin?.id ?? ''));
    await said('goods go in here.');
    await wedge(page, await codeOf('part', seals.id));
    await page.getByRole('textbox', { name: 'Good ones: Valve-stem seal' }).waitFor();
  });

  test('shows how the freight is spread, takes what is wrong and damaged aside, and refuses by the line', async () => {
    await page.getByRole('textbox', { name: 'Good ones: Piston' }).fill('1');
    await page.keyboard.press('Tab');
    await button('Wrong or damaged: Piston').click();
    await page.getByRole('textbox', { name: 'Damaged: Piston' }).fill('1');
    await page.keyboard.press('Tab');
    await page.getByLabel('Freight and duty, EUR').fill('12,50');
    // 90.00 and 10.00 of goods: 11.25 and 1.25 of the freight.
    await page.getByText('€12.50 × €90.00 ÷ €100.00 = 11.2500').waitFor();
    await page.getByRole('cell', { name: '€101.25' }).first().waitFor();
    await button('Take in 2 lines').click();
    await page.getByRole('alert').filter({ hasText: 'must not be empty' }).waitFor();
    await page.getByLabel('What is wrong with them').fill('skirt scored');
    await expectNoFault();
  });

  test('tells to whom it went, what it cost, and prints its labels', async () => {
    const before = clerk.complaints.length;
    await page.setViewportSize({ width: 1280, height: 1000 });
    await button('Take in 2 lines').click();
    await page.getByRole('heading', { name: 'Taken in' }).waitFor();
    await page.getByText(/1 went straight to \d+, Halden 355 H355-0402/).waitFor();
    await page.getByText('€90.00 and €11.25 of freight make €101.25').waitFor();
    await page.getByText('Halden 355 H355-0402: 1 short').waitFor();
    await button(/^Print/).waitFor();
    expect(await standing(shop, jobId, pistons.id)).toEqual({ ...none, reserved: 1 });
    await expectBooksToAgree(shop.sql);
    expect(clerk.complaints.length).toBe(before);
  });
});

describe('the bins', { sequential: true }, () => {
  test('one is put up, renamed and closed by keyboard; a code that is taken is told at its field', async () => {
    await page.goto('/stores/bins');
    await button('Put up a bin').focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Code').fill('E-01');
    await page.keyboard.press('Enter');
    await button('Change bin E-01').click();
    await dialog.getByLabel('Code').fill(ringBin?.code ?? '');
    await page.keyboard.press('Enter');
    await dialog.getByText('is taken').waitFor();
    await dialog.getByLabel('Code').fill('E-02');
    await dialog.getByRole('button', { name: 'Close it' }).click();
    await page.getByRole('row', { name: /E-02.*closed: takes nothing in/ }).waitFor();
  });
});
