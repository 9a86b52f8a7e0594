import type { Locator, Page } from 'playwright-core';

/** A page, or a part of one. */
export type Place = Page | Locator;

export const button = (at: Place, name: string | RegExp) => at.getByRole('button', { name, exact: true });
export const heading = (at: Place, name: string | RegExp) => at.getByRole('heading', { name, exact: true });
export const link = (at: Place, name: string | RegExp) => at.getByRole('link', { name, exact: true });

/** Whether words stand there soon. */
export const seen = (at: Place, words: string | RegExp) => at.getByText(words).first().waitFor();

/** Taps one of a few, by the words on it. */
export const choose = (at: Place, words: string | RegExp) =>
  at.locator('label').filter({ hasText: words }).first().click();

/** Taps one of the choices under a heading. */
export const chooseOf = (at: Place, label: string | RegExp, words: string | RegExp) =>
  choose(at.getByRole('radiogroup', { name: label }), words);

/** Goes to a control by keyboard and presses it, once it can be pressed. */
export async function press(control: Locator): Promise<void> {
  await control.click({ trial: true });
  await control.focus();
  await control.press('Enter');
}

/** Marks the step on the page as done; nobody here has a camera, which a step with a photo point wants to be told. */
export async function stepDone(page: Page): Promise<void> {
  const asksForPhoto = (await page.getByRole('region', { name: 'Photograph', exact: true }).count()) > 0;
  if (!asksForPhoto) return press(button(page, 'Step done'));
  await press(button(page, 'Done without a photo'));
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Why there is no photo').fill('No camera at this bench');
  await press(button(dialog, 'Step done'));
  await dialog.waitFor({ state: 'detached' });
}

/** Chooses from a list by the beginning of what it says. */
export async function select(at: Place, label: string, option: RegExp): Promise<void> {
  const box = at.getByRole('combobox', { name: label, exact: true });
  const value = await box.locator('option').filter({ hasText: option }).first().getAttribute('value');
  await box.selectOption(value ?? '');
}

/** Types a count between its two keys; where the piece sits may stand behind its name. */
export async function count(at: Place, piece: string, number: number): Promise<void> {
  const box = at.getByRole('textbox', { name: new RegExp(`^How many: ${piece}(,|$)`) });
  await box.fill(String(number));
  await box.press('Tab');
}

/** Goes to a view by the index at the head of the page; what is looked up seldom is behind a button there. */
export async function goTo(page: Page, view: string): Promise<void> {
  const index = page.getByRole('banner').getByRole('navigation');
  const atHand = index.getByRole('link', { name: view });
  await index.getByRole('link').first().waitFor();
  if ((await atHand.count()) > 0) return atHand.click();
  await index.getByRole('button').click();
  await page.getByRole('dialog', { name: 'More' }).getByRole('link', { name: view }).click();
}
