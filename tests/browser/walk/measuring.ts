import type { Page } from 'playwright-core';
import { button, chooseOf, press, seen } from './at-the-page.ts';

export type Round = 'as received' | 'after work' | 'as built';

/** How warm part and gauge are, said once. */
export async function sayTemperature(page: Page, degrees: string): Promise<void> {
  await button(page, /^Say how warm part and gauge are/).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Part, °C').fill(degrees);
  await press(button(dialog, 'Use these'));
}

/** Takes up a dimension from the list. */
export async function takeUp(page: Page, dimension: RegExp, round?: Round): Promise<void> {
  await button(page, /Choose another$/).click();
  const dialog = page.getByRole('dialog');
  if (round !== undefined) await chooseOf(dialog, 'Round', round);
  await button(dialog, dimension).first().click();
  await dialog.waitFor({ state: 'detached' });
}

/** Types figures in one go, parted by spaces, as they come from gauge or keyboard. */
export async function keyFigures(page: Page, figures: string): Promise<void> {
  const places = figures.split(' ').length;
  await page.keyboard.type(figures);
  if (places > 1) await seen(page, `Keep ${places} readings`);
  await page.keyboard.press('Enter');
  await seen(page.locator('.done-panel'), 'all readings together');
}

/** Taps the blade that goes and the one that does not, and keeps them. */
export async function keyBlades(page: Page, goes: string, doesNot: string): Promise<void> {
  await button(page, `blade ${goes}`).click();
  await button(page, `blade ${doesNot}`).click();
  await button(page, `Keep ${goes} goes, ${doesNot} does not`).click();
  await seen(page.locator('.done-panel'), 'all readings together');
}
