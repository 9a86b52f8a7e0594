import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { button, choose, seen } from './walk/at-the-page.ts';

/**
 * A clutch basket, which no line of the program knows: its smallest width over the tangs, the width that the sheet
 * states for a new one, and what is worn off it in per cent. All figures invented. By hand, at 20 °C unsaid, with the
 * micrometer's u = √(0.001²/12 + 0.002²/3 + 0.0008²) = 0.00143 and g = 1.65 u = 0.0024, on the sheet ± 0.002:
 * 82.150 + 0.0024 < 82.200: past the limit; (82.450 − 82.150) / 82.450 = 0.364 % > 0.300 %: past the limit.
 * Renewed, 82.430: from 82.400 up it is as new; (82.450 − 82.430) / 82.450 = 0.024 % is within 0.100 %.
 */
const nothing = {
  boreRule: null,
  readingsOf: null,
  minuend: null,
  subtrahend: null,
  numerator: null,
  denominator: null,
  scale: null,
  stated: null,
  nominal: null,
  plausibleSpan: null,
  rule: 'iso-14253-1-2017',
  inside: true,
  caution: '',
  source: 'invented',
  page: 'p. 40',
  place: 'clutch basket',
  kind: 'length',
  unit: 'mm',
  decimals: 3,
  instrumentKind: '',
  positions: [],
  limits: [],
} as const;
const mm = (value: string) => ({ value, unit: 'mm' });
const percent = (value: string) => ({ value, unit: '%' });
const at = (code: string, label: string) => ({ code, label, level: null, axis: null, height: null });
const basket = {
  place: {
    code: 'clutch basket',
    name: 'Clutch basket',
    layer: 'case',
    material: 'aluminium alloy',
    expansion: null,
    plated: false,
  },
  dimensions: [
    {
      ...nothing,
      code: 'basket-width',
      name: 'Clutch basket, over the tangs',
      method: 'minimum',
      instrumentKind: 'micrometer',
      positions: [at('1', 'at the mark'), at('2', 'opposite')],
      limits: [
        {
          sizeClass: 'standard',
          standard: { low: mm('82.400'), high: mm('82.500') },
          service: { low: mm('82.200'), high: null },
        },
      ],
    },
    { ...nothing, code: 'basket-new', name: 'Clutch basket when new', method: 'stated', stated: mm('82.450') },
    {
      ...nothing,
      code: 'basket-less',
      name: 'Clutch basket, less than new',
      method: 'difference',
      minuend: 'basket-new',
      subtrahend: 'basket-width',
    },
    {
      ...nothing,
      code: 'basket-worn',
      name: 'Clutch basket, worn off',
      kind: 'ratio',
      unit: '%',
      decimals: 2,
      method: 'ratio',
      numerator: 'basket-less',
      denominator: 'basket-new',
      limits: [
        {
          sizeClass: 'standard',
          standard: { low: null, high: percent('0.10') },
          service: { low: null, high: percent('0.30') },
        },
      ],
    },
  ],
} as const;

let shop: Shop;
let dashboard: Dashboard;
let jobs: { readonly before: string; readonly after: string };
let engineId: string;
let technician: AtTerminal;

