import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { labelCode } from '../support/label-code.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand } from '../support/stores.ts';
import { wedge } from '../support/wedge.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let lead: AtTerminal;
let bin: { id: string; code: string };
let far: { id: string; code: string };
let stray: { id: string; number: string };
const lots: Record<string, string> = {};
const parts: Record<string, string> = {};

beforeAll(async () => {
  shop = await openShop();
  await shop.sql`update shop set label_mark = 'Q7'`;
  [bin, far] = [await addBin(shop.sql), await addBin(shop.sql)];
  for (const [name, quantity] of [
    ['Base gasket', 137],
    ['Circlip', 12],
    ['Piston', 5],
  ] as const) {
    const part = await addPart(shop.sql, { number: `H355-${name.slice(0, 2).toUpperCase()}`, name });
    parts[name] = part.id;
    lots[name] = await addLot(shop, { partId: part.id, quantity, binId: bin.id, valueMinor: quantity * 100 });
    if (name !== 'Piston') continue;
    const { jobId } = await takeIn(shop, { serial: 'H355-0777' });
    await demand(shop, jobId, [[part.id, 5]]);
    await shop.as.clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  }
  stray = await addPart(shop.sql, { number: 'H355-ST', name: 'Oil seal' });
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 900 });
  lead = await dashboard.at('lead', { width: 390, height: 844 });
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const digit = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const codeOf = (kind: string, id: string) => labelCode(shop, kind, id);
const chosen = (page: Page) => page.locator('.count-line[aria-current="true"]');
const figure = (page: Page) => page.getByRole('status', { name: /How many lie there/ });
const onHand = async (name: string) =>
  (await shop.sql`select on_hand as "onHand", reserved from stock_lot where id = ${lots[name] ?? ''}`)[0];

async function clean(page: Page): Promise<void> {
  for (const theme of ['light', 'dark'] as const) {
    await page.evaluate((name) => document.documentElement.setAttribute('data-theme', name), theme);
    expect(await violationsOn(page)).toEqual([]);
  }
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
}

