import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { insertAssemblySheet, insertShims, insertWrenches } from '../support/assembly-sheet.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { keyBlades } from './walk/measuring.ts';

let shop: Shop;
let dashboard: Dashboard;
let jobId: string;

/** Each valve with its lash as received (blade that goes, blade that does not) and the shim in it by micrometer. */
const valves = [
  { code: 'in-l', name: 'intake left', goes: '0.080', doesNot: '0.090', fitted: '2.350' },
  { code: 'in-r', name: 'intake right', goes: '0.120', doesNot: '0.130', fitted: '2.320' },
  { code: 'ex-l', name: 'exhaust left', goes: '0.170', doesNot: '0.180', fitted: '2.305' },
  { code: 'ex-r', name: 'exhaust right', goes: '0.190', doesNot: '0.200', fitted: '2.335' },
] as const;

beforeAll(async () => {
  shop = await openShop();
  const { familyId } = await insertAssemblySheet(
    shop.sql,
    shop.people.lead,
    valves.slice(1).map(({ code, name }) => ({ code: code.toUpperCase(), name })),
  );
  await insertShims(shop.sql, { thicknesses: [2.3, 2.35, 2.4], count: 2, movedById: shop.people.clerk });
  await insertWrenches(shop.sql);
  const gauges = await insertInstruments(shop.sql, shop.people.lead);
  for (const blade of [80, 90, 120, 130, 140, 170, 180, 190]) {
    await shop.sql`
      insert into instrument_blade (id, instrument_id, thickness_nm, tolerance_nm)
      values (${newId()}, ${gauges['FE-1'] ?? ''}, ${blade * 1000}, 2000)`;
  }
  const { body } = await shop.as.writer.post('/api/jobs', {
    engine: { serial: 'H388-0901', familyId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '140',
    complaint: 'Ticks when cold',
    bayId: shop.bays.rack,
  });
  jobId = body.id;
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const bolt = (page: Page, number: number) => button(page, new RegExp(`^bolt ${number},`));
const seen = (page: Page, text: string | RegExp) => page.getByText(text).first().waitFor();
const assembly = async () => (await shop.as.technician.get(`/api/jobs/${jobId}/assembly`)).body;
type Valve = { name: string; verified: string; choice: { words: string; thickness: { value: string } } | null };

async function readings(): Promise<number> {
  const [row] = await shop.sql<{ count: number }[]>`select count(*)::int as count from reading where job_id = ${jobId}`;
  return row?.count ?? 0;
}

async function measureLash(
  page: Page,
  round: string,
  felt: (valve: (typeof valves)[number]) => readonly [string, string],
) {
  for (const valve of valves) {
    const before = await readings();
    await page.goto(`/bench/${jobId}/measure?dimension=lash-${valve.code}&round=${encodeURIComponent(round)}`);
    await keyBlades(page, ...felt(valve));
    await expect.poll(readings, { timeout: 15_000 }).toBe(before + 1);
  }
}

describe('an engine is built up', () => {
  let page: Page;
  let complaints: readonly unknown[];
  beforeAll(async () => {
    ({ page, complaints } = await dashboard.at('technician', { width: 1700, height: 1100 }));
  });

  test('the lash of a four-valve head is felt with blades', async () => {
    await measureLash(page, 'as received', ({ goes, doesNot }) => [goes, doesNot]);
    const felt = async () =>
      (await assembly()).valves.filter(({ lash }: { lash: object | null }) => lash !== null).length;
    await expect.poll(felt, { timeout: 15_000 }).toBe(4);
  });

  test('the whole head gets shims from the engine and from the bin, in one step', async () => {
    await page.goto(`/bench/${jobId}/assemble?step=lash`);
    const whole = page.getByRole('region', { name: 'All valves at once' });
    for (const { name, fitted } of valves) {
      await page.locator('.valve-choice').getByRole('button', { name }).click();
      await page.getByLabel('Shim in it now, mm').fill(fitted);
    }
    await whole.getByRole('button', { name: 'Which shims for all valves?' }).click();
    await whole.getByText(/4 in range for sure.*From the bins: 1; to buy: 0/).waitFor();
    await whole.getByRole('button', { name: 'Take them all' }).click();
    await whole.getByRole('button', { name: 'Take them all' }).waitFor({ state: 'detached' });
    const chosen = (await assembly()).valves.map(({ choice }: Valve) => choice?.words);
    expect(chosen).toEqual([
      'from exhaust left',
      'the shim in it stays',
      'from intake left',
      expect.stringContaining('S-14'),
    ]);
    const demands = await shop.as.clerk.get(`/api/jobs/${jobId}/demands`);
    expect(demands.body.lines).toMatchObject([{ part: { number: 'SH-748-2.40' }, wanted: 1, reserved: 1 }]);
  });

  test('measured again as built, every valve is verified', async () => {
    expect((await assembly()).valves.some(({ verified }: Valve) => verified === 'in-range')).toBe(false);
    await measureLash(page, 'as built', () => ['0.120', '0.130']);
    expect((await assembly()).valves.map(({ verified }: Valve) => verified)).toEqual(valves.map(() => 'in-range'));
  });

  test('the head bolts are pulled in two stages by a wrench that types; one missed pull is caught', async () => {
    await page.goto(`/bench/${jobId}/assemble?step=fasteners`);
    await seen(page, 'Threads and faces oiled');
    for (const value of ['20.1', '19.8']) {
      await page.keyboard.type(value);
      await page.keyboard.press('Enter');
    }
    await bolt(page, 4).click();
    await seen(page, 'Not taken: bolt 3 comes before bolt 4. Pull them in order.');
    await page.getByLabel('An adapter is on the wrench').check();
    await page.getByLabel('Grip to square, mm').fill('400');
    await page.getByLabel('Square to bolt, mm').fill('45');
    await seen(page, 'Set the wrench to 18.0 N·m:');
    await button(page, 'Bolt 3 pulled at 18.0 N·m').click();
    await page.getByLabel('An adapter is on the wrench').uncheck();
    await bolt(page, 4).click();
    await seen(page, 'Bolt 1 turned 90°');
    for (const number of [1, 2, 3, 4]) await bolt(page, number).click();
    await seen(page, 'Every position, every stage: complete.');
    await expect.poll(async () => (await assembly()).sets[0].complete, { timeout: 15_000 }).toBe(true);
    const { pulls } = (await assembly()).sets[0];
    expect(
      pulls
        .map(({ value, atBolt }: { value: { value: string }; atBolt: { value: string } | null }) => [
          value.value,
          atBolt?.value ?? null,
        ])
        .slice(0, 4),
    ).toEqual([
      ['20.1', null],
      ['19.8', null],
      ['18.0', '20.0'],
      ['20.0', null],
    ]);
    expect(pulls[0].instrumentCode).toBe('TW-1');
  });

  test('the ring gaps are turned, their marks looked at, and a second person signs', async () => {
    await page.goto(`/bench/${jobId}/assemble?step=rings`);
    await page.getByRole('spinbutton', { name: 'Gap of second ring, degrees' }).fill('90');
    await seen(page, /the pin \(80° to 100°\)/);
    await page.getByRole('spinbutton', { name: 'Gap of second ring, degrees' }).fill('200');
    for (const ring of ['Mark “R” of top ring faces', 'Mark of second ring faces'])
      await page.getByRole('radiogroup', { name: ring }).getByText('crown').click();
    await button(page, 'Record the gaps').click();
    await seen(page, 'A second person looks and signs.');
    const oskar = await dashboard.at('colleague');
    await oskar.page.goto(`/bench/${jobId}/assemble?step=rings`);
    await button(oskar.page, 'Sign the ring gaps off').click();
    await seen(oskar.page, /Signed off by Oskar Pell/);
    await oskar.context.close();
  });

  test('all of it is on the build sheet', async () => {
    await page.goto(`/sheets/${jobId}`);
    await seen(page, 'head bolts');
    const text = (await page.locator('main').textContent())?.replaceAll(/\s+/g, ' ');
    for (const part of [
      'oiled, TW-1, Nadia Quill',
      '8 pulls, complete',
      'top ring 20°, mark “R” to the crown',
      'second ring 200°, mark to the crown',
      'placed Nadia Quill, signed Oskar Pell',
      'intake left: 2.305 mm from exhaust left',
      'exhaust left: 2.350 mm from intake left',
      'exhaust right: 2.400 mm',
    ]) {
      expect(text).toContain(part);
    }
    expect(complaints).toEqual([]);
  });
});
