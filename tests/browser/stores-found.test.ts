import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { labelCode } from '../support/label-code.ts';
import { wordsOfPdf } from '../support/pdf-words.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { addBin, addLot, addPart } from '../support/stores.ts';
import { wedge } from '../support/wedge.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let page: Page;
let made: { readonly washer: string; readonly spring: string; readonly lastBin: { id: string; code: string } };
let numbers: readonly number[] = [];

beforeAll(async () => {
  shop = await openShop();
  const { clerk: buyer } = shop.as;
  const part = async (name: string, number: string) => (await addPart(shop.sql, { name, number })).id;
  const [washer, spring, newer] = [
    await part('Copper washer', 'W-12'),
    await part('Clutch spring', 'CS-1'),
    await part('Clutch spring', 'CS-2'),
  ];
  const order = async (partId: string, more: object) => {
    const lines = [{ partId, price: { minor: '450', currency: 'EUR' }, ...more }];
    return (await buyer.post('/api/purchase-orders', { vendorId: shop.vendorId, lines })).body.number as number;
  };
  numbers = [
    await order(washer, { packs: 3, packSize: 10, wantedOn: '2099-03-02' }),
    await order(spring, { quantity: 4 }),
  ];
  await buyer.post(`/api/parts/${spring}/supersession`, { byPartId: newer, oldStock: 'use up' });
  for (let at = 0; at < 104; at += 1) await addBin(shop.sql);
  const lastBin = await addBin(shop.sql);
  await addLot(shop, { partId: washer, quantity: 5, binId: lastBin.id });
  made = { washer, spring, lastBin };
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
  page = clerk.page;
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const scan = async (kind: string, id: string) => wedge(page, await labelCode(shop, kind, id));
const said = (text: string) => page.locator('.scan-note').getByText(text).waitFor();
const listed = () => page.locator('.order-list b.num').allTextContents();
const rows = () => page.locator('.bins tbody tr').count();
/** The machine may be busy with other suites. */
const soon = { timeout: 15_000 };
const fits = async (width: number) => {
  await page.setViewportSize({ width, height: 1000 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
};

describe('an order', { sequential: true }, () => {
  test('is found by its number, by a part on it, and by scan while the cursor stands in the field', async () => {
    await page.goto('/stores/order');
    const field = page.getByLabel('Find an order');
    await page.locator('.order-list li').nth(1).waitFor();
    await field.fill(String(numbers[1]));
    await expect.poll(listed, soon).toEqual([`Order ${numbers[1]}`]);
    await field.fill('copper w-12');
    await expect.poll(listed, soon).toEqual([`Order ${numbers[0]}`]);
    await field.fill('nothing such');
    await page.getByText('None of the orders is such a one.').waitFor();
    await field.focus();
    await scan('part', made.washer);
    await said('the orders it is on are listed.');
    expect(await field.inputValue()).toBe('W-12');
    await expect.poll(listed, soon).toEqual([`Order ${numbers[0]}`]);
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  test('says by when it is wanted and how it was keyed, and goes out as a PDF', async () => {
    await page.locator('.order-list a').click();
    await page.getByText('wanted by 2 Mar 2099').waitFor();
    await page.getByRole('button', { name: 'What went wrong with Copper washer' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText('It came damaged', { exact: true }).click();
    await dialog
      .getByRole('button', { name: /packs of 10/ })
      .last()
      .click();
    await dialog.getByLabel('What happened, in words').fill('box crushed');
    await dialog.getByLabel('What happened, in words').press('Enter');
    await page.getByText(/11 came damaged \(keyed as 1 pack of 10 and 1 loose\): box crushed/).waitFor();
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'As PDF' }).click(),
    ]);
    expect(file.suggestedFilename()).toBe(`order-${numbers[0]}.pdf`);
    const [words] = await wordsOfPdf(readFileSync(await file.path()));
    expect(words?.join(' ')).toContain('3 packs of 10');
    for (const width of [360, 390, 1280]) await fits(width);
  });

  test('of a part that was replaced leads to the new one; the old one is written only with a reason', async () => {
    await page.goto('/stores/order');
    await page.getByLabel('Find an order').waitFor();
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await scan('part', made.spring);
    const dialog = page.getByRole('dialog');
    await dialog.getByText('CS-1 was replaced by Clutch spring (CS-2).').waitFor();
    await dialog.getByLabel('From whom').selectOption({ index: 1 });
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await dialog.getByText('order CS-2 instead, or say why CS-1').waitFor();
    await dialog.getByRole('button', { name: 'Order CS-2' }).click();
    await expect.poll(() => dialog.getByLabel('Why the old one all the same').count(), soon).toBe(0);
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await dialog.waitFor({ state: 'detached' });
    await scan('part', made.spring);
    await dialog.getByLabel('Why the old one all the same').fill('the owner wants them');
    await dialog.getByLabel('From whom').selectOption({ index: 1 });
    await fits(390);
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await dialog.waitFor({ state: 'detached' });
    expect(
      await shop.sql`
        select p.number, pl.replaced_reason as why from purchase_line pl join part p on p.id = pl.part_id
        where pl.order_id is null order by pl.id`,
    ).toEqual([
      { number: 'CS-2', why: null },
      { number: 'CS-1', why: 'the owner wants them' },
    ]);
    await page.setViewportSize({ width: 1280, height: 1000 });
  });
});

describe('the bins', { sequential: true }, () => {
  test('come a hundred at a time, more by keyboard; one further down is read when it is scanned', async () => {
    await page.goto('/stores/bins');
    await expect.poll(rows, soon).toBe(100);
    await page.getByRole('button', { name: 'More bins' }).focus();
    await page.keyboard.press('Enter');
    await expect.poll(rows, soon).toBe(105);
    expect(await page.getByRole('button', { name: 'More bins' }).count()).toBe(0);
    await page.reload();
    await expect.poll(rows, soon).toBe(100);
    await scan('bin', made.lastBin.id);
    await said('its row has the focus.');
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.closest('tr')?.textContent ?? ''), soon)
      .toContain(made.lastBin.code);
  });

  test('are found by a part that lies in them, and fit a phone', async () => {
    await page.getByLabel('Find a bin').fill('copper');
    await expect.poll(rows, soon).toBe(1);
    await page.getByText('5 pieces of 1 part').waitFor();
    await page.getByLabel('Find a bin').fill('nowhere');
    await page.getByText('No bin has that code, and in none lies such a part.').waitFor();
    await page.getByLabel('Find a bin').fill('');
    for (const width of [360, 390, 1280]) await fits(width);
    // One order was refused above, and told.
    expect(clerk.complaints.filter((complaint) => !complaint.includes('422'))).toEqual([]);
  });
});
