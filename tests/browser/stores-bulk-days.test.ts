import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { expectGoodLooks } from '../support/good-looks.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let page: Page;
const lineIds: string[] = [];

beforeAll(async () => {
  shop = await openShop();
  const { jobId } = await takeIn(shop, { serial: 'H355-0502' });
  const names = ['Ring set', 'Valve-stem seal', 'Piston'];
  const parts = await Promise.all(names.map((name) => addPart(shop.sql, { name })));
  await demand(
    shop,
    jobId,
    parts.map(({ id }) => [id, 1] as const),
  );
  await shop.as.technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  await shop.as.writer.post(`/api/jobs/${jobId}/promises`, { readyOn: '2098-02-05', sureOf5: 3 });
  // Two orders of one vendor.
  for (const own of [parts.slice(0, 2), parts.slice(2)]) {
    const lines = own.map(({ id }) => ({ partId: id, quantity: 2, promisedOn: '2098-02-03' }));
    const { body } = await shop.as.clerk.post('/api/purchase-orders', { vendorId: shop.vendorId, lines });
    lineIds.push(...body.lines.map(({ id }: { id: string }) => id));
  }
  await addLot(shop, { partId: parts[0]?.id ?? '', quantity: 1, binId: (await addBin(shop.sql)).id });
  dashboard = await openDashboard(shop);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const press = async (name: string | RegExp) => {
  await page.getByRole('button', { name, exact: typeof name === 'string' }).focus();
  await page.keyboard.press('Enter');
};
const days = async () =>
  (
    await shop.sql`select l.promised_on as day from unnest(${lineIds}::uuid[]) with ordinality g (id, at) join purchase_line l on l.id = g.id order by g.at`
  ).map(({ day }) => day);

describe('several at once, by keyboard alone', { sequential: true }, () => {
  test('lines of two orders get the day their vendor wrote, with who waits for them shown before it is kept', async () => {
    ({ page } = await dashboard.at('clerk', { width: 1280, height: 1000 }));
    await page.goto('/stores/receive');
    await press(/3 lines/);
    const ticks = page.getByRole('checkbox', { name: /^Choose / });
    await ticks.nth(2).waitFor();
    await ticks.nth(1).focus();
    await page.keyboard.press('Space');
    await ticks.nth(2).focus();
    await page.keyboard.press('Shift+Space');
    await expectGoodLooks(page, 1400);
    await press('Move the day of 2 lines');
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Promised for').fill('2098-02-09');
    await press('Show what would change');
    // A day that moves needs a reason, told at its field's name.
    await dialog.getByText('A date that moves needs a reason').waitFor();
    await dialog.getByLabel('What they said').focus();
    await page.keyboard.type('the foundry is behind');
    await press('Show what would change');
    await dialog.getByText('2 lines would get another day. Nothing is kept yet.').waitFor();
    expect(await dialog.getByText(/too late for it/).count()).toBe(2);
    await expectGoodLooks(page, 1400);
    expect(await days()).toEqual(['2098-02-03', '2098-02-03', '2098-02-03']);
    await press('Change 2');
    await dialog.getByText('2 lines have another day.').waitFor();
    expect(await days()).toEqual(['2098-02-03', '2098-02-09', '2098-02-09']);
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
  });

  test('classes get one interval, with how many bins are due by it shown before it is kept', async () => {
    ({ page } = await dashboard.at('lead', { width: 1280, height: 1000 }));
    await page.goto('/stores/count');
    await page.getByRole('checkbox', { name: 'Choose Class B' }).focus();
    await page.keyboard.press('Space');
    await page.getByRole('checkbox', { name: 'Choose Class C' }).focus();
    await page.keyboard.press('Space');
    await press('Set 2 classes together');
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Days between counts').focus();
    await page.keyboard.type('77');
    await press('Show what would change');
    await dialog.getByText('2 classes would change. Nothing is kept yet.').waitFor();
    await dialog.getByText(/due to be counted/).waitFor();
    await expectGoodLooks(page, 1400);
    await press('Change 2');
    await dialog.getByText('2 classes were set.').waitFor();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    const { body } = await shop.as.lead.get('/api/count-rules');
    expect(body.items.map(({ everyDays }: { everyDays: number }) => everyDays)).toEqual([30, 77, 77]);
    await expectGoodLooks(page, 1400);
  });

  test('worn pieces of one box are marked as sent, by keyboard, and days come in from a file', async () => {
    const bin = await addBin(shop.sql);
    const parts = [await addPart(shop.sql, { name: 'Starter' }), await addPart(shop.sql, { name: 'Stator' })];
    await shop.sql`update part set core_minor = 8000 where id = any(${parts.map(({ id }) => id)}::uuid[])`;
    const lines = parts.map(({ id }) => ({ partId: id, quantity: 1 }));
    const { body } = await shop.as.clerk.post('/api/purchase-orders', { vendorId: shop.vendorId, lines });
    const came = body.lines.map(({ id }: { id: string }) => ({ purchaseLineId: id, binId: bin.id, quantity: 1 }));
    expect((await shop.as.clerk.post('/api/deliveries', { lines: came })).status).toBe(201);
    ({ page } = await dashboard.at('clerk', { width: 1280, height: 1000 }));
    await page.goto('/stores/cores');
    const ticks = page.getByRole('checkbox', { name: /^Choose / });
    await ticks.nth(1).waitFor();
    await ticks.nth(0).focus();
    await page.keyboard.press('Space');
    await ticks.nth(1).focus();
    await page.keyboard.press('Space');
    await press('Mark 2 cores');
    const dialog = page.getByRole('dialog');
    await press('Show what would change');
    await dialog.getByText('2 cores would be marked. Nothing is kept yet.').waitFor();
    await expectGoodLooks(page, 1400);
    await press('Change 2');
    await dialog.getByText('2 cores were marked.').waitFor();
    await page.keyboard.press('Escape');
    await dialog.waitFor({ state: 'detached' });
    expect(await shop.sql`select from core_mark where mark = 'sent'`).toHaveLength(2);
    await expectGoodLooks(page, 1400);

    await page.setViewportSize({ width: 1280, height: 1000 });
    await page.goto('/stores/receive');
    await press('Bring days in from a file');
    const file = `line,promised_on,said\n${lineIds[0]},2098-03-01,by telephone\n`;
    await dialog
      .locator('input[type=file]')
      .setInputFiles({ name: 'days.csv', mimeType: 'text/csv', buffer: Buffer.from(file) });
    await press('Check it');
    await dialog.getByText(/1 changed/).waitFor();
    await press('Keep it');
    await dialog.getByText('Kept: 0 new, 1 changed.').waitFor();
    expect((await days())[0]).toBe('2098-03-01');
  });
});
