import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addKit, addLot, addPart, expectBooksToAgree } from '../support/stores.ts';
import { wedge } from '../support/wedge.ts';

const ROWS = 50_000;
const serials = ['H355-0401', 'H355-0402', 'H355-0403'] as const;

let shop: Shop;
let dashboard: Dashboard;
let page: Page;
/** The floor stands open on a wall all day, and is never loaded again. */
let floor: AtTerminal;
let bin: { id: string; code: string };
let gasket: { id: string; number: string };

beforeAll(async () => {
  shop = await openShop();
  bin = await addBin(shop.sql);
  gasket = await addPart(shop.sql, { number: 'H355-HG', name: 'Head gasket' });
  await addLot(shop, { partId: gasket.id, quantity: 2, binId: bin.id, valueMinor: 4000 });
  const kitId = await addKit(shop, [[gasket.id, 1]]);
  for (const serial of serials) {
    const { jobId } = await takeIn(shop, { serial });
    expect((await shop.as.technician.post(`/api/jobs/${jobId}/demands`, { kitId })).status).toBe(201);
  }
  dashboard = await openDashboard(shop);
  ({ page } = await dashboard.at('clerk', { width: 1280, height: 1000 }));
  floor = await dashboard.at('lead', { width: 1440, height: 900 });
  await floor.page.goto('/');
  await floor.page.evaluate(() => Object.assign(window, { sameDay: true }));
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

/** A second after what the clerk did has been answered, the floor names exactly these engines as waiting for parts. */
async function expectWaiting(...engines: readonly string[]): Promise<void> {
  const list = floor.page.locator('#parts');
  const named = async () => {
    const text = (await list.textContent()) ?? '';
    return serials.filter((serial) => text.includes(serial));
  };
  await expect.poll(named, { timeout: 1_000, interval: 50 }).toEqual(engines);
  expect(await floor.page.evaluate(() => 'sameDay' in window)).toBe(true);
}

const inJob = (serial: string) => page.locator('section.job, article.job').filter({ hasText: serial });
const dialog = () => page.getByRole('dialog');

describe('a clerk’s day', { sequential: true }, () => {
  test('begins with a price list of fifty thousand parts, one row of it wrong at first', {
    timeout: 120_000,
  }, async () => {
    const list = (wrong: string) =>
      Buffer.from(
        [
          'their_number,our_number,name,price,from',
          'SG-1,H355-HG,Head gasket,21.00,2026-01-01',
          ...Array.from({ length: ROWS - 1 }, (_, n) => {
            const price = n === 30_000 ? wrong : `${(n % 400) + 1}.25`;
            return `SP-${n},,Catalogue part ${n},${price},2026-01-01`;
          }),
        ].join('\n'),
      );
    const file = (wrong: string) => ({ name: 'list.csv', mimeType: 'text/csv', buffer: list(wrong) });
    await page.goto('/stores/parts');
    await page.getByRole('button', { name: 'Take a price list' }).click();
    await dialog().getByLabel('Vendor').selectOption({ label: 'Saltmere Plating' });
    await dialog().getByLabel('The list', { exact: true }).setInputFiles(file('?'));
    await dialog().getByRole('button', { name: 'Check it' }).click();
    await dialog().getByRole('cell', { name: 'row 30003, column price' }).waitFor({ timeout: 60_000 });
    await dialog().getByLabel('The list', { exact: true }).setInputFiles(file('9.50'));
    await dialog().getByRole('button', { name: 'Check it' }).click();
    await dialog().getByRole('button', { name: 'Keep 50,000 prices' }).click({ timeout: 60_000 });
    await dialog().getByText('Kept: 50,000 prices, 49,999 new parts.').waitFor({ timeout: 90_000 });
    await dialog().getByRole('button', { name: 'Close' }).last().click();
    await page.getByRole('searchbox').fill('sp-49998');
    await page.getByText('Catalogue part 49998').waitFor();
    await expectWaiting();
  });

  test('three kits want the two of one lot: two get theirs, the third waits by name', async () => {
    await page.goto('/stores');
    for (const serial of serials) {
      await inJob(serial).getByRole('button', { name: 'Reserve the kit, all or nothing' }).click();
      await inJob(serial)
        .getByText(serial === serials[2] ? /missing/ : /Nothing is missing/)
        .first()
        .waitFor();
      await expectWaiting(...(serial === serials[2] ? [serials[2]] : []));
    }
    await expectBooksToAgree(shop.sql);
  });

  test('what the third lacks is ordered and received: it goes to it at once', async () => {
    await inJob(serials[2]).getByRole('button', { name: 'Order: Head gasket' }).click();
    await dialog().getByLabel('From whom').selectOption({ label: 'Saltmere Plating, plating' });
    await dialog().getByLabel('Promised for').fill('2099-03-02');
    await dialog().getByLabel('Promised for').press('Enter');
    await dialog().waitFor({ state: 'detached' });
    await expectWaiting(serials[2]);
    await page.getByRole('button', { name: 'Receive Head gasket' }).first().click();
    await dialog().getByLabel('Bin').selectOption({ label: bin.code });
    await dialog().getByRole('button', { name: 'Take in' }).click();
    await dialog()
      .getByText(/1 reserved at once for Halden 355 H355-0403/)
      .waitFor();
    await expectWaiting();
    await page.keyboard.press('Escape');
    await dialog().waitFor({ state: 'detached' });
  });

  test('a count finds one too few: the latest to have been promised is short again', async () => {
    const { body } = await shop.as.clerk.post('/api/labels/drawings', {
      labels: [{ kind: 'part', id: gasket.id }],
      stock: '65-on-a4',
    });
    await wedge(page, body.items[0].code);
    const parts = page.getByRole('region', { name: 'Parts' });
    await parts.getByRole('heading', { name: /Head gasket/ }).waitFor();
    await parts
      .getByRole('button', { name: `Correct what lies in ${bin.code}` })
      .first()
      .click();
    await dialog().getByRole('textbox', { name: 'So many lie there' }).fill('1');
    await dialog().getByLabel('Reason').fill('counted at noon');
    await dialog().getByRole('button', { name: 'Write it down' }).click();
    await dialog().getByText('Less lies there than was promised. These are short now:').waitFor();
    const [short] = await shop.sql<{ serial: string }[]>`
      select e.serial from demand_line d join job j on j.id = d.job_id join engine e on e.id = j.engine_id where d.short > 0`;
    await expectWaiting(short?.serial ?? '');
    await page.keyboard.press('Escape');
    await expectBooksToAgree(shop.sql);
  });

  test('what is there is picked in one walk and issued to its jobs', async () => {
    await page.goto('/stores/pick');
    const waiting = (await floor.page.locator('#parts').textContent()) ?? '';
    for (let stop = 0; stop < 2; stop += 1)
      await page
        .getByRole('button', { name: /^Picked 1 Head gasket/ })
        .first()
        .click();
    const box = page.getByRole('region', { name: 'In the box' });
    for (let left = 2; left > 0; left -= 1) {
      await box
        .getByRole('button', { name: /Issue 1 piece to job \d+/ })
        .first()
        .click();
      await expect.poll(() => box.getByRole('button', { name: /Issue 1 piece/ }).count()).toBe(left - 1);
    }
    await expectWaiting(...serials.filter((serial) => waiting.includes(serial)));
    await box.getByText('Nothing yet').waitFor();
    const [{ issued } = { issued: 0 }] = await shop.sql<
      { issued: number }[]
    >`select sum(issued)::int as issued from demand_line`;
    expect(issued).toBe(2);
    await expectBooksToAgree(shop.sql);
  });
});
