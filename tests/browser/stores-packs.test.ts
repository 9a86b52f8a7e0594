import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { addBin, addPart } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let vendor = '';

beforeAll(async () => {
  shop = await openShop();
  await addPart(shop.sql, { number: 'W-12', name: 'Copper washer', reorderPoint: 17 });
  await addBin(shop.sql);
  const [row] = await shop.sql<{ name: string }[]>`select name from vendor where id = ${shop.vendorId}`;
  vendor = row?.name ?? '';
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

async function axeAndWidths() {
  for (const width of [390, 1280]) {
    await clerk.page.setViewportSize({ width, height: 1600 });
    expect(await clerk.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    expect(await violationsOn(clerk.page)).toEqual([]);
  }
}

describe('a part that is sold by the pack', { sequential: true }, () => {
  test('has its price told as that of a pack, with what one of it costs', async () => {
    const { page } = clerk;
    await page.goto('/stores/parts');
    await page.getByText('Copper washer').first().click();
    await page.getByRole('button', { name: 'A price that was told' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Who').selectOption({ label: vendor });
    await dialog.getByLabel('Price of a pack, EUR').fill('10.00');
    await dialog.getByLabel('How many in a pack').fill('0');
    await dialog.getByText('Write whole ones, 1 or more.').waitFor();
    await dialog.getByLabel('How many in a pack').fill('30');
    await dialog.getByText('€0.3333 each').waitFor();
    await dialog.getByLabel('From the day').fill('2026-01-01');
    await dialog.getByLabel('How many in a pack').press('Enter');
    await dialog.waitFor({ state: 'detached' });
    await page.getByText(/€10\.00 since .*, a pack of 30, €0\.3333 each/).waitFor();
  });

  test('is proposed and ordered in whole packs, and the order says so', async () => {
    const { page } = clerk;
    await page.goto('/stores/order');
    await page.getByText('2 × 30 = 60').waitFor();
    await axeAndWidths();
    await page.getByRole('button', { name: /Write an order/ }).click();
    await page.getByRole('heading', { name: /^Order \d+/ }).waitFor();
    await page.getByText('2 packs of 30').waitFor();
    await page.getByText('= 60 pieces').waitFor();
    await page.locator('tfoot').getByText('€20.00').waitFor();
    await axeAndWidths();
  });

  test('comes in with a short pack: its missing piece is told and stays to come', async () => {
    const { page } = clerk;
    await page.goto('/stores/receive');
    await page.getByRole('button', { name: new RegExp(vendor) }).click();
    await page.getByRole('button', { name: 'It came: Copper washer' }).click();
    const packs = page.getByRole('textbox', { name: 'Good ones: Copper washer, packs of 30' });
    expect(await packs.inputValue()).toBe('2');
    await packs.fill('1');
    await packs.press('Tab');
    const loose = page.getByRole('textbox', { name: 'Good ones: Copper washer, loose' });
    await loose.fill('29');
    await loose.press('Tab');
    await page.getByText('1 × 30 + 29 = 59').waitFor();
    await page.getByText('1 still to come: an open or a short pack').waitFor();
    await page.getByText('Left empty: €19.67, by the order.').waitFor();
    await axeAndWidths();
    await page.getByLabel('Into bin').selectOption({ index: 1 });
    await page.getByRole('button', { name: 'Take in 1 line' }).click();
    await page.locator('.delivery-done').getByText('Copper washer').waitFor();
    const [worth] = await shop.sql<{ value: number }[]>`select value_minor as value from part_value where on_hand = 59`;
    expect(worth?.value).toBe(1967);
    expect(clerk.complaints).toEqual([]);
  });

  test('is late by the shop’s day, wherever the browser stands', async () => {
    const { page } = clerk;
    const [line] = await shop.sql<{ orderId: string }[]>`select order_id as "orderId" from purchase_line`;
    const [day] = await shop.sql<{ zone: string; yesterday: string }[]>`
      select zone, (shop_today() - 1)::text as yesterday from shop`;
    await shop.sql`update purchase_line set promised_on = ${day?.yesterday ?? ''}`;
    await page.goto(`/stores/orders/${line?.orderId}`);
    await page.getByText('late', { exact: true }).waitFor();
    // The line is promised for a day that is today in one zone of the earth and over in another.
    const [zones] = await shop.sql<{ ahead: string; ahead_day: string; behind: string; behind_day: string }[]>`
      select 'Pacific/Kiritimati' as ahead, (now() at time zone 'Pacific/Kiritimati')::date::text as ahead_day,
        'Pacific/Pago_Pago' as behind, (now() at time zone 'Pacific/Pago_Pago')::date::text as behind_day`;
    expect(zones?.behind_day).not.toBe(zones?.ahead_day);
    await shop.sql`update purchase_line set promised_on = ${zones?.behind_day ?? ''}`;
    for (const [zone, late] of [
      [zones?.behind, 0],
      [zones?.ahead, 1],
    ] as const) {
      await shop.sql`update shop set zone = ${zone ?? ''}`;
      await page.reload();
      await page.getByText('Copper washer').waitFor();
      expect(await page.getByText('late', { exact: true }).count()).toBe(late);
    }
    await shop.sql`update shop set zone = ${day?.zone ?? ''}`;
  });
});
