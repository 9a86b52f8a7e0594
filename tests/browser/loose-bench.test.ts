import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type DemoShop, openDemoShop, type Terminal } from '../support/terminals.ts';
import { button, goTo, link, seen } from './walk/at-the-page.ts';

let shop: DemoShop;
let nadia: Terminal;

beforeAll(async () => {
  shop = await openDemoShop();
  nadia = await shop.tapIn('nadia');
});
afterAll(() => shop.close());
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.picture(task.name)));

const key = async (name: RegExp, text: string) => nadia.page.getByRole('textbox', { name }).fill(text);
const figure = (code: string) => nadia.page.locator(`[data-figure="${code}"] dd`);

describe.sequential('the loose bench', () => {
  test('a ratio comes out while it is keyed, and what is missing is named', async () => {
    const { page } = nadia;
    await goTo(page, 'Loose bench');
    await link(page, 'Ratio and squish').click();
    await seen(page, 'Still to give: bore, stroke, chamber in the head.');
    await key(/^Bore$/, '88.0');
    await key(/^Stroke$/, '58.5');
    await key(/^Chamber in the head/, '27,4');
    await seen(figure('ratio'), '13.99');
    await key(/^Rod, centre to centre/, '29');
    await seen(page.getByRole('alert').first(), /longer than the crank’s throw of 29.25 mm/);
    await key(/^Rod, centre to centre/, '103');
    await key(/^Intake closes after bottom/, '68');
    await seen(figure('effectiveRatio'), '10.73');
    await page.getByRole('img', { name: /^Cylinder in section/ }).waitFor();
  });

  test('valve to piston takes a pasted table, and one out of order is told by its line', async () => {
    const { page } = nadia;
    await link(page, 'Valve to piston').click();
    await key(/^Clearance at top, valve shut/, '3.9');
    await key(/^Valve to bore/, '12');
    await key(/^Lash/, '0.13');
    await key(/^Lift table/, '0 1.62\n30 5.05\n20 6');
    await seen(page.getByRole('alert').first(), /^Line 3: The angles of the table must rise/);
    const table = ['-32 0', '0 1.62', '30 5.05', '60 8.10', '108 9.80', '156 8.10', '186 5.05', '216 1.62', '248 0'];
    await key(/^Lift table/, table.join('\n'));
    await seen(figure('leastClearance'), /^2\.002/);
    await page.getByRole('img', { name: /least clearance 2\.002 mm at 10\.7°/ }).waitFor();
  });

  test('port timing travels by its address', async () => {
    const { page } = nadia;
    await link(page, 'Port timing').click();
    await key(/^Stroke$/, '54.5');
    await key(/^Rod, centre to centre/, '105');
    await key(/^Exhaust edge below top/, '27');
    await key(/^Transfer edge below top/, '40.5');
    await seen(figure('exhaustOpen'), '195.9°');
    await page.waitForURL(/transferHeight=40\.5/);
    await page.reload();
    await seen(figure('blowdown'), '29.9°');
  });

  test('one is kept with a job and stands on its build sheet', async () => {
    const { page } = nadia;
    await button(page, 'Keep with job').click();
    const job = page.getByLabel('Job', { exact: true });
    await job.locator('option').nth(1).waitFor({ state: 'attached' });
    await job.selectOption({ index: 1 });
    await page.getByRole('textbox', { name: 'Note' }).fill('Before any work');
    await button(page, 'Keep it').click();
    await seen(page.getByRole('status'), /^Port timing: kept with job \d+\.$/);
    await link(page, /^To engine/).click();
    const kept = page.getByRole('region', { name: 'Reckoned' });
    await seen(kept, /Port timing: Before any work/);
    const sheet = await page.locator('a[href^="/sheets/"]').first().getAttribute('href');
    await page.goto(sheet ?? '/');
    await page.getByRole('heading', { name: 'Reckoned' }).waitFor();
    await page.getByText('Exhaust open for').first().waitFor();
    expect(shop.complaints).toEqual([]);
  });

  test('whoever leaves right after a key gets to where they go, however slowly it comes', async () => {
    const { page } = nadia;
    await page.goto('/loose-bench/displacement');
    await page.route(/assets\/engines-view.*\.js/, async (route) => {
      await new Promise((resolve) => setTimeout(resolve, 800));
      await route.continue();
    });
    await key(/^Bore$/, '88');
    await goTo(page, 'Engines');
    await page.getByRole('heading', { name: 'Engines', exact: true }).waitFor();
    await page.waitForURL('**/engines');
    await page.unroute(/assets\/engines-view.*\.js/);
  });
});
