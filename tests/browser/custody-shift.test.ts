import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { type InHandWithDowels, inHandWithDowels } from '../support/in-hand.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
async function expectNoFaults(page: Page) {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await violationsOn(page)).toEqual([]);
  }
}
async function type(page: Page, piece: string, count: number) {
  await page.getByRole('textbox', { name: `How many: ${piece}` }).fill(String(count));
  await page.keyboard.press('Tab');
}

/** One change back; the page has read it when this is done. */
async function aChangeEarlier(page: Page) {
  const answered = page.waitForResponse((reply) => reply.url().includes('/api/custody?'));
  await button(page, 'The change before').click();
  await answered;
  await page.evaluate(() => new Promise((shown) => requestAnimationFrame(() => setTimeout(shown, 50))));
}

async function offered(of: InHandWithDowels): Promise<string> {
  const { body } = await shop.as.technician.post(`/api/jobs/${of.jobId}/handovers`, {
    receiverId: shop.people.colleague,
    placeId: shop.bays.rack,
    includeEngine: true,
    trayIds: [of.trayId],
    looseWords: 'Base studs, not torqued',
  });
  return body.id;
}

describe('the end of a shift', () => {
  test('an offer overdue is shown; the giver has gone, so the lead moves it with a reason and a count, and signs', async () => {
    const of = await inHandWithDowels(shop);
    const handoverId = await offered(of);
    const { page, context } = await dashboard.at('lead');
    await page.goto('/shop');
    const limit = page.getByRole('region', { name: 'Handovers' });
    await limit.getByText('answered within').waitFor();
    await limit.getByRole('button', { name: 'Change' }).click();
    const minutes = page.getByLabel('Answered within, minutes');
    await minutes.fill('4');
    await button(page, 'Keep').click();
    await page
      .getByText(/at least 5|5 or more|>=5|too small/i)
      .first()
      .waitFor();
    await minutes.fill('5');
    await button(page, 'Keep').click();
    await limit.getByText('answered within 5 minutes').waitFor();
    await expectNoFaults(page);

    await shop.sql`alter table handover disable trigger user`;
    await shop.sql`update handover set offered_at = offered_at - interval '6 minutes' where id = ${handoverId}`;
    await shop.sql`alter table handover enable trigger user`;
    await page.goto('/shift-end');
    await page.getByText('Nothing. Every engine and tray has exactly one holder.').waitFor();
    await page.getByRole('region', { name: 'Offers without an answer' }).getByText('overdue').waitFor();
    await expectNoFaults(page);

    await button(page, `Move it: Halden 355 ${of.serial}, held by Nadia Quill`).click();
    const dialog = page.getByRole('dialog');
    expect(await dialog.getByText('8').count()).toBe(0);
    await dialog.getByLabel('Why, in the place of who holds it').fill('Nadia has gone home ill');
    await dialog.locator('label').filter({ hasText: 'Rack' }).click();
    await type(page, 'dowel', 7);
    await button(page, 'Move it: 7 pieces counted').click();
    await dialog.getByRole('heading', { name: 'Your count differs' }).waitFor();
    await type(page, 'dowel', 8);
    await expectNoFaults(page);
    await button(page, 'Move it: 8 pieces counted').click();
    await dialog.waitFor({ state: 'detached' });
    await page.getByText('Nobody holds anything.').waitFor();
    const ended = await shop.as.technician.get(`/api/handovers/${handoverId}`);
    expect(ended.body).toMatchObject({
      outcome: 'withdrawn',
      endedReason: 'moved by the lead: Nadia has gone home ill',
    });

    await page.getByLabel('Note').fill('The engine stands open in the rack, covered next');
    await button(page, 'Sign the end of this shift').click();
    await page
      .getByText(/Signed by Maren Tolk/)
      .first()
      .waitFor();
    await context.close();
  });

  test('who held what is asked of a moment in the past', async () => {
    const of = await inHandWithDowels(shop);
    await shop.as.technician.post(`/api/engines/${of.engineId}/leave`, { bayId: shop.bays.rack, trayIds: [] });
    await shop.as.colleague.post(`/api/engines/${of.engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const { page, context } = await dashboard.at('writer');
    await page.goto('/custody');
    await page.getByRole('combobox', { name: 'Of what' }).selectOption(of.engineId);
    const row = page.getByRole('table').first().getByRole('row').filter({ hasText: of.serial }).first();
    await row.getByRole('cell', { name: 'Oskar Pell in hand' }).waitFor();
    await aChangeEarlier(page);
    await aChangeEarlier(page);
    await row.getByRole('cell', { name: 'Rack at rest' }).waitFor();
    await aChangeEarlier(page);
    await row.getByRole('cell', { name: 'Nadia Quill in hand' }).waitFor();
    await expectNoFaults(page);
    await context.close();
  });
});

describe('on paper', () => {
  test('a handover has its sheet, without the giver’s numbers until they are counted', async () => {
    const of = await inHandWithDowels(shop);
    const id = await offered(of);
    const { page, context } = await dashboard.at('technician');
    await page.goto(`/handovers/${id}`);
    await page.getByRole('link', { name: 'On paper' }).click();
    const sheet = page.getByRole('article');
    await sheet.getByRole('heading', { name: /^Handover, job/ }).waitFor();
    await sheet.getByText('Base studs, not torqued').waitFor();
    await sheet.getByText('Oskar Pell: date, signature').waitFor();
    const dowels = sheet.getByRole('row').filter({ hasText: 'dowel' });
    expect(await dowels.getByText('8', { exact: true }).count()).toBe(0);
    await expectNoFaults(page);
    const read = await shop.as.colleague.get(`/api/handovers/${id}`);
    const { trayId, lines } = read.body.trays[0];
    const counted = { lines: [{ lineId: lines[0].lineId, counted: 8 }] };
    await shop.as.colleague.post(`/api/handovers/${id}/trays/${trayId}/count`, counted);
    await dowels.getByText('8', { exact: true }).first().waitFor();
    const pages = (await page.pdf({ format: 'A4', preferCSSPageSize: true })).toString('latin1');
    expect(pages.match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    await context.close();
  });

  test('a tray goes to a vendor with its slip and the day it is due, and comes back counted', async () => {
    const of = await inHandWithDowels(shop);
    const { page, context } = await dashboard.at('technician');
    await page.goto('/bench');
    await page
      .getByRole('article', { name: new RegExp(of.serial) })
      .getByRole('button', { name: 'Send out' })
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.locator('label').filter({ hasText: of.label }).click();
    await dialog.locator('label').filter({ hasText: 'Saltmere Plating' }).click();
    await dialog.getByLabel('What they do to it').fill('Replate the dowels');
    await dialog.locator('input[type=date]').fill('2030-03-14');
    await type(page, 'dowel', 8);
    await page.keyboard.press('Enter');
    await dialog.waitFor({ state: 'detached' });
    await page.getByRole('link', { name: 'Packing slip' }).click();
    await page.getByRole('heading', { name: /^Packing slip/ }).waitFor();
    await page.getByText(/14 Mar(ch)? 2030/).waitFor();
    await page.getByText('not back yet').waitFor();
    await expectNoFaults(page);

    await page.goto('/bench');
    await button(page, new RegExp(`${of.serial}.*Saltmere Plating`)).click();
    await page.getByRole('dialog').locator('label').filter({ hasText: 'Rack' }).click();
    await type(page, 'dowel', 8);
    await page
      .getByRole('dialog')
      .getByRole('button', { name: /8 pieces/ })
      .click();
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    const slips = await shop.sql`select back_at is not null as back from outside_work where job_id = ${of.jobId}`;
    expect(slips).toEqual([{ back: true }]);
    await context.close();
  });
});
