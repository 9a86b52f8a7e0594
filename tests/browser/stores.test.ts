import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addKit, addLot, addPart } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let bin: { id: string; code: string };

beforeAll(async () => {
  shop = await openShop();
  const { jobId } = await takeIn(shop, { serial: 'H355-0402' });
  const piston = await addPart(shop.sql, { number: 'H355-P', name: 'Piston' });
  const rings = await addPart(shop.sql, { number: 'H355-R', name: 'Ring set', reorderPoint: 1 });
  bin = await addBin(shop.sql);
  await addLot(shop, { partId: piston.id, quantity: 2, binId: bin.id });
  const kitId = await addKit(shop, [
    [piston.id, 1],
    [rings.id, 2],
  ]);
  const { status } = await shop.as.technician.post(`/api/jobs/${jobId}/demands`, { kitId });
  expect(status).toBe(201);
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
  await clerk.page.goto('/stores');
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const line = (page: Page, part: string) => page.locator('li.line').filter({ hasText: part });
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
/** By keyboard: the button gets the focus and Enter. */
const press = async (page: Page, name: string | RegExp) => {
  await button(page, name).first().focus();
  await page.keyboard.press('Enter');
};

describe('a clerk reserves a kit, sees what is short, orders, receives and issues', { sequential: true }, () => {
  test('what nobody asked for yet says so', async () => {
    await line(clerk.page, 'Piston').getByText('not asked yet').waitFor();
    await line(clerk.page, 'Ring set').getByText('not asked yet').waitFor();
  });

  test('all or nothing reserves nothing, and names the part and how many are missing', async () => {
    await press(clerk.page, 'Reserve the kit, all or nothing');
    const answer = clerk.page.locator('.answer');
    await answer.getByText('Nothing was reserved: all or nothing, and this is missing.').waitFor();
    expect(await answer.getByRole('listitem').textContent()).toMatch(/Ring set\s*H355-R\s*2 of 2 missing\s*0 in stock/);
    await line(clerk.page, 'Ring set').getByText('short', { exact: true }).waitFor();
    expect(await line(clerk.page, 'Piston').getByText('reserved').count()).toBe(0);
  });

  test('what there is is reserved, and the shortage stays on the board and beside it', async () => {
    await button(clerk.page, 'Reserve what there is').click();
    await line(clerk.page, 'Piston').getByText('reserved', { exact: true }).waitFor();
    const aside = clerk.page.getByRole('complementary');
    await aside.getByText('Ring set, 2').waitFor();
    await aside.getByText('no date').first().waitFor();
    await clerk.page.getByText('1 line short, no date').waitFor();
  });

  test('an order with a day gives the shortage its date', async () => {
    await press(clerk.page, 'Order: Ring set');
    const dialog = clerk.page.getByRole('dialog');
    await dialog.getByLabel('From whom').selectOption({ label: 'Saltmere Plating, plating' });
    await dialog.getByLabel('Promised for').fill('2099-03-02');
    await dialog.getByLabel('Promised for').press('Enter');
    await dialog.waitFor({ state: 'detached' });
    await clerk.page.getByText(/1 line short: restarts Mon,? 2 Mar/).waitFor();
  });

  test('received into a bin, it is reserved at once for the job it was bought for', async () => {
    await press(clerk.page, 'Receive Ring set');
    const dialog = clerk.page.getByRole('dialog');
    await dialog.getByRole('textbox', { name: 'How many came' }).waitFor();
    expect(await dialog.getByRole('textbox', { name: 'How many came' }).inputValue()).toBe('2');
    expect(await dialog.getByRole('button', { name: 'Take in' }).isDisabled()).toBe(true);
    await dialog.getByLabel('Bin').selectOption({ label: bin.code });
    await dialog.getByLabel('Lot').fill('4107');
    await dialog.getByLabel(/Cost of them together/).fill('33,6x');
    await dialog.getByText('Write a sum such as 33.60.').waitFor();
    await dialog.getByLabel(/Cost of them together/).fill('33,60');
    await dialog.getByLabel(/Cost of them together/).press('Enter');
    await dialog.getByText('2 × Ring set taken in.').waitFor();
    await dialog.getByText('2 reserved at once for Halden 355 H355-0402, for which they were bought.').waitFor();
    await clerk.page.keyboard.press('Escape');
    const [lot] =
      await shop.sql`select v.value_minor as value from stock_lot l join part_value v on v.part_id = l.part_id where l.code = '4107'`;
    expect(lot).toEqual({ value: 3360 });
  });

  test('now everything is picked, line by line, and folded away', async () => {
    await clerk.page.getByText('2 lines, 2 to pick now').waitFor();
    await button(clerk.page, 'Pick 1: Piston').click();
    await press(clerk.page, 'Pick 2: Ring set');
    await clerk.page.getByText('2 lines issued or cancelled').waitFor();
    const rows = await shop.sql`select issued from demand_line order by issued`;
    expect(rows.map(({ issued }) => issued)).toEqual([1, 2]);
  });

  test('one too many comes back unused, with a reason', async () => {
    await clerk.page.getByText('2 lines issued or cancelled').click();
    await button(clerk.page, 'More about Ring set').click();
    const dialog = clerk.page.getByRole('dialog');
    await dialog.getByRole('button', { name: 'Decrease' }).click();
    await dialog.getByLabel('Reason').fill('one was enough');
    await dialog.getByRole('button', { name: 'Take back unused' }).click();
    await dialog.waitFor({ state: 'detached' });
    await line(clerk.page, 'Ring set').getByText('1 issued, 1 cancelled').waitFor();
  });
});

describe('the scan field', () => {
  const scan = async (text: string) => {
    const field = clerk.page.getByRole('textbox', { name: 'Scan or type a part, a bin or a tray' });
    await field.click();
    // As a keyboard wedge sends it: over whatever stands there, ended by Enter.
    await clerk.page.keyboard.press('ControlOrMeta+a');
    await clerk.page.keyboard.type(text);
    await clerk.page.keyboard.press('Enter');
  };

  test('a part’s number leads to its lots, and who has it reserved', async () => {
    await scan('h355-p');
    const panel = clerk.page.getByRole('region', { name: 'Parts' });
    await panel.getByRole('heading', { name: /Piston/ }).waitFor();
    await panel.getByRole('cell', { name: bin.code, exact: true }).waitFor();
    await panel.getByRole('cell', { name: 'issued', exact: true }).waitFor();
  });

  test('a bin says what lies in it', async () => {
    await scan(bin.code);
    await clerk.page.getByText(`Bin ${bin.code}`).waitFor();
    await button(clerk.page, 'Piston (H355-P)').waitFor();
  });

  test('a label nobody knows is told, and parts like it are looked for', async () => {
    await scan('ring s');
    await clerk.page.getByText('No part, bin or tray is labelled “ring s”.').waitFor();
    await clerk.page
      .getByRole('region', { name: 'Parts' })
      .getByRole('button', { name: /Ring set/ })
      .click();
    await clerk.page.getByRole('heading', { name: /Ring set H355-R/ }).waitFor();
  });

  test('a count corrects the ledger only with a reason', async () => {
    await press(clerk.page, `Correct what lies in ${bin.code}`);
    const dialog = clerk.page.getByRole('dialog');
    const writeDown = dialog.getByRole('button', { name: 'Write it down' });
    await dialog.getByRole('button', { name: 'Decrease' }).click();
    expect(await writeDown.isDisabled()).toBe(true);
    await dialog.getByLabel('Reason').fill('bent, thrown away');
    await writeDown.click();
    await dialog.getByText('Written down.').waitFor();
    await clerk.page.keyboard.press('Escape');
    await clerk.page.getByRole('cell', { name: 'bent, thrown away' }).waitFor();
  });
});

describe('everybody sees stores, each with their own acts', () => {
  test('a technician may ask and reserve, not pick, receive or correct', async () => {
    const { page, context } = await dashboard.at('technician');
    await page.goto('/stores');
    await page.getByText('2 lines issued or cancelled').waitFor();
    await button(page, 'Ask for parts').waitFor();
    for (const name of [/^Pick/, /^Receive/, /Write down an order/]) expect(await button(page, name).count()).toBe(0);
    await context.close();
  });

  test('nothing is cut off or out of reach at 390, 1280 and 2560 px, and axe finds nothing', async () => {
    for (const width of [390, 1280, 2560]) {
      const { page, context } = await dashboard.at('clerk', { width, height: 4000 });
      await page.goto('/stores');
      await page.getByText('2 lines issued or cancelled').click();
      await button(page, 'Find a part').click();
      await button(page, /^Piston/)
        .first()
        .click();
      await page.getByRole('heading', { name: /^Piston H355-P/ }).waitFor();
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(await violationsOn(page)).toEqual([]);
      await context.close();
    }
  });

  test('the page itself complained of nothing but the one label that is not known', () => {
    expect(clerk.complaints).toEqual([
      'Failed to load resource: the server responded with a status of 404 (Not Found)',
    ]);
  });
});
