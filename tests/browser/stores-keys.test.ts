import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let page: Page;
let partName: string;

beforeAll(async () => {
  shop = await openShop();
  const bin = await addBin(shop.sql);
  const piston = await addPart(shop.sql, { name: 'Piston', number: 'H355-P', reorderPoint: 9 });
  const seal = await addPart(shop.sql, { name: 'Oil seal', number: 'H355-S' });
  partName = 'Piston';
  await addLot(shop, { partId: piston.id, quantity: 5, binId: bin.id, valueMinor: 500 });
  const { jobId } = await takeIn(shop, { serial: 'H355-0888' });
  await demand(shop, jobId, [
    [piston.id, 2],
    [seal.id, 1],
  ]);
  await shop.as.clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
  const lines = [{ partId: seal.id, quantity: 1, jobId }];
  expect((await shop.as.clerk.post('/api/purchase-orders', { vendorId: shop.vendorId, lines })).status).toBe(201);
  const cylinder = await addPart(shop.sql, { name: 'Cylinder', number: 'H355-CY' });
  await shop.sql`update part set core_minor = 16300 where id = ${cylinder.id}`;
  const order = await shop.as.clerk.post('/api/purchase-orders', {
    vendorId: shop.vendorId,
    lines: [{ partId: cylinder.id, quantity: 1 }],
  });
  const purchaseLineId = order.body.lines[0].id;
  const came = { partId: cylinder.id, binId: bin.id, quantity: 1, purchaseLineId };
  expect((await shop.as.clerk.post('/api/receipts', came)).status).toBe(201);
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 900 });
  page = clerk.page;
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

interface Stop {
  readonly name: string;
  readonly tag: string;
  /** An outline or a border that only what has the focus has. */
  readonly visible: boolean;
  readonly covered: boolean;
  readonly place: number;
}

/** What has the focus now: how it is told, whether one sees that it has it, and whether the foot bar lies over it. */
const stopNow = (): Promise<Stop | null> =>
  page.evaluate(() => {
    const at = document.activeElement;
    if (!(at instanceof HTMLElement) || at === document.body) return null;
    const style = getComputedStyle(at);
    const box = at.getBoundingClientRect();
    const foot = document.querySelector('.botnav');
    const footTop =
      foot !== null && getComputedStyle(foot).display !== 'none' ? foot.getBoundingClientRect().top : null;
    const inFoot = at.closest('.botnav') !== null;
    return {
      name: (at.getAttribute('aria-label') ?? at.textContent ?? '').trim().slice(0, 60) || at.id,
      tag: at.tagName,
      visible: style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) >= 2,
      covered: !inFoot && footTop !== null && box.bottom > footTop + 1 && box.height < footTop,
      place: [...document.querySelectorAll('*')].indexOf(at),
    };
  });

/** Tab after Tab through a whole view: every stop. */
async function walk(): Promise<readonly Stop[]> {
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  const stops: Stop[] = [];
  for (let at = 0; at < 120; at += 1) {
    await page.keyboard.press('Tab');
    const stop = await stopNow();
    if (stop === null) break;
    // A date takes a Tab for its day, month, year and calendar.
    if (stops.at(-1)?.place === stop.place) continue;
    if (stops.some(({ place }) => place === stop.place)) break;
    stops.push(stop);
  }
  return stops;
}

const views = [
  ['/stores', /H355-0888/],
  ['/stores/pick', /0 of 1 picked/],
  ['/stores/short', /Oil seal/],
  ['/stores/receive', /Choose the vendor/],
  ['/stores/order', /Order \d+/],
  ['/stores/count', /bins? due\./],
  ['/stores/parts', /H355-P/],
  ['/stores/bins', /Z-/],
  ['/stores/cores', /to be sent/],
] as const;

describe.each([
  [1280, 900],
  [390, 844],
] as const)('by keyboard alone, %s pixels wide', (width, height) => {
  test.each(views)(
    '%s: every stop is seen, in the order of the page, and none lies under the foot bar',
    async (path, text) => {
      await page.setViewportSize({ width, height });
      await page.goto(path);
      await page.getByText(text).first().waitFor();
      const stops = await walk();
      expect(stops.length).toBeGreaterThan(9);
      expect(stops.filter(({ visible }) => !visible).map(({ name, tag }) => `${tag} ${name}`)).toEqual([]);
      expect(stops.filter(({ covered }) => covered).map(({ name }) => name)).toEqual([]);
      expect(stops.map(({ place }) => place)).toEqual(stops.map(({ place }) => place).toSorted((a, b) => a - b));
    },
  );
});

describe('one part’s whole life', () => {
  test('is found, read and put right by keyboard alone, on a phone too', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await page.goto('/stores/parts');
    await page.getByRole('searchbox').focus();
    await page.keyboard.type('piston');
    await page.getByRole('button', { name: new RegExp(`^${partName}`) }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /^Piston/ }).waitFor();
    const stops = await walk();
    expect(stops.filter(({ visible, covered }) => !visible || covered)).toEqual([]);
    await page.getByRole('button', { name: /^Correct/ }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await expect.poll(async () => (await stopNow())?.name).toMatch(/^Correct/);
  });
});

describe.each(['light', 'dark'] as const)('axe, %s', (colorScheme) => {
  test.each(views)('%s', async (path, text) => {
    await page.emulateMedia({ colorScheme });
    for (const width of [390, 1280]) {
      await page.setViewportSize({ width, height: 3000 });
      await page.goto(path);
      await page.getByText(text).first().waitFor();
      expect(await violationsOn(page), `at ${width}`).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    }
  });
});
