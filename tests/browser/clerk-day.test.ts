import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { labelCode } from '../support/label-code.ts';
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

/** How long the floor took after each answer, in ms. */
const waits: number[] = [];

/** What the clerk did has been answered: the floor comes to name exactly these engines as waiting for parts. */
async function expectWaiting(...engines: readonly string[]): Promise<void> {
  const list = floor.page.locator('#parts');
  const named = async () => {
    const text = (await list.textContent()) ?? '';
    return serials.filter((serial) => text.includes(serial));
  };
  const since = performance.now();
  await expect.poll(named, { timeout: 5_000, interval: 50 }).toEqual(engines);
  waits.push(performance.now() - since);
  expect(await floor.page.evaluate(() => 'sameDay' in window)).toBe(true);
}

const codeOf = (kind: string, id: string) => labelCode(shop, kind, id);

/** The one engine that lacks a piece. */
async function theShort(): Promise<string> {
  const found = await shop.sql<{ serial: string }[]>`
    select e.serial from demand_line d join job j on j.id = d.job_id join engine e on e.id = j.engine_id where d.short > 0`;
  expect(found).toHaveLength(1);
  return found[0]?.serial ?? '';
}

/** Keys what lies there, line by line, but of the first lot of all one too few. */
let short = 0;
async function countAll(at: Page): Promise<void> {
  const lots = await shop.sql<{ quantity: number }[]>`
    select l.on_hand as quantity from stock_lot l where l.bin_id = ${bin.id} and l.on_hand > 0 order by l.received_at`;
  for (const [n, { quantity }] of lots.entries()) {
    const keyed = n === 0 ? quantity - 1 : quantity;
    if (n === 0) short = keyed;
    await at.keyboard.type(String(keyed));
    await at.keyboard.press('Enter');
  }
  await at.getByRole('button', { name: 'Hand it in' }).click();
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

  test('the labels of bin and part are made, and read again with a reader', async () => {
    await page.goto('/labels');
    for (const [kind, name] of [
      ['Bins', bin.code],
      ['Parts', gasket.number],
    ] as const) {
      await page.locator('.choice-option', { hasText: kind }).click();
      await page.getByLabel('Find').fill(name);
      await page.getByRole('checkbox', { name: new RegExp(name) }).check();
    }
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Make the PDF of 2' }).click();
    expect((await readFile(await (await saved).path())).subarray(0, 5).toString()).toBe('%PDF-');
    await page.goto('/stores');
    await inJob(serials[0]).waitFor();
    await wedge(page, await codeOf('part', gasket.id));
    await page
      .getByRole('region', { name: 'Parts' })
      .getByRole('heading', { name: /Head gasket/ })
      .waitFor();
    await expectWaiting();
  });

  test('a blind count finds one too few; counted again and decided, the latest to be promised is short', async () => {
    await page.goto('/stores/count');
    await page
      .getByText(/bins? due/)
      .first()
      .waitFor();
    await wedge(page, await codeOf('bin', bin.id));
    await page.getByRole('heading', { name: /Count sheet \d+/ }).waitFor();
    expect(await page.locator('main').textContent()).not.toMatch(/books|on hand/i);
    await countAll(page);
    await page.getByText('1 line is to be counted again').waitFor();
    await expectWaiting();
    const lead = await dashboard.at('lead', { width: 1280, height: 900 });
    await lead.page.goto(page.url().replace(dashboard.address, ''));
    await lead.page.getByRole('button', { name: 'Count 1 line again' }).click();
    await lead.page.getByText('1 line to count').waitFor();
    await lead.page.keyboard.type(short.toString());
    await lead.page.keyboard.press('Enter');
    await lead.page.getByRole('button', { name: 'Hand it in' }).click();
    const form = lead.page.getByRole('form', { name: 'Decide: Head gasket' });
    await form.getByLabel('Reason').fill('one was taken without a word');
    await form.getByRole('button', { name: 'Adjust' }).click();
    await form.waitFor({ state: 'detached' });
    await expectWaiting(await theShort());
    await lead.context.close();
    await expectBooksToAgree(shop.sql);
  });

  test('the lead’s word gives one engine’s to the one that is short: the giver waits now', async () => {
    const taker = await theShort();
    const giver = serials.find((serial) => serial !== taker) ?? '';
    await page.goto('/stores');
    await inJob(giver).getByRole('button', { name: 'More about Head gasket' }).click();
    await dialog().locator('.choice-option', { hasText: 'Give to another job' }).click();
    const wish = dialog().getByLabel('To which job');
    await wish.selectOption({ label: (await wish.locator('option', { hasText: taker }).textContent()) ?? '' });
    await dialog().getByLabel('Reason').fill('its owner rides on Friday');
    await dialog().getByRole('button', { name: 'Give to another job' }).click();
    await dialog().waitFor({ state: 'detached' });
    await expectWaiting(giver);
    await expectBooksToAgree(shop.sql);
  });

  test('what is there is picked with the reader and issued to its jobs', async () => {
    const waiting = await theShort();
    await page.goto('/stores/pick');
    await page.getByText('0 of 2 picked').waitFor();
    await wedge(page, await codeOf('bin', bin.id));
    await page.locator('.scan-note').getByText('this is the bin.').waitFor();
    for (const picked of [1, 2]) {
      await wedge(page, await codeOf('part', gasket.id));
      await page.getByText(`${picked} of 2 picked`).waitFor();
    }
    const issue = page.getByRole('button', { name: /^Issue 1 piece to job \d+/ });
    const box = page.getByRole('region', { name: 'In the box' });
    for (const left of [1, 0]) {
      await issue.first().click();
      await expect.poll(() => box.getByRole('listitem').count()).toBe(left);
      await expectWaiting(waiting);
    }
    await box.waitFor({ state: 'detached' });
    const [{ issued } = { issued: 0 }] = await shop.sql<
      { issued: number }[]
    >`select sum(issued)::int as issued from demand_line`;
    expect(issued).toBe(2);
    await expectBooksToAgree(shop.sql);
  });

  test('all the while the floor was right within a second', () => {
    const sorted = waits.toSorted((a, b) => a - b);
    console.info(`floor behind the clerk: ${sorted.map((ms) => Math.round(ms)).join(', ')} ms`);
    // A machine that runs other suites beside may hold up one look; a floor that waits for a clock would hold up most.
    expect(sorted[Math.floor(sorted.length / 2)]).toBeLessThan(1_000);
  });
});
