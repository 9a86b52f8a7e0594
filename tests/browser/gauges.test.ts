import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type DemoShop, openDemoShop, type Terminal } from '../support/terminals.ts';
import { button, chooseOf, goTo, heading, link, press, seen } from './walk/at-the-page.ts';

let shop: DemoShop;
let nadia: Terminal;
let maren: Terminal;

beforeAll(async () => {
  shop = await openDemoShop();
  [nadia, maren] = [await shop.tapIn('nadia'), await shop.tapIn('maren')];
});
afterAll(() => shop.close());
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.picture(task.name)));

describe.sequential('the gauges of the shop', () => {
  test('the register tells which are checked today and which are out of date', async () => {
    const { page } = nadia;
    await goTo(page, 'Gauges');
    const row = (code: string) => page.getByRole('listitem').filter({ has: page.getByText(code, { exact: true }) });
    await seen(row('BG-2'), '50 to 100 mm');
    await seen(row('BG-2'), /^in date until /);
    await seen(row('MI-2'), /^overdue since /);
    await seen(row('TW-2'), '12 to 60 N·m');
  });

  test('today’s check is keyed once, and a unit that can’t be is refused in words', async () => {
    const { page } = nadia;
    await link(page, /^BG-2/).click();
    await page.getByLabel('Zero error, mm').fill('60');
    await page.keyboard.press('Enter');
    await seen(page.getByRole('alert'), /is more than the whole range of BG-2/);
    await page.getByLabel('Zero error, mm').fill('0,002');
    await page.keyboard.press('Enter');
    await seen(page, 'Written down: 0.002 mm.');
    await seen(page, /^Last: 0\.002 mm, by Nadia Quill, /);
  });

  test('a study is begun, read blind in mixed order by Enter alone, and tells what it found', async () => {
    const { page } = nadia;
    await button(page, 'Start a study').click();
    await page.getByLabel('What is studied').fill('Bore gauge on two cylinders');
    for (const many of ['Different parts', 'Each read so many times']) {
      const box = page.getByRole('textbox', { name: many });
      await box.fill('2');
      await box.press('Tab');
    }
    await page.getByLabel('Oskar Pell').check();
    await page.getByLabel('Tolerance it shall serve, mm').fill('0.05');
    await press(button(page, 'Begin'));
    await heading(page, 'Bore gauge on two cylinders').waitFor();
    const sizes = [88.01, 88.03];
    for (const who of ['Nadia Quill', 'Oskar Pell']) {
      if (who === 'Oskar Pell') await chooseOf(page, 'Who reads now', who);
      for (let reading = 1; reading <= 4; reading += 1) {
        const taken = reading + (who === 'Oskar Pell' ? 4 : 0);
        const part = Number(/\d+/.exec((await page.locator('.study-part b').textContent()) ?? '')?.[0]);
        expect(await page.getByText(/88\.0/).count()).toBe(0);
        const size = (sizes[part - 1] ?? 0) + (reading % 2 === 0 ? 0.001 : 0);
        await page.keyboard.type(size.toFixed(3));
        await page.keyboard.press('Enter');
        await seen(page, `${taken} of 8 read`);
      }
    }
    await heading(page, 'What it found').waitFor();
    await seen(page, /^Gauge and people together take \d+\.\d % of the tolerance\./);
    await page.getByRole('img', { name: /^Readings of 2 parts by 2 people/ }).waitFor();
  });

  test('the lead takes its repeatability into the register', async () => {
    const { page } = maren;
    await goTo(page, 'Gauges');
    await link(page, /^BG-2/).click();
    await link(page, 'Bore gauge on two cylinders').click();
    await button(page, /^Close it and take 0\.\d+ mm into the register$/).click();
    await seen(page, 'The register takes this repeatability for the gauge.');
    await link(page, 'To the gauge').click();
    await link(page, 'from a study').waitFor();
  });

  test('a new gauge is added, and taken out of use with the reason', async () => {
    const { page } = maren;
    await goTo(page, 'Gauges');
    await button(page, 'Add a gauge').click();
    const dialog = page.getByRole('dialog');
    for (const [label, text] of [
      ['Code on its label', 'MI-9'],
      ['Name', 'Micrometer 100 to 125'],
      ['What kind of gauge', 'micrometer'],
      ['From', '100'],
      ['To', '125'],
      ['Resolution', '0.001'],
      ['Maximum permissible error, ±', '0.003'],
    ] as const) {
      await dialog.getByLabel(label, { exact: true }).fill(text);
    }
    await press(button(dialog, 'Add it'));
    await link(page, /^MI-9/).click();
    await page.getByLabel('Reason').fill('Dropped, anvil chipped');
    await page.keyboard.press('Enter');
    await heading(page, 'Gauges').waitFor();
    await expect.poll(() => link(page, /^MI-9/).count()).toBe(0);
  });
});
