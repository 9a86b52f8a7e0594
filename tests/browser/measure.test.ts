import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { until } from '../support/until.ts';

let shop: Shop;
let dashboard: Dashboard;
let serials = 500;
beforeAll(async () => {
  shop = await openShop();
  await insertInstruments(shop.sql, shop.people.lead);
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { name });
const seen = (page: Page, text: string | RegExp) => page.getByText(text).first().waitFor();

async function atBench(of: { dimension: string; size?: { width: number; height: number } }) {
  serials += 1;
  const { jobId } = await takeIn(shop, { serial: `H355-${serials}` });
  const terminal = await dashboard.at('technician', of.size);
  await terminal.page.goto(`/bench/${jobId}/measure?dimension=${of.dimension}`);
  await terminal.page.locator('.measure').waitFor();
  return { jobId, ...terminal };
}

/** What a gauge with a keyboard's output does: figures, then Enter. */
async function gauge(page: Page, text: string) {
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

interface Kept {
  readonly position: string;
  readonly text: string;
  readonly unit: string;
  readonly repeat: number;
  readonly readAt: string;
}
async function readingsOf(jobId: string, dimension: string): Promise<readonly Kept[]> {
  const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/bench`);
  return body.dimensions.find(({ code }: { code: string }) => code === dimension).readings;
}

describe('the bore, six readings', () => {
  test('one at a time, a slip of the unit put right by one tap, four in one go, the last taken back', async () => {
    const { page, jobId, complaints } = await atBench({ dimension: 'bore' });
    await heading(page, 'At A-across').waitFor();
    await page.keyboard.type('88.0495');
    await page.getByText('undecided', { exact: true }).waitFor();
    await page.keyboard.press('Escape');
    await page.keyboard.type('88.040');
    await page.getByText('within service limit', { exact: true }).waitFor();
    await page.keyboard.press('Enter');

    await heading(page, 'At A-along').waitFor();
    await page.keyboard.type('3.4660');
    await button(page, 'Send as 3.4660 in').click();
    await heading(page, 'At B-across').waitFor();
    await gauge(page, '88.031 88.030 88.021 88.019');
    await heading(page, 'Bore, size: done').waitFor();
    await page.getByText('all readings together').waitFor();
    const six = await until(
      () => readingsOf(jobId, 'bore'),
      (all) => all.length === 6,
    );
    expect(six.map(({ position, text, unit }) => [position, text, unit])).toEqual([
      ['A-across', '88.040', 'mm'],
      ['A-along', '3.4660', 'in'],
      ['B-across', '88.031', 'mm'],
      ['B-along', '88.030', 'mm'],
      ['C-across', '88.021', 'mm'],
      ['C-along', '88.019', 'mm'],
    ]);

    await button(page, 'Undo last').click();
    await heading(page, 'At C-along').waitFor();
    await until(
      () => readingsOf(jobId, 'bore'),
      (all) => all.length === 5,
    );
    for (const key of ['8', '8', '.', '0', '1', '8'])
      await page.getByRole('button', { name: key, exact: true }).click();
    await button(page, 'Keep 88.018').click();
    await heading(page, 'Bore, size: done').waitFor();
    await until(
      () => readingsOf(jobId, 'bore'),
      (all) => all.some(({ text }) => text === '88.018'),
    );

    await page
      .getByRole('button', { name: /Where that comes from/ })
      .first()
      .click();
    await heading(page, 'Drawn by chance').waitFor();
    await page.getByLabel('Trials').fill('999');
    await seen(page, 'A whole number from 1000 to 200,000');
    await page.getByLabel('Trials').fill('5000');
    await page.getByLabel('Seed').fill('42');
    await button(page, 'Draw').click();
    await seen(page, /The normal assumption (holds|does not hold)/);
    await seen(page, /5,000 trials, seed 42/);
    await page.getByRole('img', { name: /Bore, size, drawn by chance: a histogram/ }).waitFor();
    await button(page, 'Close').click();

    await gauge(page, '88.017');
    await seen(page, 'Not taken: 88.017.');
    await page.keyboard.press('Enter');
    await heading(page, 'Piston, size').waitFor();
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('a gauge that is quicker than the question: the refused one comes back, the next has its own place', async () => {
    const { page, jobId } = await atBench({ dimension: 'bore' });
    await gauge(page, '3.4660');
    await gauge(page, '88.012');
    await seen(page, 'to be mended');
    await heading(page, 'At B-across').waitFor();
    await button(page, 'It is right: because …').waitFor();
    await button(page, 'Send as 3.4660 in').click();
    const kept = await until(
      () => readingsOf(jobId, 'bore'),
      (all) => all.length === 2,
    );
    expect(Object.fromEntries(kept.map(({ position, text }) => [position, text]))).toEqual({
      'A-across': '3.4660',
      'A-along': '88.012',
    });
    expect(await page.locator('.mend').count()).toBe(0);
    await page.context().close();
  });

  test('taken again, a place has two readings; one that can’t be read is left out and said', async () => {
    const { page, jobId } = await atBench({ dimension: 'bore' });
    await page.keyboard.type('88.012');
    await button(page, 'Take it again').click();
    await seen(page, 'taken again, 2');
    await gauge(page, '88.014');
    await heading(page, 'At A-along').waitFor();
    await button(page, 'Can’t measure').click();
    await heading(page, 'At B-across').waitFor();
    const kept = await until(
      () => readingsOf(jobId, 'bore'),
      (all) => all.length === 2,
    );
    expect(kept.map(({ position, repeat }) => [position, repeat])).toEqual([
      ['A-across', 1],
      ['A-across', 2],
    ]);
    await gauge(page, '88.01 88.01 88.01 88.01');
    await seen(page, 'Left out: A-along.');
    await page.context().close();
  });
});

describe('other ways of reading', () => {
  test('a ring’s gap by two taps on blades, and by a stack', async () => {
    const { page, jobId } = await atBench({ dimension: 'ring-gap-top' });
    await button(page, /^blade 0\.30/).click();
    await button(page, /^blade 0\.35/).click();
    await page.getByText('within standard', { exact: true }).waitFor();
    await button(page, /^Keep 0\.30.* goes, 0\.35.* does not$/).click();
    await until(
      () => readingsOf(jobId, 'ring-gap-top'),
      (all) => all.length === 1,
    );
    await button(page, 'Take it again').click();
    await gauge(page, '0.25+0.10 0.40');
    const kept = await until(
      () => readingsOf(jobId, 'ring-gap-top'),
      (all) => all.length === 2,
    );
    expect(kept[1]?.text).toBe('0.25+0.10 / 0.40');
    await page.context().close();
  });

  test('play that is felt is past the limit', async () => {
    const { page, jobId } = await atBench({ dimension: 'big-end-play' });
    await page.getByRole('button', { name: 'Play felt', exact: true }).click();
    await page.getByText('past the limit', { exact: true }).waitFor();
    expect((await readingsOf(jobId, 'big-end-play')).map(({ text }) => text)).toEqual(['play']);
    await page.context().close();
  });

  test('a file is kept as a whole, or its bad rows are named', async () => {
    const { page, jobId } = await atBench({ dimension: 'bore' });
    await page.locator('.choose-other').click();
    await button(page, 'Bring in a file').click();
    const rows = page.getByRole('textbox', { name: /paste the rows/ });
    await rows.fill('round;dimension;position;value;unit;instrument\nas received;bore;A-across;88,O12;mm;BG-2');
    await button(page, 'Bring in').click();
    await seen(page, 'row 2, column value');
    await rows.fill('round;dimension;position;value;unit;instrument\nas received;bore;A-across;88,012;mm;BG-2');
    await button(page, 'Bring in').click();
    await seen(page, '1 reading kept.');
    expect(await readingsOf(jobId, 'bore')).toHaveLength(1);
    await page.context().close();
  });
});

describe('when the network drops', () => {
  test('two readings wait here and are sent once each in their order', async () => {
    const { page, jobId, context } = await atBench({ dimension: 'bore' });
    await context.setOffline(true);
    await gauge(page, '88.011');
    await gauge(page, '88.012');
    await heading(page, 'At B-across').waitFor();
    await page.getByRole('status').filter({ hasText: '2 entries are kept here' }).waitFor();
    expect(await readingsOf(jobId, 'bore')).toEqual([]);
    await context.setOffline(false);
    const kept = await until(
      () => readingsOf(jobId, 'bore'),
      (all) => all.length === 2,
    );
    expect(kept.map(({ position, text }) => [position, text])).toEqual([
      ['A-across', '88.011'],
      ['A-along', '88.012'],
    ]);
    expect(Date.parse(kept[0]?.readAt ?? '')).toBeLessThanOrEqual(Date.parse(kept[1]?.readAt ?? ''));
    await page.getByRole('status').filter({ hasText: 'kept here' }).waitFor({ state: 'hidden' });
    expect(
      await page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith('crosshatch-kept'))),
    ).toEqual([]);
    await page.context().close();
  });

  test('a reading that waits outlives the page', async () => {
    const { page, jobId } = await atBench({ dimension: 'bore' });
    await page.route('**/readings', (route) => route.abort());
    await gauge(page, '88.011');
    await page.getByRole('status').filter({ hasText: '1 entry is kept here' }).waitFor();
    await page.reload();
    await heading(page, 'At A-along').waitFor();
    await seen(page, 'not sent yet');
    expect(await readingsOf(jobId, 'bore')).toEqual([]);
    await page.unroute('**/readings');
    const kept = await until(
      () => readingsOf(jobId, 'bore'),
      (all) => all.length > 0,
    );
    expect(kept.map(({ position, text }) => [position, text])).toEqual([['A-across', '88.011']]);
    await page.context().close();
  });

  test('an answer that was lost on its way doubles nothing', async () => {
    const { page, jobId } = await atBench({ dimension: 'bore' });
    let lost = 0;
    await page.route('**/readings', async (route) => {
      if (lost > 0) return route.continue();
      lost += 1;
      await route.fetch();
      return route.abort();
    });
    await gauge(page, '88.011');
    await page.getByRole('status').filter({ hasText: '1 entry is kept here' }).waitFor();
    await page.getByRole('status').filter({ hasText: 'kept here' }).waitFor({ state: 'hidden' });
    expect(await readingsOf(jobId, 'bore')).toHaveLength(1);
    expect(lost).toBe(1);
    await page.context().close();
  });

  test('what one person keyed is not sent in another’s name', async () => {
    const { page, jobId, context } = await atBench({ dimension: 'bore' });
    await context.setOffline(true);
    await gauge(page, '88.011');
    await page.getByRole('status').filter({ hasText: '1 entry is kept here' }).waitFor();
    const kept = await page.evaluate(() => {
      const key = Object.keys(localStorage).find((name) => name.startsWith('crosshatch-kept')) ?? '';
      return [key, localStorage.getItem(key) ?? ''] as const;
    });
    await context.close();

    const other = await dashboard.at('colleague');
    await other.page.addInitScript(([key, text]) => localStorage.setItem(key, text), kept);
    await other.page.goto(`/bench/${jobId}/measure?dimension=bore`);
    await other.page.locator('.measure').waitFor();
    await seen(other.page, '1 entry of Nadia Quill waits here');
    await gauge(other.page, '88.020');
    const all = await until(
      () => readingsOf(jobId, 'bore'),
      (read) => read.length === 1,
    );
    expect(all[0]).toMatchObject({ text: '88.020', readBy: { name: 'Oskar Pell' } });
    await other.context.close();
  });
});

describe('gloves and small screens', () => {
  test.each([
    [390, 844],
    [1280, 800],
    [2560, 1440],
  ])(
    '%i × %i: nothing is cut off or too small to hit, light and dark, and axe finds no fault',
    async (width, height) => {
      const { page } = await atBench({ dimension: 'bore', size: { width, height } });
      await page.keyboard.type('88.049');
      await page.getByText('undecided', { exact: true }).waitFor();
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(width);
      const small = await page.evaluate(() =>
        [...document.querySelectorAll('button, a')]
          .filter((target) => target.getClientRects().length > 0)
          .map((target) => ({ text: target.textContent, box: target.getBoundingClientRect() }))
          .filter(({ box }) => box.height < 55.5 || box.width < 55.5)
          .map(({ text }) => text),
      );
      expect(small).toEqual([]);
      const keep = await button(page, 'Keep 88.049').boundingBox();
      expect((keep?.y ?? 0) + (keep?.height ?? 0)).toBeLessThanOrEqual(height);
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        expect(await violationsOn(page)).toEqual([]);
      }
      await page.context().close();
    },
  );
});
