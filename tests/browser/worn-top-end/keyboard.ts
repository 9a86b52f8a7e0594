import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Line } from './worksheet.ts';

/** How a technician goes from one dimension to the next. */
export type GoingOn = 'Enter' | 'PageDown' | 'list';

/** The dimension that is asked for. */
const question = (page: Page, name: string) => page.getByRole('region', { name, exact: true });

const focused = (page: Page) => page.evaluate(() => document.activeElement?.textContent ?? '');
const chosenGauge = (page: Page) =>
  page.evaluate(() => document.querySelector('[role="dialog"] input:checked')?.closest('label')?.textContent ?? '');

async function keyed(page: Page, ...keys: readonly string[]) {
  for (const key of keys) await page.keyboard.press(key);
}

/** Opens a sheet by its key and leaves it again, having done what is done there. */
async function inSheet(page: Page, key: string, does: () => Promise<void>) {
  await keyed(page, key);
  const dialog = page.getByRole('dialog');
  await dialog.waitFor();
  await does();
  await dialog.waitFor({ state: 'detached' });
}

/** Goes on with Tab until what has the focus says so. */
async function tabTo(page: Page, words: string) {
  for (let presses = 0; presses < 30; presses += 1) {
    if ((await focused(page)).startsWith(words)) return;
    await keyed(page, 'Tab');
  }
  throw new Error(`Tab never came to ${words}`);
}

async function takeGauge(page: Page, code: string) {
  await inSheet(page, 'F4', async () => {
    for (let presses = 0; !(await chosenGauge(page)).includes(code); presses += 1) {
      if (presses > 30) throw new Error(`the arrow keys never came to ${code}`);
      await keyed(page, 'ArrowDown');
    }
    await keyed(page, 'Enter');
  });
  await page.locator('.gauge-note').filter({ hasText: code }).waitFor();
}

async function sayTemperature(page: Page, degrees: string | undefined) {
  await inSheet(page, 'F8', async () => {
    if (degrees === undefined) await tabTo(page, 'Not known');
    else await page.keyboard.type(degrees);
    await keyed(page, 'Enter');
  });
}

/** What hands do: see worksheet.ts. */
async function step(page: Page, does: string) {
  const [first = '', ...rest] = does.split(' ');
  switch (rest.join(' ')) {
    case 'again':
      await page.keyboard.type(first);
      await keyed(page, 'Shift+Enter');
      await page.getByText('taken again, 2').first().waitFor();
      return;
    case 'as in':
      await page.keyboard.type(first);
      await page.getByRole('button', { name: `Send as ${first} in` }).waitFor();
      await keyed(page, 'Tab');
      expect(await focused(page)).toBe(`Send as ${first} in`);
      await keyed(page, 'Enter');
      return;
    case 'kept, as in':
      await page.keyboard.type(first);
      await keyed(page, 'Enter');
      await page.locator('.mend').filter({ hasText: first }).waitFor();
      await keyed(page, 'Tab');
      expect(await focused(page)).toBe(`Send as ${first} in`);
      await keyed(page, 'Enter');
      await page.locator('.mend').waitFor({ state: 'detached' });
      return;
  }
  if (does === 'undo') await keyed(page, 'Control+z');
  else if (does === 'no temperature') await sayTemperature(page, undefined);
  else if (first === 'temperature') await sayTemperature(page, rest[0]);
  else if (first === 'gauge') await takeGauge(page, rest[0] ?? '');
  else {
    await page.keyboard.type(does);
    await keyed(page, 'Enter');
  }
}

/** Comes to a dimension from the one before. */
export async function goTo(page: Page, line: Line, how: GoingOn) {
  if (how === 'list') {
    await inSheet(page, 'F2', async () => {
      await page.keyboard.type(line.name);
      await keyed(page, 'Enter');
    });
  } else await keyed(page, how);
  await question(page, line.name).waitFor();
}

/** Measures a dimension whose question is open, and waits for what was worked out on paper. */
export async function measure(page: Page, line: Line) {
  const here = question(page, line.name);
  await here.waitFor();
  for (const does of line.steps) await step(page, does);
  await here.locator('.done-panel .verdict-panel').getByText(`${line.name}: ${line.found}, `).waitFor();
}

/** What the panel says when all is read: verdict and u of the dimension, sentence and u of those worked out of it. */
export async function shownFor(page: Page, line: Line) {
  const panel = question(page, line.name).locator('.done-panel');
  const uOf = async (at: typeof panel) => {
    const key = at.locator('.budget-key .num');
    return (await key.count()) === 0 ? 'none' : ((await key.first().textContent()) ?? '');
  };
  return {
    verdict: await panel.locator('.verdict-panel .verdict-words b').textContent(),
    u: await uOf(panel.locator('.verdict-panel')),
    workedOut: async (other: Line) => {
      const row = panel.locator('.derived').filter({ hasText: `${other.name}: ${other.found}, ` });
      await row.waitFor();
      return uOf(row);
    },
  };
}

/** Every dimension of the sheet with its verdict, as the list tells them. */
export async function verdictsListed(page: Page): Promise<Readonly<Record<string, string>>> {
  let listed: Readonly<Record<string, string>> = {};
  await inSheet(page, 'F2', async () => {
    const rows = await page
      .locator('.dimension-row')
      .evaluateAll((all) =>
        all.map((row) => [
          row.querySelector('.row-name')?.textContent ?? '',
          row.querySelector('.row-verdict')?.textContent ?? '',
        ]),
      );
    listed = Object.fromEntries(rows);
    await keyed(page, 'Escape');
  });
  return listed;
}

/** The budget, opened and closed by its key, as text. */
export async function budgetShown(page: Page): Promise<string> {
  let shown = '';
  await inSheet(page, 'F9', async () => {
    shown = (await page.getByRole('dialog').textContent()) ?? '';
    await keyed(page, 'Escape');
  });
  return shown;
}
