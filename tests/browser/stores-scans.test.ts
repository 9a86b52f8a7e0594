import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { labelCode } from '../support/label-code.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand } from '../support/stores.ts';
import { wedge } from '../support/wedge.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let page: Page;
const made: Record<'piston' | 'rod' | 'seal' | 'near' | 'far' | 'engine', string> = {
  piston: '',
  rod: '',
  seal: '',
  near: '',
  far: '',
  engine: '',
};

beforeAll(async () => {
  shop = await openShop();
  const [near, far] = [await addBin(shop.sql), await addBin(shop.sql)];
  const part = async (name: string, number: string) => (await addPart(shop.sql, { name, number })).id;
  made.piston = await part('Piston', 'H355-P');
  made.seal = await part('Oil seal', 'H355-S');
  made.rod = newId();
  await shop.sql`insert into part (id, number, name, by_serial, core_minor) values (${made.rod}, 'H355-ROD', 'Connecting rod', true, 500)`;
  [made.near, made.far] = [near.id, far.id];
  await addLot(shop, { partId: made.piston, quantity: 5, binId: near.id });
  for (const serial of ['R-001', 'R-002']) {
    const lotId = newId();
    await shop.sql`insert into stock_lot (id, part_id, bin_id, serial) values (${lotId}, ${made.rod}, ${near.id}, ${serial})`;
    await shop.sql`
      insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, value_change, moved_by_id)
      values (${newId()}, ${lotId}, 'receive', 1, 0, 9000, ${shop.people.clerk})`;
  }
  const { jobId, engineId } = await takeIn(shop, { serial: 'H355-0888' });
  made.engine = engineId;
  await demand(shop, jobId, [
    [made.piston, 2],
    [made.seal, 1],
  ]);
  await shop.as.clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
  page = clerk.page;
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const scan = async (kind: string, id: string) => wedge(page, await labelCode(shop, kind, id));
const said = (text: string | RegExp) => page.locator('.scan-note').getByText(text).waitFor();
const dialog = () => page.getByRole('dialog');
const focused = () => page.evaluate(() => document.activeElement?.closest('tr, li, .line')?.textContent ?? '');

describe('a scan does the obvious thing where it is scanned', { sequential: true }, () => {
  test('at the parts desk a part is shown, and Back leads to what was there', async () => {
    await page.goto('/stores/parts');
    await page.getByRole('searchbox').fill('seal');
    await scan('part', made.piston);
    await said('shown here.');
    await page.getByRole('heading', { name: /^Piston/ }).waitFor();
    await page.getByRole('button', { name: 'Back', exact: true }).first().click();
    await page.getByRole('searchbox').waitFor();
    expect(await page.getByRole('searchbox').inputValue()).toBe('seal');
  });

  test('in the dialog that puts a lot right a bin is where it goes, another part is refused', async () => {
    await scan('part', made.piston);
    await page
      .getByRole('button', { name: /^Correct/ })
      .first()
      .click();
    await dialog().waitFor();
    await scan('part', made.seal);
    await page.locator('.scan-note.amiss').waitFor();
    await scan('bin', made.far);
    await expect.poll(() => dialog().getByRole('combobox').inputValue()).toBe(made.far);
    await page.keyboard.press('Escape');
    await dialog().waitFor({ state: 'detached' });
  });

  test('at the ordering desk a part is to be ordered; nothing is written by the scan', async () => {
    await page.goto('/stores/order');
    await page.getByRole('heading', { name: 'Orders' }).waitFor();
    await scan('part', made.piston);
    await said('to be ordered');
    await dialog().getByText('Piston').first().waitFor();
    await scan('part', made.seal);
    await dialog().getByText('Oil seal').first().waitFor();
    await page.keyboard.press('Escape');
    expect((await shop.as.clerk.get('/api/purchase-orders')).body.items).toEqual([]);
  });

  test('among the bins a bin’s row has the focus', async () => {
    await page.goto('/stores/bins');
    await page.getByRole('row', { name: /Z-/ }).first().waitFor();
    await scan('bin', made.far);
    await said('its row has the focus.');
    const [far] = await shop.sql<{ code: string }[]>`select code from bin where id = ${made.far}`;
    expect(await focused()).toContain(far?.code);
  });

  test('among the cores a part for which none is owed is told to be so', async () => {
    await page.goto('/stores/cores');
    await page.getByRole('heading', { name: 'Cores' }).first().waitFor();
    await scan('part', made.rod);
    await said('no worn one is owed for it.');
  });

  test('on the pick walk an engine leaves its own job alone; at the short desk its shortages are marked', async () => {
    await page.goto('/stores/pick');
    await page.getByText('0 of 1 picked').waitFor();
    await scan('engine', made.engine);
    await page.locator('.scan-note').getByText('H355-0888').waitFor();
    await expect.poll(() => page.locator('.walk-head select').inputValue()).not.toBe('');
    await page.goto('/stores/short');
    await page.locator('.short-row').first().waitFor();
    await scan('engine', made.engine);
    await said('what is short of it is marked.');
  });

  test('in stores an engine leads to its job, and among the labels whatever is scanned is put on the sheet', async () => {
    await page.goto('/stores');
    await page
      .getByRole('heading', { name: /H355-0888/ })
      .first()
      .waitFor();
    await scan('engine', made.engine);
    await page.locator('.scan-note').getByText('H355-0888').waitFor();
    expect(new URL(page.url()).pathname).toBe('/stores');
    await page.goto('/labels');
    await page.getByRole('heading', { name: 'Labels' }).waitFor();
    for (const [kind, id] of [
      ['bin', made.near],
      ['part', made.piston],
      ['engine', made.engine],
    ] as const) {
      await scan(kind, id);
      await page.locator('.scan-note').getByRole('button', { name: 'Back' }).waitFor();
      await page.locator('.scan-note button').last().click();
      await page.locator('.scan-note').waitFor({ state: 'detached' });
    }
    expect(clerk.complaints).toEqual([]);
  });
});

describe('counting with a reader', { sequential: true }, () => {
  const now = () => page.locator('.count-what').textContent();
  const counts = async () => {
    const rows = await shop.sql<{ counted: number }[]>`select counted from count_entry order by counted_at`;
    return rows.map(({ counted }) => counted);
  };

  test('a bin that is on an open sheet opens that sheet, and no second one is begun', async () => {
    await page.goto('/stores/count');
    await page.getByText(/bins due\./).waitFor();
    await scan('bin', made.near);
    await page.getByRole('heading', { name: /Count sheet \d+/ }).waitFor();
    const first = page.url();
    await page.goto('/stores/count');
    await page.getByRole('heading', { name: 'Sheets under way' }).waitFor();
    await scan('bin', made.near);
    await page.waitForURL(first);
    expect(await shop.sql`select from count_sheet`).toHaveLength(1);
  });

  test('a part with serials leads from one to the next, each seen or not, and none counts for two', async () => {
    await scan('part', made.rod);
    await said('its line is chosen.');
    expect(await now()).toContain('R-001');
    await page.keyboard.type('2');
    await page.keyboard.press('Enter');
    expect(await now(), 'two of one serial cannot be').toContain('R-001');
    await page.keyboard.press('Backspace');
    await page.getByRole('button', { name: 'Seen', exact: true }).press('Enter');
    await expect.poll(now).not.toContain('R-001');
    await scan('part', made.rod);
    await expect.poll(now).toContain('R-002');
    await page.keyboard.type('0');
    await page.keyboard.press('Enter');
    await expect.poll(counts).toEqual([1, 0]);
  });

  test('a figure half typed survives a scan of another bin, which is told to be none of this sheet', async () => {
    await scan('part', made.piston);
    await expect.poll(now).toContain('Piston');
    await page.keyboard.type('4');
    await scan('bin', made.far);
    await page.locator('.scan-note.amiss').getByText('is not on this sheet.').waitFor();
    await page.keyboard.press('Enter');
    await page.getByText('All counted. Hand it in.').waitFor();
    await expect.poll(counts).toEqual([1, 0, 4]);
  });

  test('settled sheets are folded away below what is due', async () => {
    const handIn = page.getByRole('button', { name: 'Hand it in' });
    await expect.poll(() => handIn.isEnabled()).toBe(true);
    await handIn.press('Enter');
    await page.getByText('to be counted again').first().waitFor();
    await page.goto('/stores/count');
    await page.getByRole('heading', { name: 'Sheets under way' }).waitFor();
    await page.getByText(/bins due\./).waitFor();
    const order = await page.locator('main h2, main summary').allTextContents();
    expect(order.indexOf('Sheets under way')).toBeLessThan(order.indexOf('Sheets settled or given up'));
    expect(order.findIndex((text) => text.startsWith('Next'))).toBeLessThan(
      order.indexOf('Sheets settled or given up'),
    );
    expect(await page.getByRole('link', { name: /^Sheet \d+/ }).count()).toBe(1);
  });
});
