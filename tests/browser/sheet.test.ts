import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { boreOf, insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let lead: AtTerminal;
let jobId: string;

const worn = ['88.062', '88.058', '88.055', '88.051', '88.050', '88.049'];
const honed = ['88.006', '88.004', '88.007', '88.005', '88.008', '88.006'];

beforeAll(async () => {
  shop = await openShop();
  await insertInstruments(shop.sql, shop.people.lead);
  jobId = (await takeIn(shop, { serial: 'H355-0402', owner: 'Sanne Brouwer' })).jobId;
  for (const [round, figures] of [
    ['as received', worn],
    ['as built', honed],
  ] as const) {
    const { status, body } = await shop.as.technician.post(`/api/jobs/${jobId}/readings`, {
      round,
      dimension: 'bore',
      readings: boreOf(figures),
    });
    expect(status, JSON.stringify(body)).toBe(201);
  }
  dashboard = await openDashboard(shop);
  lead = await dashboard.at('lead', { width: 1280, height: 1000 });
  await lead.page.goto(`/sheets/${jobId}`);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

/** How many sheets of paper a PDF has. */
const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page[^s]/g)?.length ?? 0;

describe('the build sheet', () => {
  test('names engine, owner, job and what is invented, and says that the job is not done', async () => {
    const { page } = lead;
    await page.getByRole('heading', { name: 'Build sheet' }).waitFor();
    await page.getByText('Halden 355, serial H355-0402').waitFor();
    await page.getByText('Sanne Brouwer').waitFor();
    await page.getByText('Not handed back yet: this is how the job stands now.').waitFor();
    await page.getByText('All figures are invented for the demo.').waitFor();
    await page.getByText(/Judged by ISO 14253-1:2017/).waitFor();
  });

  test('one row a dimension: the bore as received and as built, its strip, verdict, gauge and who', async () => {
    const row = lead.page.locator('.readings').getByRole('row').filter({ hasText: 'Bore, size' });
    expect(await row.count()).toBe(1);
    const text = (await row.textContent()) ?? '';
    expect(text).toMatch(/88\.062 ± 0\.002/);
    expect(text).toMatch(/88\.008 ± 0\.002/);
    expect(text).toContain('within standard');
    expect(text).toMatch(/BG-2\s+NQ/);
    const strip = row.getByRole('img', { name: /^Bore, size/ });
    expect(await strip.getAttribute('aria-label')).toMatch(/88\.008 ± 0\.002 mm, within standard/);
    // The earlier round lies past the end of this scale or is ticked on it, and its own verdict is told.
    expect(text).toContain('past the limit');
  });

  test('the past finding’s obligation is told as not decided', async () => {
    const decisions = lead.page.locator('.decisions');
    await decisions.getByText('not decided').first().waitFor();
    expect(await decisions.textContent()).toMatch(/Bore, size, as received/);
  });

  test('prints on one A4 sheet, white by night too, without its buttons', async () => {
    const { page, context } = await dashboard.at('lead');
    await page.emulateMedia({ colorScheme: 'dark' });
    await page.goto(`/sheets/${jobId}`);
    await page.getByText('Halden 355, serial H355-0402').waitFor();
    const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    expect(pagesOf(pdf)).toBe(1);
    expect(pdf.toString('latin1')).toMatch(/\/MediaBox\s*\[0 0 59[45][.\d]* 84[12][.\d]*\]/);
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
    const ground = await page.locator('.a4').evaluate((paper) => getComputedStyle(paper).backgroundColor);
    expect(ground).toBe('rgb(255, 255, 255)');
    await context.close();
  });

  test('the button prints', async () => {
    const { page } = lead;
    await page.evaluate(() => {
      Object.assign(window, { printed: 0 });
      window.print = () => Object.assign(window, { printed: 1 });
    });
    await page.getByRole('button', { name: 'Print' }).focus();
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => Reflect.get(window, 'printed'))).toBe(1);
  });

  test('nothing is cut off at 390, 1280 and 2560 px, and axe finds nothing', async () => {
    for (const width of [390, 1280, 2560]) {
      const { page, context } = await dashboard.at('lead', { width, height: 4000 });
      await page.goto(`/sheets/${jobId}`);
      await page.getByText('Halden 355, serial H355-0402').waitFor();
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(await violationsOn(page)).toEqual([]);
      await context.close();
    }
    expect(lead.complaints).toEqual([]);
  });
});

describe('an unknown job', () => {
  test('is told, with a way to try again', async () => {
    const { page, context } = await dashboard.at('lead');
    await page.goto('/sheets/019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b');
    await page.getByText('This could not be read').waitFor();
    await page.getByRole('button', { name: 'Try again' }).waitFor();
    await context.close();
  });
});
