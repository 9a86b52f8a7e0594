import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { insertAssemblySheet, insertShims } from '../support/assembly-sheet.ts';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { until } from '../support/until.ts';

let shop: Shop;
let dashboard: Dashboard;
let familyId: string;
let serials = 700;
beforeAll(async () => {
  shop = await openShop();
  ({ familyId } = await insertAssemblySheet(shop.sql, shop.people.lead));
  await insertShims(shop.sql, { thicknesses: [2.2, 2.25, 2.3, 2.35, 2.4], count: 20, movedById: shop.people.clerk });
  await insertInstruments(shop.sql, shop.people.lead);
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const seen = (page: Page, text: string | RegExp) => page.getByText(text).first().waitFor();

async function atBench(step: string, size?: { width: number; height: number }) {
  serials += 1;
  const { body } = await shop.as.writer.post('/api/jobs', {
    engine: { serial: `H388-${serials}`, familyId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '120',
    complaint: 'Rattles when warm',
    bayId: shop.bays.rack,
  });
  const terminal = await dashboard.at('technician', size);
  await terminal.page.goto(`/bench/${body.id}/assemble?step=${step}`);
  await terminal.page.locator('.assemble').waitFor();
  return { jobId: body.id as string, ...terminal };
}

const assemblyOf = async (jobId: string) => (await shop.as.technician.get(`/api/jobs/${jobId}/assembly`)).body;
const bolt = (page: Page, number: number) => button(page, new RegExp(`^bolt ${number},`));

/** What reaches past the right edge of the screen. */
const stickingOut = (): readonly string[] =>
  document.documentElement.scrollWidth <= document.documentElement.clientWidth
    ? []
    : [...document.querySelectorAll('body *')]
        .filter((element) => element.getBoundingClientRect().right > document.documentElement.clientWidth)
        .map((element) => element.outerHTML.slice(0, 80));

describe('ring gaps', () => {
  test('a gap over the pin is told as it is turned; put right it is recorded, marks up', async () => {
    const { page, jobId, complaints } = await atBench('rings');
    await page.getByRole('spinbutton', { name: 'Gap of second ring, degrees' }).fill('90');
    await seen(page, /the pin \(80° to 100°\)/);
    await page.getByRole('img', { name: /second ring 90°, in a forbidden zone/ }).waitFor();
    expect(await button(page, 'Record them all the same').isDisabled()).toBe(true);
    await page.getByRole('spinbutton', { name: 'Gap of second ring, degrees' }).fill('210');
    await button(page, 'second ring back, −10°').click();
    const top = page.getByRole('radiogroup', { name: 'Mark “R” of top ring faces' });
    await top.getByText('skirt').click();
    await seen(page, 'its mark has to face the crown: turn the ring over');
    await seen(page, 'Look at the mark first: second ring.');
    await top.getByText('crown').click();
    await page.getByRole('radiogroup', { name: 'Mark of second ring faces' }).getByText('crown').click();
    await button(page, 'Record the gaps').click();
    await seen(page, 'Placed by Nadia Quill');
    const { rings, ringsPlaced } = await assemblyOf(jobId);
    expect(rings.map(({ angle }: { angle: { value: string } }) => angle.value)).toEqual(['20', '200', '120']);
    expect(rings.every(({ faults }: { faults: string[] }) => faults.length === 0)).toBe(true);
    expect(ringsPlaced.marksWell).toBe(true);
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('head bolts', () => {
  test('four bolts in two stages: a missed one is caught, one taken back, one keyed as the tool shows', async () => {
    const { page, jobId, complaints } = await atBench('fasteners');
    await seen(page, '20.0 N·m');
    await bolt(page, 1).click();
    await bolt(page, 3).click();
    await seen(page, 'Not taken: bolt 2 comes before bolt 3.');
    await bolt(page, 2).click();
    await until(
      () => assemblyOf(jobId),
      ({ sets }) => sets[0].pulls.length === 2,
    );
    await button(page, 'Take the last back').click();
    await until(
      () => assemblyOf(jobId),
      ({ sets }) => sets[0].pulls.length === 1,
    );
    await seen(page, /last: bolt 1, stage 1,/);
    await page.keyboard.type('20.4');
    await page.keyboard.press('Enter');
    await bolt(page, 3).focus();
    await page.keyboard.press('Enter');
    await bolt(page, 4).click();
    await seen(page, 'Bolt 1 turned 90°');
    for (const number of [1, 2, 3, 4]) await bolt(page, number).click();
    await seen(page, 'Every position, every stage: complete.');
    const { sets } = await until(
      () => assemblyOf(jobId),
      (now) => now.sets[0].complete,
    );
    expect(sets[0].pulls).toHaveLength(8);
    expect(
      sets[0].pulls.find((pull: { fastener: number; stage: number }) => pull.fastener === 2 && pull.stage === 1),
    ).toMatchObject({ value: { value: '20.4' } });
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('a pull far off the figure comes back with the server’s words, and is pulled again', async () => {
    const { page, jobId } = await atBench('fasteners');
    await page.keyboard.type('27.1');
    await page.keyboard.press('Enter');
    await seen(page, /lbf·ft/);
    await button(page, 'Pull it again').click();
    await bolt(page, 1).click();
    const { sets } = await until(
      () => assemblyOf(jobId),
      (now) => now.sets[0].pulls.length === 1,
    );
    expect(sets[0].pulls[0].value.value).toBe('20.0');
    await page.context().close();
  });

  test('without a network pulls wait here and are logged once', async () => {
    const { page, jobId, context } = await atBench('fasteners');
    await context.setOffline(true);
    await bolt(page, 1).click();
    await bolt(page, 2).click();
    await page.getByRole('status').filter({ hasText: '2 entries are kept here' }).waitFor();
    await button(page, /^bolt 3, .*next/).waitFor();
    await context.setOffline(false);
    const { sets } = await until(
      () => assemblyOf(jobId),
      (now) => now.sets[0].pulls.length === 2,
    );
    expect(sets[0].stages[0].done).toEqual([1, 2]);
    await page.context().close();
  });
});

describe('lash', () => {
  test('blades and the fitted shim propose one from the bin, and it is taken', async () => {
    const { page, jobId, complaints } = await atBench('lash');
    await button(page, /^blade 0\.05/).click();
    await button(page, /^blade 0\.1(0|$)/).click();
    await page.getByLabel('Shim in it now, mm').fill('2.350');
    await button(page, 'Which shim?').click();
    await seen(page, /S-14/);
    const proposed = await page.locator('.answer-figure').textContent();
    await button(page, /^(Take|Keep the shim)/).click();
    await seen(page, 'Not measured since the last work on it');
    const { valves } = await until(
      () => assemblyOf(jobId),
      (now) => now.valves[0].choice !== null,
    );
    expect(proposed).toContain(valves[0].choice.thickness.value);
    await page.getByRole('link', { name: 'Measure it again, as built' }).click();
    await page.waitForURL(/measure\?dimension=lash-in-l&round=as\+built/);
    await seen(page, 'as built');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('proofs', () => {
  test('one records, a second person signs off', async () => {
    const { page, jobId } = await atBench('prove');
    await seen(page, 'The engine is not open in this job.');
    await button(page, 'Record the proof').click();
    await page.getByText('Passed', { exact: true }).click();
    await page.getByLabel('What was seen').fill('6 % at 600 kPa');
    await button(page, 'Record it').click();
    await seen(page, 'A second person signs it off.');
    const oskar = await dashboard.at('colleague');
    await oskar.page.goto(`/bench/${jobId}/assemble?step=prove`);
    await button(oskar.page, 'Sign it off').click();
    await seen(oskar.page, 'signed off by Oskar Pell');
    await oskar.context.close();
    await page.context().close();
  });
});

describe('gloves and small screens', () => {
  test.each([
    [390, 844],
    [1280, 800],
  ])('%i × %i: nothing is cut off, and axe finds no fault, light and dark', async (width, height) => {
    const { page } = await atBench('rings', { width, height });
    for (const step of ['Ring gaps', 'Fasteners', 'Valve lash', 'Close and prove']) {
      await button(page, new RegExp(`^${step}`)).click();
      expect(await page.evaluate(stickingOut)).toEqual([]);
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        expect(await violationsOn(page)).toEqual([]);
      }
    }
    await page.context().close();
  });
});