beforeAll(async () => {
  shop = await openShop();
  const { lead } = shop.as;
  await insertInstruments(shop.sql, shop.people.lead);
  const before = await takeIn(shop, { serial: 'H355-0801' });
  const begun = await lead.post(`/api/families/${shop.sheet.familyId}/spec-revisions`, {
    copyOf: shop.sheet.revisionId,
  });
  const url = `/api/spec-revisions/${begun.body.id}`;
  const sheet: SpecSheetDocument = (await lead.get(`${url}/sheet.json`)).body;
  const wider = {
    ...sheet,
    places: [...sheet.places, basket.place],
    dimensions: [...sheet.dimensions, ...basket.dimensions],
  };
  const put = await lead.put(`${url}/sheet.json`, wider, { 'if-match': `"${begun.body.version}"` });
  expect(put.status, JSON.stringify(put.body)).toBe(200);
  const published = await lead.post(`${url}/publish`, undefined, { 'if-match': `"${put.body.version}"` });
  expect(published.status, JSON.stringify(published.body)).toBe(200);
  const after = await takeIn(shop, { serial: 'H355-0802' });
  jobs = { before: before.jobId, after: after.jobId };
  engineId = after.engineId;
  dashboard = await openDashboard(shop);
  technician = await dashboard.at('technician');
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

async function keyed(page: Page, ...keys: readonly string[]) {
  for (const key of keys) await page.keyboard.press(key);
}

/** Goes to the basket from whatever is asked for, by the list and its name. */
async function takeUpTheBasket(page: Page) {
  await keyed(page, 'F2');
  await page.getByRole('textbox', { name: 'Find' }).waitFor();
  await page.keyboard.type('over the tangs');
  await keyed(page, 'Enter');
  await page.getByRole('region', { name: 'Clutch basket, over the tangs', exact: true }).waitFor();
}

const verdicts = async () =>
  (await shop.as.technician.get(`/api/jobs/${jobs.after}/findings`)).body.items
    .filter(({ dimension }: { dimension: string }) => dimension.startsWith('basket'))
    .map(({ dimension, round, verdict }: Record<string, string>) => `${dimension}, ${round}: ${verdict}`);

describe.sequential('a dimension that only a sheet knows', () => {
  test('a job of the revision before does not have it', async () => {
    const { body } = await shop.as.technician.get(`/api/jobs/${jobs.before}/bench`);
    expect(body.dimensions.filter(({ code }: { code: string }) => code.startsWith('basket'))).toEqual([]);
  });

  test('is found, keyed and judged by keyboard alone, with what is worked out of it', async () => {
    const { page } = technician;
    await page.goto(`/bench/${jobs.after}/measure`);
    await page.locator('.measure').waitFor();
    await page.evaluate(() => {
      for (const touch of ['pointerdown', 'mousedown', 'touchstart'])
        addEventListener(touch, () => sessionStorage.setItem('touched', 'yes'), { capture: true });
    });
    await takeUpTheBasket(page);
    await page.keyboard.type('82.150');
    await seen(page, 'past the limit');
    await keyed(page, 'Enter');
    await page.keyboard.type('82.240');
    await keyed(page, 'Enter');
    await seen(
      page.locator('.done-panel'),
      /^Clutch basket, over the tangs: 82\.150 mm, 0\.050 mm past the lower limit/,
    );
    const worn = page.locator('.derived').filter({ hasText: 'Clutch basket, worn off: 0.255 % to 0.364 %, ' });
    await worn.waitFor();
    await seen(page, 'Somebody has to decide: 2 open questions.');
    expect(await page.evaluate(() => sessionStorage.getItem('touched'))).toBeNull();
    expect(await verdicts()).toEqual([
      'basket-width, as received: past the limit',
      'basket-worn, as received: past the limit',
    ]);
  });

  test('what it obliges to is decided once for both', async () => {
    const { page, complaints } = await dashboard.at('lead');
    await page.goto(`/engines/${engineId}`);
    await seen(page, /^Clutch basket, over the tangs, as received: 82\.150 mm/);
    await button(page, 'Decide').and(page.locator('.main')).first().click();
    const dialog = page.getByRole('dialog');
    await choose(dialog, /^renew/);
    for (const other of await dialog.getByRole('group').getByRole('checkbox').all()) await other.check();
    await button(dialog, 'Decide').click();
    await dialog.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('measured again after the work, by keyboard, it discharges both', async () => {
    const { page } = technician;
    await page.goto(`/bench/${jobs.after}/measure?round=after work`);
    await page.locator('.measure').waitFor();
    await takeUpTheBasket(page);
    await page.keyboard.type('82.430 82.440');
    await seen(page, 'Keep 2 readings');
    await keyed(page, 'Enter');
    await seen(page.locator('.verdict-panel'), 'within standard');
    const worn = page.locator('.derived').filter({ hasText: 'Clutch basket, worn off: 0.012 % to 0.024 %, ' });
    await worn.waitFor();
    expect((await verdicts()).filter((said: string) => said.includes('after work'))).toEqual([
      'basket-width, after work: within standard',
      'basket-worn, after work: within standard',
    ]);
    const { body } = await shop.as.lead.get(`/api/engines/${engineId}`);
    const open = body.obligations.filter(({ discharge }: { discharge: object | null }) => discharge === null);
    expect(open).toEqual([]);
    expect(technician.complaints).toEqual([]);
  });

  test('the build sheet tells it before and after, with its verdict', async () => {
    const { page } = technician;
    await page.goto(`/sheets/${jobs.after}`);
    const row = (name: string) => page.getByRole('row').filter({ hasText: name });
    for (const figure of ['82.150 ± 0.002', '82.430 ± 0.002', 'within standard'])
      await seen(row('Clutch basket, over the tangs'), figure);
    for (const figure of ['0.25 – 0.36', '0.01 – 0.02', '± 0.003', 'within standard'])
      await seen(row('Clutch basket, worn off'), figure);
    expect(technician.complaints).toEqual([]);
  });
});
