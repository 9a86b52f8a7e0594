import AxeBuilder from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
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
    await clerk.page.getByRole('cell', { name: '€82.20' }).waitFor();
  });

  test('it is sent, and a date that slipped stays beside the new one', async () => {
    await clerk.page.getByRole('button', { name: 'It is sent' }).click();
    await clerk.page.getByRole('button', { name: 'The vendor confirmed it' }).waitFor();
    for (const day of ['2099-03-02', '2099-03-09']) {
      await clerk.page.getByRole('button', { name: 'When Ring set comes' }).click();
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
    await clerk.page.getByRole('button', { name: 'When Ring set comes' }).click();
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
      const { violations } = await new AxeBuilder({ page: clerk.page })
        .withTags(['wcag2a', 'wcag2aa', 'wcag22aa'])
        .analyze();
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
    }
    // A refusal is an answer 422, which the browser logs as an error.
    expect(clerk.complaints.filter((text) => !text.includes('status of 422'))).toEqual([]);
  });
});
