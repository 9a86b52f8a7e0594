import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addPart, demand } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let writer: AtTerminal;
let jobId = '';

beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
  writer = await dashboard.at('writer', { width: 1280, height: 1000 });
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

describe('a writer takes an engine in, promises, quotes and records the yes', { sequential: true }, () => {
  test('an empty form says at each field what is missing, and begins at the first', async () => {
    const { page } = writer;
    await page.goto('/counter');
    await button(page, 'Take it in').focus();
    await page.keyboard.press('Enter');
    for (const said of [
      'A serial has capitals, digits and dashes, and at least two of them.',
      'Choose the family: its spec sheet is bound to the job.',
      'Say whose engine it is.',
      'Say where it is put down.',
      'Say what is wrong with it.',
    ])
      await page.getByText(said).waitFor();
    await page.waitForFunction(() => document.activeElement?.matches('input.num'));
    const [{ count } = { count: -1 }] = await shop.sql<{ count: number }[]>`select count(*)::int as count from job`;
    expect(count).toBe(0);
  });

  test('typed by keyboard alone, the engine is taken in', async () => {
    const { page } = writer;
    await page.keyboard.type('h355-0431');
    await page.getByLabel('Family').selectOption({ label: 'Halden 355' });
    await page.getByLabel('Owner').focus();
    await page.keyboard.type('Ingrid Falk');
    await page.keyboard.press('Tab');
    await page.keyboard.type('calls after five');
    await page.keyboard.press('Tab');
    await page.keyboard.type('243,5');
    await page.getByLabel('Put down in').selectOption({ label: 'Rack, room for 40' });
    await page.getByLabel('Complaint').focus();
    await page.keyboard.type('Hard to start hot');
    await button(page, 'Take it in').press('Enter');
    await page.waitForURL(/\/counter\/[0-9a-f-]{36}$/);
    jobId = page.url().split('/').at(-1) ?? '';
    await page.getByRole('heading', { name: 'Halden 355 H355-0431' }).waitFor();
    await page.getByText('243.5 h').waitFor();
  });

  test('an engine that is in the shop cannot be taken in twice', async () => {
    const { page, context } = await dashboard.at('writer');
    await page.goto('/counter');
    await page.getByLabel('Serial').fill('H355-04');
    await button(page, 'Choose H355-0431').click();
    await page.getByText('It is in the shop already, in job').waitFor();
    await page.getByRole('link', { name: 'To that job' }).click();
    await page.waitForURL(new RegExp(jobId));
    await context.close();
  });

  test('a bay is planned and a day promised, so sure of five', async () => {
    const { page } = writer;
    await page.getByLabel('Goes next to').selectOption({ label: 'Bay 2, room for 1' });
    await button(page, 'Plan it').click();
    await page.getByText('Planned: Bay 2.').waitFor();
    await page.getByLabel('Ready on').fill(inDays(14));
    await page.getByRole('radio', { name: '4', exact: true }).focus();
    await page.keyboard.press('ArrowLeft');
    await page.getByLabel('What it hangs on').fill('if the rings come');
    await page.getByLabel('What it hangs on').press('Enter');
    await page.getByText(/sure 3 times of 5/).waitFor();
    await page.getByText('if the rings come').waitFor();
  });

  test('the draft holds what the job asks stores for; priced and summed it is sent', async () => {
    const { page } = writer;
    const rings = await addPart(shop.sql, { number: 'H355-R', name: 'Ring set', priceMinor: 4850 });
    await demand(shop, jobId, [[rings.id, 2]]);
    await button(page, 'Draft one from findings and demands').click();
    expect(await page.getByLabel('What, line 1').inputValue()).toBe('Ring set');
    const quote = page.locator('.quote-editor');
    await quote.getByRole('status').getByText('€97.00').waitFor();
    await button(page, 'Add a line').click();
    await page.getByLabel('What, line 2').fill('Hone and assemble, hours');
    await page.getByLabel('How many, line 2').fill('6');
    expect(await button(page, 'Send the quote').isDisabled()).toBe(true);
    await quote.getByText('1 line has no price yet. Price or remove it, then send.').waitFor();
    await page.getByLabel('Each, EUR, line 2').fill('72');
    await quote.getByRole('status').getByText('€529.00').waitFor();
    await button(page, 'Send the quote').press('Enter');
    await page.getByRole('heading', { name: /^Quote 1/ }).waitFor();
  });

  test('a yes to less needs a note; recorded, it says who, how and to what sum', async () => {
    const { page } = writer;
    const form = page.locator('.answer-form');
    expect(await form.getByLabel('To what sum, EUR').inputValue()).toBe('529.00');
    expect(await form.getByLabel('Who said it').inputValue()).toBe('Ingrid Falk');
    await form.getByLabel('To what sum, EUR').fill('480');
    await button(page, 'Record it').first().click();
    await form.getByText('The quote is for 529.00 EUR. Say in a note what is left out of it.').first().waitFor();
    await form.getByLabel('Note').fill('without the second ring set');
    await form.getByLabel('Note').press('Enter');
    await page.getByText('Ingrid Falk said yes to €480.00, by telephone.').waitFor();
    await page.getByText('€480.00', { exact: true }).waitFor();
  });
});

