import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { labelCode } from '../support/label-code.ts';
import { openBench } from '../support/open-bench.ts';
import { insertProcedure } from '../support/procedures.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { wedge } from '../support/wedge.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const phone = { width: 390, height: 844 };
const caps = { name: 'cam cap', fromWhere: 'head', matchedSet: 'head and cam caps', expected: 4 };
const place = (page: Page, name: string) => page.getByRole('button', { name, exact: true });
const press = (page: Page, name: string) => page.getByRole('button', { name }).click();

test('on a phone, three caps are laid in their places, one goes back into its own, two are swapped with a reason', async () => {
  const bench = await openBench(shop);
  await bench.off([{ byHand: caps, count: 3 }]);
  const { page, complaints } = await dashboard.at('technician', phone);
  await page.goto(`/trays/${bench.trayId}`);
  await page.getByText('3 are loose and lie in no place yet').waitFor();
  for (const number of ['1', '2', '4']) await place(page, `${number}, empty`).click();
  await page.getByText('Chosen: 1, 2, 4').waitFor();
  await press(page, 'They lie here');
  await page.getByText('3 filled, 3 loose.').waitFor();

  await place(page, '2, filled').focus();
  await page.keyboard.press('Space');
  expect(await place(page, '2, filled').getAttribute('aria-pressed')).toBe('true');
  await press(page, 'Back on: 1 piece');
  await page.getByText('2 filled, 2 loose.').waitFor();
  await place(page, '2, empty').waitFor();

  await place(page, '1, filled').click();
  await place(page, '3, empty').click();
  await page.getByText('Choose only filled places, or only empty ones.').waitFor();
  await place(page, '3, empty').click();
  await place(page, '4, filled').click();
  await press(page, 'Swap these two');
  await page.getByLabel('Why they change places').fill('Marked the other way round');
  await press(page, 'Swap them, and sign for it');
  await page.getByText('1 holds the piece of 4').waitFor();
  await place(page, '4 from 1: in the wrong place').waitFor();
  expect(await page.locator('[data-crossing]').count()).toBe(2);
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
  expect(await violationsOn(page)).toEqual([]);
  expect(complaints).toEqual([]);
}, 120_000);

test('somebody without the bench sees the rack and changes nothing in it', async () => {
  const bench = await openBench(shop);
  await bench.off([{ byHand: caps, count: 4 }]);
  const { page } = await dashboard.at('writer', phone);
  await page.goto(`/trays/${bench.trayId}`);
  await page.getByText('4 filled, 4 loose.').waitFor();
  await page.getByRole('img', { name: 'rack of cam cap: 1, filled; 2, filled; 3, filled; 4, filled' }).waitFor();
  expect(await place(page, '1, filled').count()).toBe(0);
}, 120_000);

/** A step that takes five caps off, and one that puts them back; the engine open and in hand, with two trays. */
async function atTheStep(page: Page) {
  const bench = await openBench(shop);
  const { body: other } = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Outer caps' });
  await page.goto(`/bench/${bench.jobId}/procedure`);
  await press(page, 'Begin: RACKS-OFF');
  await page.getByRole('heading', { name: 'Caps off' }).waitFor();
  return { ...bench, otherId: other.id as string };
}
const capsOf = (page: Page) => page.getByRole('group', { name: 'cam cap: which places are these from?' });

