import type { Locator, Page } from 'playwright-core';
import { button, choose, chooseOf, count, press } from './at-the-page.ts';

/** Sends the cylinder's tray to a vendor, counted as it leaves. */
export async function sendOut(held: Locator, of: { vendor: string; dueOn: string }): Promise<void> {
  await button(held, 'Send out').click();
  const dialog = held.page().getByRole('dialog');
  await chooseOf(dialog, 'What', /Cylinder/);
  await chooseOf(dialog, 'To which vendor', of.vendor);
  await dialog.getByLabel('What they do to it').fill('Replate the bore to 88.000 +0.012 mm');
  await dialog.getByLabel('Due back').fill(of.dueOn);
  await count(dialog, 'Cylinder', 1);
  await press(button(dialog, 'Send it out: 1 piece counted'));
  await dialog.waitFor({ state: 'detached' });
}

/** Takes it in again, counted, and puts it down on the rack. */
export async function takeIn(page: Page, of: { serial: string; vendor: string }): Promise<void> {
  await button(page, `It is back: Halden 355 ${of.serial}, from ${of.vendor}`).click();
  const dialog = page.getByRole('dialog');
  await choose(dialog, /^Rack/);
  await count(dialog, 'Cylinder', 1);
  await press(button(dialog, 'Take it in: 1 piece counted'));
  await dialog.waitFor({ state: 'detached' });
}
