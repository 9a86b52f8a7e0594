import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addPart, demand } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;

beforeAll(async () => {
  shop = await openShop();
  const rings = await addPart(shop.sql, { number: 'H355-R', name: 'Ring set' });
  await addPart(shop.sql, { number: 'W-12', name: 'Washer', reorderPoint: 20 });
  await addBin(shop.sql);
  const { jobId } = await takeIn(shop, { serial: 'H355-0402' });
  await demand(shop, jobId, [[rings.id, 2]]);
  await shop.as.technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  const price = { minor: '4110', currency: 'EUR' };
  const told = { vendorId: shop.vendorId, partId: rings.id, price, validFrom: '2026-01-01' };
  expect((await shop.as.clerk.post('/api/vendor-prices', told)).status).toBe(201);
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
  await clerk.page.goto('/stores/order');
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

describe('from what to buy to an order that slipped', { sequential: true }, () => {
  test('one desk alone is the present one', async () => {
    const desks = clerk.page.getByRole('navigation', { name: 'Desks of stores' });
    await desks.getByText('What to order').waitFor();
    expect(await desks.locator('[aria-current]').allTextContents()).toEqual(['What to order']);
  });

  test('a shortage stands under the vendor who priced it, and becomes an order by keyboard', async () => {
    await clerk.page.getByText(/short for job \d+, Halden 355 H355-0402/).waitFor();
    await clerk.page.getByText('runs low: 0 left, 0 coming, reorder at 20').waitFor();
    const place = clerk.page
      .locator('.vendor-group')
      .filter({ hasText: 'Ring set' })
      .getByRole('button', { name: /Write an order/ });
    await place.focus();
    await clerk.page.keyboard.press('Enter');
    await clerk.page.getByRole('heading', { name: /^Order \d+/ }).waitFor();
    await clerk.page.getByText('not sent yet').waitFor();
    await clerk.page.locator('tfoot').getByRole('cell', { name: '€82.20' }).waitFor();
  });

  test('it is sent, and a date that slipped stays beside the new one', async () => {
    await clerk.page.getByRole('button', { name: 'It is sent' }).click();
    await clerk.page.getByRole('button', { name: 'The vendor confirmed it' }).waitFor();
    for (const day of ['2099-03-02', '2099-03-09']) {
      await clerk.page.getByRole('button', { name: 'Date: when Ring set comes' }).click();
      const dialog = clerk.page.getByRole('dialog');
      await dialog.getByLabel('Promised for').fill(day);
      await dialog.getByLabel('What they said').fill('waits for the foundry');
      await dialog.getByLabel('Promised for').press('Enter');
      await dialog.waitFor({ state: 'detached' });
    }
    await clerk.page.getByText(/promised for Mon,? 2 Mar/).waitFor();
    await clerk.page.getByText(/promised for Mon,? 9 Mar/).waitFor();
  });

  test('a date that moves without a reason is told at its field; what is called off stays on the line', async () => {
    await clerk.page.getByRole('button', { name: 'Date: when Ring set comes' }).click();
    const dialog = clerk.page.getByRole('dialog');
    await dialog.getByLabel('Promised for').fill('2099-03-16');
    await dialog.getByLabel('Promised for').press('Enter');
    await dialog.getByText('say why it moves').waitFor();
    await clerk.page.keyboard.press('Escape');
    await clerk.page.getByRole('button', { name: 'What went wrong with Ring set' }).click();
    await dialog.getByText('Called off', { exact: true }).click();
    await dialog.getByLabel('What happened, in words').fill('one is enough');
    await dialog.getByLabel('What happened, in words').press('Enter');
    await clerk.page.getByText(/1 called off: one is enough/).waitFor();
  });

  test('printed it is one A4 page without what is for the screen alone', async () => {
    await clerk.page.emulateMedia({ media: 'print' });
    expect(await clerk.page.getByText('What became of it').isVisible()).toBe(false);
    expect(await clerk.page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
    const pdf = (await clerk.page.pdf({ preferCSSPageSize: true })).toString('latin1');
    expect(pdf.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await clerk.page.emulateMedia({ media: 'screen' });
  });

  test('axe finds nothing, and nothing is cut off', async () => {
    for (const width of [390, 1280]) {
      await clerk.page.setViewportSize({ width, height: 1600 });
      expect(await clerk.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(await violationsOn(clerk.page)).toEqual([]);
    }
    // A refusal is an answer 422, which the browser logs as an error.
    expect(clerk.complaints.filter((text) => !text.includes('status of 422'))).toEqual([]);
  });
});

describe('a long list of orders', { sequential: true }, () => {
  let other: string;
  beforeAll(async () => {
    const [seal] = await shop.sql<{ id: string }[]>`
      insert into part (id, number, name) values (${newId()}, 'S-40', 'Crank seal') returning id`;
    const [vendor] = await shop.sql<{ id: string }[]>`
      insert into vendor (id, name, trade, contact) values (${newId()}, 'Abel Rings', 'parts', '') returning id`;
    other = vendor?.id ?? '';
    for (let at = 0; at < 46; at += 1) {
      const lines = [
        { partId: seal?.id, quantity: 1, promisedOn: `2099-01-${String(1 + (at % 28)).padStart(2, '0')}` },
      ];
      const vendorId = at % 4 === 0 ? other : shop.vendorId;
      expect((await shop.as.clerk.post('/api/purchase-orders', { vendorId, lines })).status).toBe(201);
    }
  });
  const numbers = async () =>
    (await clerk.page.locator('.order-list b.num').allTextContents()).map((text) => Number(/\d+/.exec(text)?.[0]));
  const choose = async (label: string, key: string) => {
    await clerk.page.getByLabel(label, { exact: true }).focus();
    await clerk.page.keyboard.press(key);
  };

  test('comes page after page, sorted and of one vendor, by keyboard alone', async () => {
    await clerk.page.setViewportSize({ width: 1280, height: 1000 });
    await clerk.page.goto('/stores/order');
    await expect.poll(async () => (await numbers()).length).toBe(40);
    await clerk.page.getByRole('button', { name: 'More orders' }).focus();
    await clerk.page.keyboard.press('Enter');
    await expect.poll(async () => (await numbers()).length).toBe(47);
    const all = await numbers();
    expect(all).toEqual(all.toSorted((a, b) => b - a));
    await choose('Sorted by', 'ArrowDown');
    await expect.poll(async () => (await numbers())[0]).toBe(all.at(-1));
    await choose('Vendor', 'ArrowDown');
    await expect.poll(async () => (await numbers()).length).toBe(12);
    expect(await clerk.page.locator('.order-list li').first().textContent()).toContain('Abel Rings');
    await choose('Which', 'End');
    await clerk.page.getByText('None of the orders is such a one.').waitFor();
  });

  test('stands as it was left for whoever comes back from an order', async () => {
    await choose('Which', 'Home');
    await clerk.page.locator('.order-list a').first().focus();
    await clerk.page.keyboard.press('Enter');
    await clerk.page.getByRole('heading', { name: /^Order \d+/ }).waitFor();
    await clerk.page.getByRole('navigation', { name: 'Desks of stores' }).getByText('What to order').focus();
    await clerk.page.keyboard.press('Enter');
    await expect.poll(async () => (await numbers()).length).toBe(12);
    expect(await clerk.page.getByLabel('Vendor', { exact: true }).inputValue()).toBe(other);
  });

  test('on a phone what to buy is a list, ticked by a tap anywhere on the line', async () => {
    await clerk.page.setViewportSize({ width: 390, height: 844 });
    const line = clerk.page.locator('.buying-line').filter({ hasText: 'Washer' });
    await line.getByText('runs low').click();
    const group = clerk.page.locator('.vendor-group').filter({ hasText: 'Washer' });
    expect(await line.getByRole('checkbox').isChecked()).toBe(false);
    expect(await group.getByRole('button', { name: /Write an order/ }).isDisabled()).toBe(true);
    expect(await clerk.page.locator('.vendor-group table').count()).toBe(0);
    // All of it at once: what the foot bar stands over just now would be called too small a target.
    await clerk.page.setViewportSize({ width: 390, height: 6000 });
    for (const colorScheme of ['light', 'dark'] as const) {
      await clerk.page.emulateMedia({ colorScheme });
      expect(await violationsOn(clerk.page)).toEqual([]);
    }
    expect(await clerk.page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  });
});