describe('by the procedure', () => {
  beforeAll(async () => {
    const pieces = [{ name: 'cam cap', expected: 5, matchedSet: 'caps' }];
    const { familyId } = shop.sheet;
    await insertProcedure(shop.sql, {
      familyId,
      code: 'RACKS-OFF',
      kind: 'strip',
      steps: [{ title: 'Caps off', pieces }],
    });
    await insertProcedure(shop.sql, {
      familyId,
      code: 'RACKS-ON',
      kind: 'assemble',
      steps: [{ title: 'Caps on', pieces }],
    });
  });

  test('some of a set are counted off by the places they came from, before they are counted; the one that turns up goes to its rack by its label', async () => {
    const { page, complaints, context } = await dashboard.at('technician', phone);
    const bench = await atTheStep(page);
    const more = page.locator('.count-lines .stepper').getByRole('button').last();
    for (let each = 0; each < 3; each += 1) await more.click();
    await page.getByRole('radio', { name: /Small parts/ }).check({ force: true });
    const go = page.getByRole('button', { name: /^Count off: 3 pieces into/ });
    expect(await go.isDisabled()).toBe(true);
    await capsOf(page).getByRole('button', { name: '1, empty' }).click();
    await capsOf(page).getByRole('button', { name: '2, empty' }).click();
    expect(await go.isDisabled()).toBe(true);
    await capsOf(page).getByRole('button', { name: '3, empty' }).click();
    // One place more is one piece more.
    await capsOf(page).getByRole('button', { name: '5, empty' }).click();
    await capsOf(page).getByText('4 are off.').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('button', { name: /^Count off: 4 pieces into/ }).click();
    await page.locator('.stop-panel').waitFor();
    const { body } = await bench.as.get(`/api/openings/${bench.openingId}/racks`);
    const [rack] = body.items;
    expect(rack.places.map(({ filled }: { filled: boolean }) => filled)).toEqual([true, true, true, false, true]);

    await wedge(page, await labelCode(shop, 'rack', rack.pieceId));
    await page.getByText('turned up, and goes back into its rack').waitFor();
    await page.getByRole('textbox').first().fill('Under the cloth');
    await page.keyboard.press('Enter');
    await expect
      .poll(async () => (await bench.as.get(`/api/racks/${rack.pieceId}`)).body.places[3].tray?.id)
      .toBe(bench.trayId);
    expect(complaints).toEqual([]);
    await context.close();
  }, 120_000);

  test('a set in two trays goes back place by place, its label chooses what lies together', async () => {
    const { page, complaints, context } = await dashboard.at('technician');
    const bench = await openBench(shop);
    const { body: other } = await bench.as.post(`/api/jobs/${bench.jobId}/trays`, { name: 'Outer caps' });
    const { body } = await bench.off([{ byHand: { ...caps, name: 'cam cap' }, count: 4 }]);
    const pieceId: string = body.pieces[0].id;
    await page.goto(`/trays/${bench.trayId}`);
    await place(page, '3, filled').click();
    await place(page, '4, filled').click();
    await press(page, 'Into another tray');
    await page.getByRole('radio', { name: /Outer caps/ }).check({ force: true });
    await press(page, 'Move 2 pieces');
    await page.getByText('In 2 places: 1, 2 in tray').waitFor();
    await page
      .getByRole('button', { name: /^3, filled, lies elsewhere/ })
      .first()
      .waitFor();

    await page.goto(`/bench/${bench.jobId}/procedure`);
    await press(page, 'Begin: RACKS-ON');
    await page.getByRole('heading', { name: 'Caps on' }).waitFor();
    await page.getByRole('group', { name: /^cam cap: which places/ }).waitFor();
    await wedge(page, await labelCode(shop, 'rack', pieceId));
    await page.getByText('the 2 in it go back on').waitFor();
    await press(page, 'Back on: 2 pieces');
    await expect.poll(async () => (await bench.as.get(`/api/racks/${pieceId}`)).body.lying.length).toBe(1);
    const { body: rack } = await bench.as.get(`/api/racks/${pieceId}`);
    expect(rack.lying[0]).toMatchObject({ tray: { id: other.id }, count: 2 });

    await page.goto('/bench');
    await page.getByRole('heading', { level: 2 }).first().waitFor();
    await wedge(page, await labelCode(shop, 'rack', pieceId));
    await page.waitForURL(`**/racks/${pieceId}`);
    await page.getByRole('heading', { name: /Rack of cam cap/ }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  }, 120_000);
});
