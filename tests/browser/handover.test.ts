import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { type InHandWithDowels, inHandWithDowels } from '../support/in-hand.ts';
import { openShop, type Shop } from '../support/shop.ts';

/** The giver's count: a number that stands in no id, instant, label or file name by chance. */
const GIVEN = 8731;

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

async function offered(of: InHandWithDowels) {
  const { body } = await shop.as.technician.post(`/api/jobs/${of.jobId}/handovers`, {
    receiverId: shop.people.colleague,
    placeId: shop.bays.rack,
    includeEngine: true,
    trayIds: [of.trayId],
    looseWords: 'Base studs, not torqued',
  });
  return body.id as string;
}

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { name, exact: true });
const dowels = (page: Page) => page.getByRole('textbox', { name: 'How many: dowel' });

async function type(page: Page, count: number) {
  await dowels(page).fill(String(count));
  await page.keyboard.press('Tab');
}
/** Figures as they could be read: without ids, instants and file names, in which any digits may stand by chance. */
const readable = (text: string) =>
  text
    .replaceAll(/[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, '')
    .replaceAll(/\d{4}-\d\d-\d\dT[\d:.]+(?:Z|[+-]\d\d:?\d\d)/g, '')
    .replaceAll(/\/assets\/[^"]+/g, '')
    .replaceAll(/[\s,.\u00a0\u202f]/g, '');

async function obligationsOf({ jobId }: InHandWithDowels) {
  const rows = await shop.sql<{ words: string }[]>`select words from obligation where job_id = ${jobId}`;
  return rows.map(({ words }) => words);
}

describe('handing over', () => {
  test('offered, counted blind, accepted with a difference: the giver sees each of it happen', async () => {
    const of = await inHandWithDowels(shop, GIVEN);
    const nadia = await dashboard.at('technician');
    const oskar = await dashboard.at('colleague');
    const replies: Promise<string>[] = [];
    oskar.page.on('response', (reply) => {
      if (reply.url().includes('/api/') && !reply.url().includes('/live')) replies.push(reply.text().catch(() => ''));
    });
    await oskar.page.goto('/bench');
    await heading(oskar.page, 'My bench').waitFor();

    await nadia.page.goto(`/bench/${of.jobId}/offer`);
    expect(await button(nadia.page, 'Offer it').isDisabled()).toBe(true);
    await nadia.page.getByRole('radio', { name: 'Oskar Pell' }).focus();
    await nadia.page.keyboard.press('Space');
    await nadia.page.locator('label').filter({ hasText: 'Bay 2' }).click();
    await nadia.page.getByLabel('What is loose, or not torqued').fill('Base studs, not torqued');
    await nadia.page.keyboard.press('Tab');
    await nadia.page.keyboard.press('Enter');
    await heading(nadia.page, 'Waiting for Oskar Pell').waitFor();
    await nadia.page.getByText('Cover off, not covered').waitFor();

    const offer = oskar.page.getByRole('region', { name: 'Offered to me' });
    await offer.getByText(of.serial).waitFor();
    await offer.getByRole('link', { name: 'Count it now' }).click();
    await dowels(oskar.page).waitFor();
    await oskar.page.getByText('Base studs, not torqued').waitFor();
    const before = readable([await oskar.page.content(), ...(await Promise.all(replies))].join(''));
    expect(before).toContain(of.serial);
    expect(before).not.toContain(String(GIVEN));

    expect(await button(oskar.page, 'Accept').isDisabled()).toBe(true);
    await type(oskar.page, GIVEN - 1);
    await oskar.page.keyboard.press('Shift+Tab');
    await button(oskar.page, `My count: ${GIVEN - 1} pieces`).focus();
    await oskar.page.keyboard.press('Enter');
    await oskar.page.getByText(`1 × dowel fewer: ${GIVEN - 1} of ${GIVEN}.`).waitFor();
    await nadia.page
      .getByRole('row', { name: /^dowel/ })
      .getByText(/^8.?730$/)
      .waitFor();

    await button(oskar.page, 'Count again').click();
    await button(oskar.page, `My count: ${GIVEN - 1} pieces`).click();
    await oskar.page.getByText('You may count 1 more time.').waitFor();
    await button(oskar.page, 'Accept with a difference: 1 × dowel').click();
    await heading(oskar.page, 'Accepted with a difference').waitFor();
    await oskar.page.getByText('You hold it now, in Bay 2.').waitFor();
    await heading(nadia.page, 'Accepted with a difference').waitFor();
    await nadia.page.getByText('Oskar Pell holds it now, in Bay 2.').waitFor();

    expect(await obligationsOf(of)).toEqual([expect.stringContaining(`${GIVEN - 1} × dowel counted, ${GIVEN} given`)]);
    expect([...nadia.complaints, ...oskar.complaints]).toEqual([]);
    await nadia.context.close();
    await oskar.context.close();
  });

  test('a first count that differs stays open, though the second agrees and it is accepted', async () => {
    const of = await inHandWithDowels(shop);
    const id = await offered(of);
    const nadia = await dashboard.at('technician');
    const { page, context } = await dashboard.at('colleague');
    await nadia.page.goto(`/handovers/${id}`);
    await page.goto(`/handovers/${id}`);
    await type(page, 7);
    await button(page, 'My count: 7 pieces').click();
    await page.getByText('Each difference is an obligation now').waitFor();
    await button(page, 'Count again').click();
    await type(page, 8);
    await button(page, 'My count: 8 pieces').click();
    const stays = 'An earlier count differed. That stays open until a lead settles it.';
    await page.getByText(stays).waitFor();
    await nadia.page.getByText(stays).waitFor();
    await button(page, 'Accept').click();
    await heading(page, 'Accepted').waitFor();
    await page.getByRole('link', { name: 'The engine’s page' }).click();
    await page.getByText('7 × dowel counted, 8 given; counted again: 8, as given').first().waitFor();
    await nadia.context.close();
    await context.close();
  });

  test('a second accept is answered in words and changes nothing', async () => {
    const of = await inHandWithDowels(shop);
    const id = await offered(of);
    const first = await dashboard.at('colleague');
    await first.page.goto(`/handovers/${id}`);
    await type(first.page, 8);
    await button(first.page, 'My count: 8 pieces').click();
    await first.page.getByText('8 counted, 8 given').waitFor();
    const second = await dashboard.at('colleague');
    // A terminal that hears of nothing: it still shows the offer.
    await second.page.route('**/api/live', (route) => route.abort());
    await second.page.goto(`/handovers/${id}`);
    await second.page.getByText('8 counted, 8 given').waitFor();
    await button(first.page, 'Accept').click();
    await heading(first.page, 'Accepted').waitFor();
    await button(second.page, 'Accept').click();
    await second.page.getByRole('alert').filter({ hasText: 'was answered already' }).waitFor();
    expect(await obligationsOf(of)).toEqual([]);
    await first.context.close();
    await second.context.close();
  });

  test('an accept whose answer was lost on the way is pressed again and answered as it was done the first time', async () => {
    const of = await inHandWithDowels(shop);
    const id = await offered(of);
    const { page, context } = await dashboard.at('colleague');
    // Nor does it hear by the line that it was done.
    await page.route('**/api/live', (route) => route.abort());
    await page.goto(`/handovers/${id}`);
    await type(page, 8);
    await button(page, 'My count: 8 pieces').click();
    await page.getByText('8 counted, 8 given').waitFor();
    const accept = '**/api/handovers/*/accept';
    await page.route(accept, async (route) => {
      await route.fetch();
      await route.abort();
    });
    const press = () => button(page, 'Accept').click();
    await press();
    await page.getByRole('alert').filter({ hasText: 'The server does not answer' }).waitFor();
    await page.unroute(accept);
    await press();
    await heading(page, 'Accepted').waitFor();
    expect(await obligationsOf(of)).toEqual([]);
    await context.close();
  });

  test('declined with a reason, it stays with the giver, who reads why; withdrawn, the receiver reads that', async () => {
    const of = await inHandWithDowels(shop);
    const id = await offered(of);
    const nadia = await dashboard.at('technician');
    const oskar = await dashboard.at('colleague', { width: 390, height: 844 });
    await nadia.page.goto(`/handovers/${id}`);
    await oskar.page.goto(`/handovers/${id}`);
    await button(oskar.page, 'Decline').click();
    await oskar.page.getByLabel('Why').fill('Still oily, not washed');
    await oskar.page.keyboard.press('Enter');
    await nadia.page.getByText('Because: Still oily, not washed').waitFor();
    await nadia.page.getByText('You still hold it.').waitFor();

    const again = await offered(of);
    await oskar.page.goto(`/handovers/${again}`);
    await dowels(oskar.page).waitFor();
    await nadia.page.goto('/bench');
    await nadia.page.getByRole('region', { name: 'Offered by me' }).getByRole('button', { name: 'Withdraw' }).click();
    await heading(oskar.page, 'Withdrawn').waitFor();
    await oskar.page.getByText('Nadia Quill still holds it.').waitFor();
    await nadia.context.close();
    await oskar.context.close();
  });

  test('a count that could not be sent stays on the screen, also when the page is read anew', async () => {
    const of = await inHandWithDowels(shop);
    const id = await offered(of);
    const { page, context } = await dashboard.at('colleague');
    await page.goto(`/handovers/${id}`);
    await type(page, 8);
    await page.route('**/count', (route) => route.abort('connectionfailed'));
    await button(page, 'My count: 8 pieces').click();
    await page.getByRole('alert').filter({ hasText: 'The server does not answer' }).waitFor();
    expect(await dowels(page).inputValue()).toBe('8');
    await page.unroute('**/count');
    await page.reload();
    await dowels(page).waitFor();
    expect(await dowels(page).inputValue()).toBe('8');
    await button(page, 'My count: 8 pieces').click();
    await page.getByText('8 counted, 8 given').waitFor();
    await context.close();
  });

  test('a line nobody counted is no count of none: it stands blank, and the count waits for it', async () => {
    const of = await inHandWithDowels(shop);
    await shop.as.technician.post(`/api/openings/${of.openingId}/pieces/off`, {
      pieces: [{ byHand: { name: 'washer' }, count: 3 }],
      trayId: of.trayId,
    });
    const id = await offered(of);
    const { page, context } = await dashboard.at('colleague', { width: 390, height: 844 });
    const washers = page.getByRole('textbox', { name: 'How many: washer' });
    const counted = async () =>
      (
        await shop.sql`select 1 from handover_count where line_id in
        (select id from handover_line where handover_id = ${id})`
      ).length;
    await page.goto(`/handovers/${id}`);
    await page.getByText('2 kinds of pieces are not counted yet.').waitFor();
    await type(page, 8);
    await button(page, 'My count: 8 pieces').click();
    await page.locator('.hot', { hasText: '1 kind of piece is not counted yet.' }).waitFor();
    expect(await washers.evaluate((box) => box === document.activeElement)).toBe(true);
    expect(await counted()).toBe(0);
    await page.keyboard.press('ArrowDown');
    expect(await washers.inputValue()).toBe('0');
    await button(page, 'My count: 8 pieces').click();
    await page.getByText('3 × washer fewer: 0 of 3.').waitFor();
    await context.close();
  });

  test('the pages are without fault by the accessibility rules, by day and by night', async () => {
    const of = await inHandWithDowels(shop);
    const { page, context } = await dashboard.at('technician', { width: 390, height: 2600 });
    await page.goto(`/bench/${of.jobId}/offer`);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await button(page, 'Offer it').waitFor();
      expect(await violationsOn(page)).toEqual([]);
    }
    const id = await offered(of);
    const oskar = await dashboard.at('colleague');
    await page.goto(`/handovers/${id}`);
    await heading(page, 'Waiting for Oskar Pell').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await oskar.context.close();
    await context.close();
  });
});

describe('a bay between two people', () => {
  test('left counted, taken by another who counts again: a difference is named and becomes an obligation', async () => {
    const of = await inHandWithDowels(shop);
    const nadia = await dashboard.at('technician');
    await nadia.page.goto('/bench');
    const card = nadia.page.getByRole('article', { name: new RegExp(of.serial) });
    await card.getByRole('button', { name: 'Leave in a bay' }).click();
    await nadia.page.getByRole('dialog').locator('label').filter({ hasText: 'Rack' }).click();
    await type(nadia.page, 8);
    await button(nadia.page, 'Leave it: 8 pieces counted').click();
    await card.waitFor({ state: 'detached' });

    const oskar = await dashboard.at('colleague');
    await oskar.page.goto('/bench');
    await button(oskar.page, `Take it: Halden 355 ${of.serial}`).click();
    await type(oskar.page, 7);
    await button(oskar.page, 'Take it: 7 pieces counted').click();
    await oskar.page.getByText(/7 × dowel counted, 8 on the tally/).waitFor();
    await oskar.page.getByText('a lead settles the difference, whatever is counted next').waitFor();
    expect(await obligationsOf(of)).toHaveLength(1);
    await button(oskar.page, 'Go on with the difference').click();
    await oskar.page.getByRole('article', { name: new RegExp(of.serial) }).waitFor();
    expect(await obligationsOf(of)).toHaveLength(1);
    expect([...nadia.complaints, ...oskar.complaints.filter((said) => !said.includes('409'))]).toEqual([]);
    await nadia.context.close();
    await oskar.context.close();
  });
});
