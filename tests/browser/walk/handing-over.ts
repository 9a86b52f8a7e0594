import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { button, choose, count, heading, link, press, seen } from './at-the-page.ts';
import { inTheTrays } from './stripping.ts';

/** Offers the engine and all its trays to somebody, who is to have it where it stands. */
export async function offer(page: Page, of: { serial: string; to: string; bay: RegExp }): Promise<void> {
  await link(page.getByRole('article', { name: new RegExp(of.serial) }), 'Hand over').click();
  await heading(page, 'What goes over').waitFor();
  await choose(page, of.to);
  await choose(page, of.bay);
  await page.getByLabel('What is loose, or not torqued').fill('Base studs, not torqued');
  await press(button(page, `Offer it to ${of.to}`));
  await heading(page, `Waiting for ${of.to}`).waitFor();
}

/** Counts every tray without a number to go by, one cylinder dowel fewer than was given, and accepts that. */
export async function countBlind(page: Page, offered: string): Promise<void> {
  await link(page.getByRole('region', { name: 'Offered to me' }).filter({ hasText: offered }), 'Count it now').click();
  await seen(page, 'Base studs, not torqued');
  const accept = button(page, /^Accept/);
  for (const [tray, pieces] of inTheTrays()) {
    expect(await accept.isDisabled()).toBe(true);
    const item = page.locator('.to-count').filter({ has: page.getByText(tray, { exact: true }) });
    if ((await button(item, 'Count this').count()) > 0) await button(item, 'Count this').click();
    for (const [name, number] of pieces) await count(item, name, name === 'Cylinder dowel' ? number - 1 : number);
    await press(button(item, /^My count: \d+ pieces?$/));
    await button(item, /^My count/).waitFor({ state: 'detached' });
  }
  await seen(page, /^1 × Cylinder dowel, .* fewer: 1 of 2\.$/);
  await button(page, /^Accept with a difference: 1 × Cylinder dowel/).click();
  await heading(page, 'Accepted with a difference').waitFor();
}