describe('a clerk counts a bin, a lead counts it again and decides', { sequential: true }, () => {
  test('the desk tells what is due and why, and a scanned bin begins its sheet', async () => {
    const { page } = clerk;
    await page.goto('/stores/count');
    await page.getByText('2 of 2 bins due.').waitFor();
    await page.getByRole('link', { name: 'Count', exact: true }).waitFor();
    await clean(page);
    await wedge(page, await codeOf('bin', bin.id));
    await page.getByRole('heading', { name: /Count sheet \d+/ }).waitFor();
    await page.getByText('3 lines to count').waitFor();
  });

  test('figures and Enter count line after line, up goes back, and no number of the books is on the page', async () => {
    const { page } = clerk;
    await clean(page);
    expect(await page.locator('main').textContent()).not.toMatch(/137|(?<!:)\b12\b(?!:)/);
    await page.keyboard.type('130');
    await page.keyboard.press('Backspace');
    await page.keyboard.type('6');
    expect(await figure(page).textContent()).toBe('136');
    await page.keyboard.press('Enter');
    await page.getByText('2 lines to count').waitFor();
    await page.keyboard.press('ArrowUp');
    expect(await chosen(page).textContent()).toContain('Base gasket');
  });

  test('a scanned part goes to its line; one that is not on the sheet is added with its count', async () => {
    const { page } = clerk;
    await wedge(page, await codeOf('part', parts.Piston ?? ''));
    await page.locator('.scan-note').getByText('its line is chosen.').waitFor();
    expect(await chosen(page).textContent()).toContain('Piston');
    await digit(page, '3').click();
    await button(page, 'Keep, next').click();
    await page.getByText('1 line to count').waitFor();
    await wedge(page, await codeOf('part', stray.id));
    const dialog = page.getByRole('dialog');
    await dialog.getByText('Oil seal').waitFor();
    await dialog.getByLabel('Lot on the box, if any').fill('5512');
    await dialog.getByRole('button', { name: 'Add' }).click();
    await dialog.waitFor({ state: 'detached' });
    await page.getByText('lot 5512, found here').first().waitFor();
    await wedge(page, await codeOf('bin', far.id));
    await page.locator('.scan-note').getByText('is not on this sheet.').waitFor();
  });

  test('while the network is down counting goes on, and what was kept is sent after', async () => {
    const { page, context } = clerk;
    await wedge(page, await codeOf('part', parts.Circlip ?? ''));
    await page.locator('.scan-note').getByText('its line is chosen.').waitFor();
    await context.setOffline(true);
    await page.keyboard.type('12');
    await page.keyboard.press('Enter');
    await page.getByText('1 count is kept on this terminal').waitFor();
    expect(await button(page, 'Hand it in').isDisabled()).toBe(true);
    await context.setOffline(false);
    await page.getByText('All counted. Hand it in.').waitFor();
    await expect.poll(() => button(page, 'Hand it in').isEnabled(), { timeout: 15_000 }).toBe(true);
  });

  test('on paper it is as blind: an empty box a line', async () => {
    const { page } = clerk;
    await page.emulateMedia({ media: 'print' });
    const paper = page.locator('.count-paper');
    expect(await paper.isVisible()).toBe(true);
    expect(await paper.textContent()).not.toMatch(/137|136|(?<!:)\b12\b(?!:)/);
    await page.emulateMedia({ media: 'screen' });
  });

  test('handed in, what was right or within tolerance is settled, the rest is counted again by somebody else', async () => {
    const { page } = clerk;
    await button(page, 'Hand it in').press('Enter');
    const outcome = '1 line was right; 1 line was adjusted within tolerance; 2 lines are to be counted again';
    await page.getByText(outcome).waitFor();
    await page.getByText('Round 1, Bea Lindqvist: 136, books 137').waitFor();
    const blind = page.locator('.count-bin li', { hasText: 'Piston' });
    expect(await blind.textContent()).toMatch(/to count again$/);
    expect(await onHand('Base gasket')).toEqual({ onHand: 136, reserved: 0 });
    await page.getByText('You counted this round yourself.').waitFor();
    await clean(page);
  });

  test('the lead counts again on a phone, blind, by the pad', async () => {
    const { page } = lead;
    await page.goto('/stores/count');
    await page
      .getByRole('link', { name: /Sheet \d+/ })
      .first()
      .click();
    await button(page, 'Count 2 lines again').click();
    await page.getByText('2 lines to count').waitFor();
    expect(await page.locator('main').textContent()).not.toContain('books');
    await clean(page);
    const key = await digit(page, '7').boundingBox();
    expect(Math.min(key?.width ?? 0, key?.height ?? 0)).toBeGreaterThanOrEqual(56);
    for (const [name, count] of [
      ['Piston', '3'],
      ['Oil seal', '1'],
    ] as const) {
      await page.locator('.count-line').filter({ hasText: name }).click();
      for (const figureOf of count) await digit(page, figureOf).click();
      await button(page, 'Keep, next').click();
    }
    await page.getByText('All counted. Hand it in.').waitFor();
    await button(page, 'Hand it in').click();
    await page.getByText('2 lines wait for a decision').waitFor();
    await page.getByText('Round 2, Maren Tolk: 3, books 5').waitFor();
    await clean(page);
  });

  test('the lead decides with a reason; who loses promised pieces is named', async () => {
    const { page } = lead;
    const form = page.getByRole('form', { name: 'Decide: Piston' });
    expect(await form.getByRole('button', { name: 'Adjust' }).isDisabled()).toBe(true);
    await form.getByLabel('Reason').fill('two went out unbooked');
    await form.getByLabel('Reason').press('Enter');
    await page.getByText('−2').first().waitFor();
    await page.getByText('two went out unbooked').waitFor();
    await expect.poll(() => onHand('Piston')).toEqual({ onHand: 3, reserved: 3 });
    const other = page.getByRole('form', { name: 'Decide: Oil seal' });
    await other.getByLabel('Reason').fill('seen twice');
    await other.getByRole('button', { name: 'Adjust' }).click();
    await other.waitFor({ state: 'detached' });
    await page.getByText('settled.', { exact: false }).first().waitFor();
    const { body } = await shop.as.clerk.get('/api/stores/board');
    expect(body.shortages).toMatchObject([{ part: { name: 'Piston' }, short: 2 }]);
  });

  test('the desk shows how right the books were, and the lead sets how closely they are counted', async () => {
    const { page } = lead;
    await page.goto('/stores/count');
    await page.getByRole('img', { name: /Share of lines that were right/ }).waitFor();
    await page.getByRole('cell', { name: '1 (25 %)' }).first().waitFor();
    const section = page.locator('.count-rules');
    await section.getByLabel('Pieces').first().fill('1');
    await section.getByRole('button', { name: 'Set class A' }).click();
    await section.getByText('set by Maren Tolk').waitFor();
    await clean(page);
    expect(lead.complaints).toEqual([]);
    expect(clerk.complaints.filter((text) => !text.includes('ERR_INTERNET_DISCONNECTED'))).toEqual([]);
  });
});

