import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { addBin, addPart } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let bin: string;

beforeAll(async () => {
  shop = await openShop();
  bin = (await addBin(shop.sql)).code;
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
  await clerk.page.goto('/stores/parts');
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

describe('parts by hand', { sequential: true }, () => {
  test('one is added by keyboard, with what is wrong told at its field', async () => {
    const { page } = clerk;
    await page.getByRole('button', { name: 'Add a part' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Number').fill('QL-16');
    await dialog.getByLabel('Name').fill('Crush washer 16');
    await dialog.getByLabel('Price of one, EUR').fill('half');
    await dialog.getByText('Write a sum such as 33.60.').waitFor();
    expect(await dialog.getByRole('button', { name: 'Write it down' }).isDisabled()).toBe(true);
    await dialog.getByLabel('Price of one, EUR').fill('0.45');
    await dialog.getByLabel('Reorder at').fill('20');
    for (const width of [390, 1280]) {
      await page.setViewportSize({ width, height: 1000 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(await violationsOn(page)).toEqual([]);
    }
    await dialog.getByLabel('Name').press('Enter');
    await dialog.waitFor({ state: 'detached' });
    await page.getByRole('heading', { name: 'Crush washer 16 QL-16' }).waitFor();
    await page.getByText('€0.45').waitFor();
  });

  test('a number that is taken is told at its field; what is changed is there at once', async () => {
    const { page } = clerk;
    await page.getByRole('button', { name: 'Add a part' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Number').fill('ql-16');
    await dialog.getByLabel('Name').fill('Another');
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await dialog.getByText('is taken').waitFor();
    await dialog.getByRole('button', { name: 'Close' }).click();
    await page.getByRole('button', { name: 'Change', exact: true }).click();
    await dialog.getByLabel('Name').fill('Crush washer 16, copper');
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await page.getByRole('heading', { name: 'Crush washer 16, copper QL-16' }).waitFor();
  });

  test('core charge and what goes with it are said in the same form', async () => {
    const { page } = clerk;
    await addPart(shop.sql, { number: 'QL-CL', name: 'Circlip 16' });
    await page.getByRole('button', { name: 'Change', exact: true }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Core charge of one, EUR').fill('80');
    await dialog.getByRole('searchbox').fill('QL-CL');
    await dialog.getByRole('button', { name: /Circlip 16/ }).click();
    await dialog.getByRole('textbox', { name: 'How many Circlip 16 with each' }).fill('2');
    await dialog.getByRole('textbox', { name: 'How many Circlip 16 with each' }).blur();
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await dialog.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: '2 × Circlip 16' }).waitFor();
    await page.getByText('€80.00').waitFor();
    await page.getByRole('button', { name: 'Change', exact: true }).click();
    await dialog.getByRole('button', { name: 'Leave out Circlip 16' }).click();
    await dialog.getByRole('button', { name: 'Write it down' }).click();
    await page.getByRole('button', { name: '2 × Circlip 16' }).waitFor({ state: 'detached' });
    expect(await shop.sql`select from part_companion`).toHaveLength(0);
  });

  test('the books are opened with a file: its faults by row and column, then all of it', async () => {
    const { page } = clerk;
    await page.getByRole('button', { name: 'Open the books' }).click();
    const dialog = page.getByRole('dialog');
    const give = (text: string) =>
      dialog.getByLabel('The file').setInputFiles({
        name: 'opening.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from(`part,bin,quantity,value\n${text}`),
      });
    await give(`QL-16,${bin},nine,3.60\nQL-17,${bin},1,1.00\n`);
    await dialog.getByRole('button', { name: 'Check it' }).click();
    await dialog.getByText('row 2, column quantity').waitFor();
    await dialog.getByText('row 3, column part').waitFor();
    await give(`QL-16,${bin},9,3.60\n`);
    await dialog.getByRole('button', { name: 'Check it' }).click();
    await dialog.getByText('The file is right. Lots: 1, parts: 1, pieces: 9. Nothing is kept yet.').waitFor();
    expect(await shop.sql`select from stock_lot`).toHaveLength(0);
    await dialog.getByRole('button', { name: 'Keep all of it' }).click();
    await dialog.getByText('Kept. Lots: 1, pieces: 9.').waitFor();
    // A refused file is an answer 422, and a number that is taken one 409, which the browser logs as errors.
    expect(clerk.complaints.filter((text) => !/status of (409|422)/.test(text))).toEqual([]);
  });

  test('several are chosen and changed in one act, seen before it is done', async () => {
    const { page } = clerk;
    await addPart(shop.sql, { number: 'QL-17', name: 'Crush washer 17' });
    await page.goto('/stores/parts');
    await page.getByRole('searchbox').fill('QL-1');
    await page.getByRole('checkbox', { name: 'Choose Crush washer 16, copper' }).check();
    await page.getByRole('checkbox', { name: 'Choose Crush washer 17' }).press('Space');
    await page.getByRole('button', { name: 'Change 2 parts' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Reorder at').fill('20');
    await dialog.getByLabel('Bought from').selectOption({ label: 'Saltmere Plating' });
    await dialog.getByRole('button', { name: 'Show what would change' }).click();
    await dialog.getByText('2 parts would change. Nothing is kept yet.').waitFor();
    for (const width of [390, 1280]) {
      await page.setViewportSize({ width, height: 1600 });
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(await violationsOn(page)).toEqual([]);
    }
    await dialog.getByRole('button', { name: 'Change 2' }).click();
    await dialog.getByText('2 parts were changed.').waitFor();
    const points = await shop.sql`select reorder_point as at from part where number like 'QL-1%'`;
    expect(points.map(({ at }) => at)).toEqual([20, 20]);
  });
});