describe('two people change what the owner said', () => {
  test('the later one is told, sees both, and nothing is lost', async () => {
    const { page } = writer;
    await page.goto(`/counter/${jobId}`);
    await page.getByRole('button', { name: 'Change', exact: true }).click();
    await page.getByLabel('Wishes').fill('Keep the old piston for me');
    const { headers } = await shop.as.lead.get(`/api/jobs/${jobId}`);
    const { status } = await shop.as.lead.patch(
      `/api/jobs/${jobId}`,
      { wishes: 'Paint the cover red' },
      { 'if-match': String(headers.etag) },
    );
    expect(status).toBe(200);
    await button(page, 'Save').click();
    const conflict = page.getByRole('alert').filter({ hasText: 'Somebody changed this after you read it' });
    await conflict.getByText('Paint the cover red').waitFor();
    await conflict.getByText('Keep the old piston for me').waitFor();
    await conflict.getByRole('button', { name: 'Put mine in its place' }).click();
    await conflict.waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Change', exact: true }).waitFor();
    await page.getByRole('definition').getByText('Keep the old piston for me').waitFor();
    const [job] = await shop.sql`select wishes, version from job where id = ${jobId}`;
    expect(job).toEqual({ wishes: 'Keep the old piston for me', version: 3 });
  });
});

describe('handing back', () => {
  test('a writer sees every reason against it, each with the way to where it is settled, and cannot hand it back', async () => {
    const { page } = writer;
    await page.goto(`/counter/${jobId}`);
    const reasons = page.locator('.reasons');
    await reasons.getByText('No proof was passed since the engine was last closed.').waitFor();
    await reasons.getByText('2 × Ring set: asked of stores, neither issued nor called off.').waitFor();
    const ways = await reasons.getByRole('link').evaluateAll((links) => links.map((link) => link.getAttribute('href')));
    expect(ways).toContain('#proofs');
    expect(ways).toContain(`/stores#job-${jobId}`);
    expect(await button(page, 'Hand it back').isDisabled()).toBe(true);
  });

  test('a lead hands it back all the same, only with a reason; then it changes no more', async () => {
    const { page, context } = await dashboard.at('lead');
    await page.goto(`/counter/${jobId}`);
    const handOver = button(page, 'Hand it back all the same');
    await handOver.waitFor();
    expect(await handOver.isDisabled()).toBe(true);
    await page.getByLabel('Note for the owner').fill('Run in for two hours');
    await page.getByLabel('Reason for handing it back all the same').fill('the owner sells it as it is');
    await handOver.click();
    await page.getByText('This job was handed back. It changes no more.').waitFor();
    await page.getByRole('link', { name: 'Build sheet' }).click();
    await page.getByText('the owner sells it as it is').waitFor();
    await context.close();
  });
});

describe('who may see it, and on what', () => {
  test('a technician is told whose right it needs', async () => {
    const { page, context } = await dashboard.at('technician');
    await page.goto('/counter');
    await page.getByText('Not yours to see').waitFor();
    expect(await page.getByText('H355-0431').count()).toBe(0);
    await context.close();
  });

  test('nothing is cut off at 390, 1280 and 2560 px, and axe finds nothing', async () => {
    const other = await takeIn(shop, { serial: 'H355-0377' });
    for (const width of [390, 1280, 2560]) {
      const { page, context } = await dashboard.at('lead', { width, height: 5000 });
      for (const path of ['/counter', `/counter/${other.jobId}`]) {
        await page.goto(path);
        await page.getByText('H355-0377').first().waitFor();
        await page
          .getByText(/no quote yet|No quote was sent yet/)
          .first()
          .waitFor();
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
        expect(await violationsOn(page)).toEqual([]);
      }
      await context.close();
    }
  });

  test('the page complained of nothing but the two refusals it showed', () => {
    expect(writer.complaints.filter((text) => !/status of 4(12|22)/.test(text))).toEqual([]);
  });
});