describe('a clerk keys a sheet from a file', { sequential: true }, () => {
  let sheetId: string;
  const entries = async () =>
    (
      await shop.sql`select e.counted from count_entry e join count_line l on l.id = e.line_id
                     where l.sheet_id = ${sheetId} order by e.counted`
    ).map(({ counted }) => counted);
  const csv = (...rows: readonly string[]) => ({
    name: 'counted.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(['bin,part,counted', ...rows].join('\n')),
  });

  test('one with mistakes is told row by row and column by column, and none of it is kept', async () => {
    const { page } = clerk;
    const shelf = await addBin(shop.sql);
    for (const number of ['H355-WA', 'H355-CO']) {
      const part = await addPart(shop.sql, { number, name: number });
      await addLot(shop, { partId: part.id, quantity: 8, binId: shelf.id });
    }
    sheetId = (await shop.as.clerk.post('/api/count-sheets', { binIds: [shelf.id] })).body.id;
    await page.goto(`/stores/count/${sheetId}`);
    await button(page, 'Key counts from a file').click();
    const dialog = page.getByRole('dialog', { name: 'Key counts from a file' });
    const file = dialog.getByLabel('The file');
    expect(await button(page, 'Check it').isDisabled()).toBe(true);
    await file.setInputFiles(csv(`${shelf.code},H355-WA,7`, `${shelf.code},H355-NO,3`, `${shelf.code},H355-CO,eight`));
    await dialog.getByText('3 rows are read').waitFor();
    await dialog.getByRole('button', { name: 'Check it' }).click();
    await dialog.getByText('Nothing of the file was kept.').waitFor();
    const told = dialog.getByRole('table').getByRole('row');
    await told.filter({ hasText: 'row 3, column part' }).waitFor();
    await told.filter({ hasText: 'row 4, column counted' }).waitFor();
    expect(await told.count()).toBe(3);
    await clean(page);
    expect(await entries()).toEqual([]);

    // A browser tells only of another choice: the mended file has the same name, so the old choice is let go.
    const chooser = page.waitForEvent('filechooser');
    await file.click();
    expect(await file.inputValue()).toBe('');
    await (await chooser).setFiles(csv(`${shelf.code},H355-WA,7`, `${shelf.code},H355-CO,8`));
    await dialog.getByText('2 rows are read').waitFor();
  });

  test('mended it is checked, kept whole, and stands on the sheet', async () => {
    const { page } = clerk;
    const dialog = page.getByRole('dialog', { name: 'Key counts from a file' });
    expect(await dialog.getByRole('table').count()).toBe(0);
    await dialog.getByRole('button', { name: 'Check it' }).click();
    await dialog.getByText('2 rows are right: 2 new, 0 changed, 0 as they stand already.').waitFor();
    expect(await entries()).toEqual([]);
    await dialog.getByRole('button', { name: 'Keep it' }).click();
    await dialog.getByText('Kept: 2 new, 0 changed.').waitFor();
    await dialog.getByRole('button', { name: 'Close' }).click();
    await page.getByText('All counted. Hand it in.').waitFor();
    expect(await entries()).toEqual([7, 8]);
  });

  test('given up with a reason it tells who ended it and why, and no number of the books moved', async () => {
    const { page } = clerk;
    await button(page, 'Give this sheet up').click();
    const dialog = page.getByRole('dialog', { name: 'Give this sheet up' });
    const go = dialog.getByRole('button', { name: 'Give this sheet up' });
    expect(await go.isDisabled()).toBe(true);
    await dialog.getByLabel('Why').fill('the shelf is being moved');
    await go.click();
    await dialog.waitFor({ state: 'detached' });
    await page.getByText(/Bea Lindqvist: the shelf is being moved$/).waitFor();
    const lots = await shop.sql`select l.on_hand as "onHand" from stock_lot l join part p on p.id = l.part_id
      where p.number in ('H355-WA', 'H355-CO')`;
    expect(lots.map(({ onHand }) => onHand)).toEqual([8, 8]);
  });
});
