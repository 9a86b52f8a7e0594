import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let serials = 700;
beforeAll(async () => {
  shop = await openShop();
  await insertInstruments(shop.sql, shop.people.lead);
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const inTime = { timeout: 20_000 } as const;
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { name }).waitFor();
const seen = (page: Page, text: string | RegExp) => page.getByText(text).first().waitFor();
const focused = (page: Page) => page.evaluate(() => document.activeElement?.textContent ?? '');

async function keyed(page: Page, ...keys: readonly string[]) {
  for (const key of keys) await (/^[A-Z]\w/.test(key) ? page.keyboard.press(key) : page.keyboard.type(key));
}

async function atBench(dimension: string, size?: { width: number; height: number }) {
  serials += 1;
  const { jobId } = await takeIn(shop, { serial: `H355-${serials}` });
  const terminal = await dashboard.at('technician', size);
  await terminal.page.goto(`/bench/${jobId}/measure?dimension=${dimension}`);
  await terminal.page.locator('.measure').waitFor();
  const textsOf = async () => {
    const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/bench`);
    const { readings } = body.dimensions.find(({ code }: { code: string }) => code === dimension);
    return readings.map(({ position, text, unit }: Record<string, string>) => `${position} ${text} ${unit}`);
  };
  return { ...terminal, jobId, textsOf };
}

describe('keys of the measuring bench', () => {
  test('arrow keys go through the places, Escape back to the first that is open', async () => {
    const { page, context } = await atBench('bore');
    await keyed(page, 'ArrowDown', 'ArrowDown');
    await heading(page, 'At B-across');
    await keyed(page, 'ArrowUp');
    await heading(page, 'At A-along');
    await keyed(page, '88.012', 'Enter');
    await heading(page, 'At A-across');
    await keyed(page, 'ArrowDown', 'Escape');
    await heading(page, 'At A-across');
    const asked = page.locator('.place.active');
    const lined = () => asked.evaluate((place) => getComputedStyle(place).boxShadow !== 'none');
    expect(await lined()).toBe(false);
    for (let presses = 0; presses < 20 && !(await asked.evaluate((place) => place.matches(':focus'))); presses += 1)
      await keyed(page, 'Tab');
    expect(await lined()).toBe(true);
    await context.close();
  });

  test('page keys go through the dimensions, the list by its name and Enter or by arrows', async () => {
    const { page, context } = await atBench('bore');
    await keyed(page, 'PageDown');
    await heading(page, 'Piston, size');
    await keyed(page, 'PageUp');
    await heading(page, 'At A-across');
    await keyed(page, 'F2');
    await page.getByRole('textbox', { name: 'Find' }).waitFor();
    await page.keyboard.type('end gap');
    await keyed(page, 'Enter');
    await heading(page, 'Ring end gap, top');
    await keyed(page, 'F2');
    await page.getByRole('textbox', { name: 'Find' }).waitFor();
    await page.keyboard.type('nothing such');
    await seen(page, 'Nothing on the sheet is called so.');
    await page.keyboard.press('Control+A');
    await keyed(page, 'Backspace', 'ArrowDown', 'ArrowDown', 'Enter');
    await heading(page, 'Piston, size');
    await context.close();
  });

  test('what was tapped or gone to before does not take the Enter of a figure, nor does a figure take its own', async () => {
    const { page, context, textsOf } = await atBench('bore');
    await keyed(page, '88.012', 'Enter');
    await page.getByRole('button', { name: 'Undo last' }).focus();
    await keyed(page, 'Enter');
    await heading(page, 'At A-across');
    await keyed(page, '88.013', 'Enter');
    await heading(page, 'At A-along');
    await keyed(page, '88.014');
    await page.getByRole('button', { name: 'Take it again' }).focus();
    await keyed(page, 'Enter');
    await seen(page, 'taken again, 2');
    await expect.poll(textsOf, inTime).toEqual(['A-across 88.013 mm', 'A-along 88.014 mm']);
    await context.close();
  });

  test('Ctrl Z clears what is typed, then takes back what was kept; keyed anew at once it finds its place free', async () => {
    const { page, context, textsOf, complaints } = await atBench('piston');
    await keyed(page, '87.9', 'Control+z');
    await expect.poll(() => page.locator('.figure-line output').textContent(), inTime).toBe('');
    await keyed(page, '87.95', 'Shift+Enter', 'Control+z', '87.96', 'Enter');
    await expect.poll(textsOf, inTime).toEqual(['1 87.96 mm']);
    await seen(page, 'Piston, size: 87.960 mm');
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('a figure with the inch mark is in inches', async () => {
    const { page, context, textsOf } = await atBench('piston');
    await keyed(page, '3.4630"', 'Enter');
    await expect.poll(textsOf, inTime).toEqual(['1 3.4630 in']);
    await context.close();
  });

  test('blades as they are typed show their verdict; a dash says none, and three in a row are not kept', async () => {
    const { page, context, textsOf } = await atBench('ring-gap-top');
    await keyed(page, '0.30 0.35');
    await page.getByText('within standard', { exact: true }).waitFor();
    expect(await textsOf()).toEqual([]);
    await keyed(page, ' 0.40', 'Enter');
    await seen(page, 'Two to a place');
    await keyed(page, 'Escape', '- 0.05', 'Enter');
    await expect.poll(textsOf, inTime).toHaveLength(1);
    await seen(page, 'Ring end gap, top: between 0');
    await context.close();
  });

  test('play felt is 1, none is 0, kept by Enter', async () => {
    const { page, context, textsOf } = await atBench('big-end-play');
    await keyed(page, '1');
    await page.getByRole('button', { name: 'Play felt', pressed: true, exact: true }).waitFor();
    await keyed(page, '0', 'Enter');
    await expect.poll(textsOf, inTime).toEqual([expect.stringContaining('none')]);
    await seen(page, 'no play felt');
    await context.close();
  });

  test('a sheet opened by its key is left with what was typed, and the focus is where it was', async () => {
    const { page, context } = await atBench('bore');
    await keyed(page, 'F8', '24.5', 'Enter');
    await seen(page, '24.5 °C');
    await keyed(page, 'F8', '22', 'Enter');
    await page.getByRole('button', { name: /22 °C$/ }).waitFor();
    await keyed(page, 'F4');
    await page.getByRole('radio', { name: /BG-2/, checked: true }).waitFor();
    await keyed(page, 'ArrowDown', 'Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await page.locator('.gauge-note').filter({ hasNotText: 'BG-2' }).waitFor();
    await keyed(page, '88.012');
    expect(await page.locator('.figure-line output').textContent()).toBe('88.012');
    await context.close();
  });

  test('the budget opens by F9; Tab goes to what is asked about a reading', async () => {
    const { page, context } = await atBench('piston');
    await keyed(page, '87.95');
    await page.locator('.budget-key').waitFor();
    await keyed(page, 'F9');
    await heading(page, 'How sure the figure is');
    await keyed(page, 'Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await keyed(page, 'Control+z', '3.46');
    await page.getByRole('button', { name: 'Send as 3.46 in' }).waitFor();
    await keyed(page, 'Tab');
    expect(await focused(page)).toBe('Send as 3.46 in');
    await context.close();
  });

  test.each([
    [390, 844],
    [1280, 800],
  ])(
    '%i × %i: the keys are named where there is room, nothing is cut off, axe finds no fault',
    async (width, height) => {
      const { page, context } = await atBench('ring-gap-top', { width, height });
      await keyed(page, '0.55 0.60');
      await page.locator('.verdict-panel .verdict').waitFor();
      expect(await page.getByRole('region', { name: 'By keyboard' }).count()).toBe(width === 390 ? 0 : 1);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        expect(await violationsOn(page)).toEqual([]);
      }
      await keyed(page, 'F2');
      await page.getByRole('dialog').waitFor();
      expect(await violationsOn(page, '.dialog-sheet')).toEqual([]);
      await context.close();
    },
  );
});
