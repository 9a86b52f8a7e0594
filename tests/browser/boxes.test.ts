import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openBench, type TallyBench } from '../support/open-bench.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let bench: TallyBench;

beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
  bench = await openBench(shop);
  await bench.off([
    { byHand: { name: 'head bolt', expected: 8 }, count: 8 },
    { byHand: { name: 'dowel', expected: 2 }, count: 1 },
  ]);
  await bench.off([{ byHand: { name: 'head', expected: 1, layer: 'head' }, count: 1 }], { trayId: undefined });
  const line = { kind: 'labour', words: 'Rebuild', quantity: 1, each: { minor: '90000', currency: 'EUR' } };
  const { body } = await shop.as.writer.post(`/api/jobs/${bench.jobId}/quotes`, { lines: [line] });
  await shop.as.writer.post(`/api/quotes/${body.id}/answer`, { yes: false, saidBy: 'Ingrid Falk', how: 'in writing' });
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

describe('the owner said no, and a lead hands the engine back in boxes', { sequential: true }, () => {
  test('a writer finds the draft of the packing list only, without counts and without the act', async () => {
    const { page, context } = await dashboard.at('writer');
    await page.goto(`/counter/${bench.jobId}`);
    await page.getByText('The engine is still open.').waitFor();
    expect(await page.getByRole('link', { name: /in boxes/ }).count()).toBe(0);
    await page.goto(`/packing-lists/${bench.jobId}`);
    const bolts = page.getByRole('row').filter({ hasText: 'head bolt' });
    await bolts.waitFor();
    expect(await bolts.getByRole('cell').textContent()).toBe('');
    expect(await page.getByRole('button', { name: 'Hand it back in boxes' }).count()).toBe(0);
    await context.close();
  });

  test('counted line by line it goes; a wrong count is told by tray and piece, and nothing is lost of what was keyed', async () => {
    const { page, context } = await dashboard.at('lead', { width: 1280, height: 1200 });
    await page.goto(`/counter/${bench.jobId}`);
    await page.getByRole('link', { name: 'The owner declined: hand it back in boxes' }).click();
    const give = page.getByRole('button', { name: 'Hand it back in boxes' });
    await give.waitFor();
    expect(await page.getByRole('radio', { name: 'The owner said no to the quote' }).isChecked()).toBe(true);
    await page.getByLabel('In the owner’s words, or yours').fill('Has it done after the season');
    const key = async (piece: string, count: number) => {
      await page.getByRole('textbox', { name: `How many: ${piece}`, exact: true }).fill(String(count));
      await page.keyboard.press('Tab');
    };
    await key('head', 1);
    await key('dowel', 1);
    await give.click();
    await page.locator('.hot', { hasText: '1 kind of piece is not counted yet.' }).waitFor();
    await key('head bolt', 7);
    await give.click();
    await page
      .getByText(/head bolt: 7 counted, 8 in the tally/)
      .first()
      .waitFor();
    await key('head bolt', 8);
    await give.click();
    await page.getByText('The owner said no to the quote. Has it done after the season').waitFor();
    expect(await give.count()).toBe(0);
    expect(await page.getByRole('row').filter({ hasText: 'head bolt' }).getByRole('cell').textContent()).toBe('8');
    const paper = page.getByRole('article');
    for (const said of [
      'This engine is not assembled. Do not turn it over and do not run it.',
      /^No torque and no clearance is set/,
      '1 × dowel',
      /dowel not found when counted off/,
      'Counted and taken over by the owner: name, date, signature',
    ])
      await paper.getByText(said).waitFor();
    await page.getByRole('link', { name: 'To the job' }).click();
    await page.getByText('This job was handed back. It changes no more.').waitFor();
    await page.getByRole('link', { name: 'Packing list' }).waitFor();
    await page.goto(`/sheets/${bench.jobId}`);
    await page.getByText(/never closed: packed in boxes by/).waitFor();
    await page.goto(`/engines/${bench.engineId}`);
    await page
      .getByText(/Left open, and packed in boxes for its owner/)
      .first()
      .waitFor();
    await context.close();
  });

  test('nothing is cut off at 390 and 1280 px, printed or not, and axe finds nothing', async () => {
    const other = await openBench(shop);
    await other.off([{ byHand: { name: 'case bolt', expected: 12 }, count: 12 }]);
    for (const width of [390, 1280]) {
      const { page, context } = await dashboard.at('lead', { width, height: 3000 });
      for (const jobId of [other.jobId, bench.jobId]) {
        await page.goto(`/packing-lists/${jobId}`);
        await page.getByRole('article').waitFor();
        if (jobId === other.jobId) await page.getByRole('textbox', { name: 'How many: case bolt' }).waitFor();
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
        expect(await violationsOn(page)).toEqual([]);
        await page.emulateMedia({ media: 'print' });
        expect(await page.getByRole('button').filter({ visible: true }).count()).toBe(0);
        await page.emulateMedia({ media: 'screen' });
      }
      await context.close();
    }
  });
});
