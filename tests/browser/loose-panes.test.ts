import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
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

const field = (name: string | RegExp) => nadia.page.getByRole('textbox', { name });
const key = async (name: string | RegExp, text: string) => field(name).fill(text);
const choose = async (name: string, option: string) =>
  nadia.page.getByLabel(name, { exact: true }).selectOption(option);
/** What stands against a field, as a screen reader would be told of it. */
async function saidOf(name: string | RegExp): Promise<string | null> {
  if ((await field(name).getAttribute('aria-invalid')) !== 'true') return null;
  const described = (await field(name).getAttribute('aria-describedby')) ?? '';
  const id = described.split(' ').find((one) => one.endsWith('error')) ?? '';
  return nadia.page.evaluate((of) => document.getElementById(of)?.textContent ?? null, id);
}
const against = (name: string | RegExp, words: RegExp) =>
  expect.poll(() => saidOf(name), { timeout: 10_000 }).toMatch(words);

describe.sequential('what chooses at the loose bench', () => {
  test('a circle of eight: order, stages, proof load, and a log with its slips caught', async () => {
    const { page } = nadia;
    await goTo(page, 'Loose bench');
    await link(page, 'Fastener set').click();
    await seen(page, 'Still to give: where the fasteners sit.');
    await key('How many', '8');
    await key(/^Circle’s diameter/, '120');
    await seen(page, '1 5 3 7 2 6 4 8');
    await seen(page, '8 4 6 2 7 3 5 1');
    await key('Thread, as M10x1.25', 'M8');
    await key('Property class, as 10.9', '8.8');
    await key('Stages', '20\n45');
    await seen(page, /Stage 2 would be 1\d\d % of the thread’s proof load/);
    await key('Stages', '20\n90°');
    await choose('Used again', 'never');
    await seen(page, /The last stage stretches them past yield/);
    await key(/^A log/, '1 1 20\n1 1 20\n2 1 20\n5 2 90\n5 1 20');
    await seen(page, '2 of 5 pulls taken.');
    await seen(page, /Line 2, bolt 1 at stage 1: Position 1 was pulled in stage 1 already/);
    await seen(page, /Line 3, bolt 2 at stage 1: Positions? .* comes? first/);
    await seen(page, /Line 4, bolt 5 at stage 2: Stage 1 is not complete/);
    await seen(page, 'Next: bolt 3, stage 1, 20.0 N·m.');
    await page.getByRole('img', { name: /8/ }).first().waitFor();
  });

  test('bad figures stand against their own fields', async () => {
    await key('Stages', '20\n400°');
    await against('Stages', /^Line 2: A stage turns by more than 0 and at most 360°\.$/);
    await key('Stages', '20');
    await key('How many', '1');
    await against('How many', /^A whole number from 2 to 60\.$/);
    await choose('Where they sit', 'coordinates, pasted');
    await key('Coordinates', '0 0\n0 0');
    await against('Coordinates', /^Line 2: Position 2 sits where position 1 does/);
    await key('Coordinates', '-50 50\n50 50\n50 -50\n-50 -50');
    await choose('Order', 'typed here');
    await key(/^Numbers in/, '1 1 2 3');
    await against(/^Numbers in/, /^Name each of 1 to 4 once, with blanks or commas between\.$/);
  });

  test('a wrench is chosen by range and calibration for what the adapter asks to set', async () => {
    const { page } = nadia;
    await link(page, 'Wrench and adapter').click();
    await key('Wanted at the bolt', '60');
    await choose('Adapter', 'on the wrench');
    await key('Grip to square', '400');
    await key('Square to bolt', '45');
    await key('Adapter’s angle', '0');
    await key('Wrenches at hand', 'TW-1 50 2099-03-01\nTW-2 100 2099-03-01\nTW-3 200 2020-09-30');
    await seen(page.locator('[data-figure="setting"] dd'), '53.9 N·m');
    await seen(page, 'Take TW-2.');
    await seen(page, /TW-1 ends at 50.0 N·m/);
    await seen(page, /The calibration of TW-3 ran out on 2020-09-30/);
    await page.getByRole('img', { name: 'Wrench of 400 mm with an adapter of 45 mm at 0°' }).waitFor();
    await key('Adapter’s angle', '181');
    await against('Adapter’s angle', /^An adapter stands at 0°/);
    await key('Adapter’s angle', '180');
    await key('Square to bolt', '400');
    await against('Adapter’s angle', /no lever/);
    await key('Square to bolt', '45');
    await key('Wrenches at hand', 'TW-9 soft');
    await against('Wrenches at hand', /"soft" N.m is not a torque/);
  });

  test('ring gaps by rule of thumb, and a turned one judged', async () => {
    const { page } = nadia;
    await link(page, 'Ring gaps on the piston').click();
    await page.getByRole('img', { name: /Top ring 45°, Second ring 225°, Spacer 135°/ }).waitFor();
    await key('Turned to, °, Second ring', '95');
    await seen(page, /Stands where no gap may: over the pin \(80° to 100°\)/);
    await key('Turned to, °, Second ring', '225');
    await key('Pin at, °, Top ring', '361');
    await against('Pin at, °, Top ring', /^An angle is from 0 to below 360°\.$/);
    await button(page, 'Two-stroke, pinned').click();
    await seen(page, 'by its pin, not turned');
  });

  test('the grade of bearing shells by the maker’s table, left open where what was measured leaves it open', async () => {
    const { page } = nadia;
    await link(page, 'Grade of bearing shells').click();
    await seen(
      page,
      'Still to give: classes of the journal, classes of the housing, the maker’s table, journal, housing.',
    );
    await key('Classes of the journal', '1 35.984 35.992\n2 35.993 36.000');
    await key('Classes of the housing', 'A 39.000 39.008\nB 39.009 39.016');
    await key('The maker’s table', '   A B\n1 brown black\n2 green brown');
    await key('Thickness of the shells', 'green 1.482 1.486\nbrown 1.486 1.490\nblack 1.490 1.494');
    await key(/^Journal$/, '35.988');
    await key(/^U of the journal/, '0.002');
    await key(/^Housing$/, 'B');
    await seen(page, 'Shells: black, by journal 1, housing B.');
    // 39.009 to 39.016, less 35.988 ± 0.002, less twice 1.490 to 1.494.
    await seen(page, '0.031 to 0.050 mm');
    await key(/^U of the journal/, '0.006');
    await seen(page, /^Shells: (black or brown|brown or black), by journal 1 or 2, housing B: measure again/);
    await key(/^Journal$/, '34.5');
    await against(/^Journal$/, /lies in none of the classes/);
    await key(/^Journal$/, '35.988');
    await key('The maker’s table', 'A\n1 brown\n2 green');
    await against('The maker’s table', /no cell for journal 1 in housing B/);
  });

  test('a whole head: shims exchanged and taken from those at hand, an interval upside down refused', async () => {
    const { page } = nadia;
    await link(page, 'Shims of a head').click();
    const measured = [
      ['IN-L', '0.08', '0.09', '2.350'],
      ['IN-R', '0.12', '0.13', '2.402'],
      ['EX-L', '0.15', '0.16', '2.298'],
      ['EX-R', '0.24', '0.25', '2.251'],
    ] as const;
    for (const [valve, low, high, fitted] of measured) {
      await key(`Blade that went, mm, ${valve}`, low);
      await key(`Blade that did not, mm, ${valve}`, high);
      await key(`Shim in it, mm, ${valve}`, fitted);
    }
    const sides = [
      ['Intake', '0.13', '0.10', '0.15'],
      ['Exhaust', '0.20', '0.17', '0.22'],
    ] as const;
    for (const [side, wanted, low, high] of sides) {
      await key(`${side} lash wanted`, wanted);
      await key(`${side}, least`, low);
      await key(`${side}, largest`, high);
    }
    await key('Shim diameter', '7.48');
    await key('Maker’s thinnest shim', '1.20');
    await key('Maker’s thickest shim', '3.50');
    await key(/^Micrometer/, '0.004');
    await key('Shims at hand', '2.302 3\n2.349\nbuy 2.325');
    await seen(page, '4 guaranteed in range, 0 possibly, 0 out.');
    await page.getByRole('img', { name: /EX-L, from EX-R/ }).waitFor();
    await key('Blade that did not, mm, IN-L', '0.05');
    await against('Blade that did not, mm, IN-L', /^Lies below the lower end\.$/);
    await key('Blade that did not, mm, IN-L', '0.09');
  });

  test('the answer is kept with any open job, and read on the engine’s page', async () => {
    const { page } = nadia;
    await seen(page, '4 guaranteed in range, 0 possibly, 0 out.');
    await button(page, 'Keep with job').click();
    const job = page.getByLabel('Job', { exact: true });
    await job.locator('option').nth(1).waitFor({ state: 'attached' });
    const { items } = await (await page.request.get('/api/engines?state=all&limit=200')).json();
    const open = items.filter(
      (one: { lastVisit: { handedBackAt: string | null } | null }) => one.lastVisit?.handedBackAt === null,
    );
    expect(await job.locator('option').count()).toBe(open.length + 1);
    await job.selectOption({ index: 1 });
    await button(page, 'Keep it').click();
    await seen(page.getByRole('status'), /^Shims of a head: kept with job \d+\.$/);
    await link(page, /^To engine/).click();
    const reckoned = page.getByRole('region', { name: 'Reckoned' });
    await expect
      .poll(() => reckoned.textContent(), { timeout: 30_000 })
      .toMatch(/EX-L: ?shim in it 2\.298 ?mm, shim to fit 2\.25/);
  });

  test.each([
    [390, 844],
    [1280, 800],
  ])('%i × %i: nothing sticks out, light and dark, and axe finds no fault', async (width, height) => {
    const { page } = await shop.tapIn('oskar', { width, height });
    const kinds = [
      'fastener-set',
      'wrench',
      'ring-clock',
      'whole-head',
      'bearing-shells',
      'compression-ratio',
      'bore-comparison',
    ];
    for (const kind of kinds) {
      const keyed = kind === 'fastener-set' ? '?count=8&diameter=120&stages=30' : '';
      await page.goto(`/loose-bench/${kind}${keyed}`);
      await page.getByRole('heading', { name: 'What comes out' }).waitFor();
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      expect([kind, wide]).toEqual([kind, 0]);
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        expect(await violationsOn(page)).toEqual([]);
      }
    }
    await page.context().close();
  });
});
