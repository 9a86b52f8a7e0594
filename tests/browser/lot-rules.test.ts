import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { boreOf, insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addLot, addPart, demand, none, standing } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let job: Awaited<ReturnType<typeof takeIn>>;
let shell: { id: string; number: string };
let oversize: { id: string; number: string };

beforeAll(async () => {
  shop = await openShop();
  const { sql } = shop;
  await insertInstruments(sql, shop.people.lead);
  job = await takeIn(shop, { serial: 'H355-0433' });
  shell = await addPart(sql, { number: 'H355-MB', name: 'Main bearing shell' });
  await addLot(shop, { partId: shell.id, quantity: 4, grade: 'A', receivedAt: '2025-01-01T00:00:00Z' });
  await addLot(shop, { partId: shell.id, quantity: 1, grade: 'B' });
  oversize = await addPart(sql, {
    number: 'H355-P25',
    name: 'Piston, +0.25',
    familyId: shop.sheet.familyId,
    placeCode: 'piston',
  });
  await sql`update part set size_class = '+0.25' where id = ${oversize.id}`;
  await addLot(shop, { partId: oversize.id, quantity: 2 });
  await demand(shop, job.jobId, [[shell.id, 2]]);
  await shop.as.technician.post(`/api/jobs/${job.jobId}/reservations`, { allOrNothing: false });
  const worn = ['88.062', '88.058', '88.055', '88.051', '88.050', '88.049'];
  const { status, body } = await shop.as.technician.post(`/api/jobs/${job.jobId}/readings`, {
    round: 'as received',
    dimension: 'bore',
    readings: boreOf(worn),
  });
  expect(status, JSON.stringify(body)).toBe(201);
  dashboard = await openDashboard(shop);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

describe('by which rule the lots of a line are chosen', { sequential: true }, () => {
  test('is set in the dialog of the line, with a reason, and the line and the engine tell of it', async () => {
    const { page, complaints } = await dashboard.at('clerk', { width: 1280, height: 1000 });
    await page.goto('/stores');
    await page.getByRole('button', { name: 'More about Main bearing shell' }).first().click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText('Choose lots by a rule').first().click();
    await dialog.getByText('One grade').click();
    await dialog.getByText('In stock: A, B.').waitFor();
    const go = dialog.getByRole('button', { name: 'Choose lots by a rule' });
    expect(await go.isDisabled()).toBe(true);
    await dialog.getByLabel('Grade', { exact: true }).fill('B');
    await dialog.getByLabel('Reason').fill('the journal is of the second class');
    await go.click();
    await dialog.waitFor({ state: 'detached' });
    await page.locator(`.line`).getByText('in grade B').waitFor();
    await makeRound(shop.sql);
    expect(await standing(shop, job.jobId, shell.id)).toEqual({ ...none, short: 1, reserved: 1 });
    await page.getByRole('button', { name: 'More about Main bearing shell' }).first().click();
    await dialog.getByText('Choose lots by a rule').first().click();
    await dialog.getByText(/the journal is of the second class/).waitFor();
    for (const told of ['/stores/short', '/stores/order', '/']) {
      await page.goto(told);
      await page
        .getByText(/in grade B/)
        .first()
        .waitFor();
    }
    await page.goto(`/engines/${job.engineId}`);
    await page
      .getByText(/Lots of Main bearing shell: in grade B/)
      .first()
      .waitFor();
    expect(complaints).toEqual([]);
  });

  test('is read by who takes a lot against it, and why it was taken stays with the line', async () => {
    const { page, complaints } = await dashboard.at('clerk', { width: 1280, height: 1000 });
    await page.goto('/stores');
    await page.getByRole('button', { name: 'More about Main bearing shell' }).first().click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText('Reserve out of a lot').first().click();
    await dialog.getByText('not what the rule of the line asks for').first().click();
    const go = dialog.getByRole('button', { name: 'Reserve out of a lot' });
    expect(await go.isDisabled()).toBe(true);
    await dialog.getByLabel('Why it is taken against the rule').fill('measured: within 0.002 mm of B');
    await go.click();
    await dialog.waitFor({ state: 'detached' });
    await page.getByText('taken against the rule: measured: within 0.002 mm of B').waitFor();
    expect(await standing(shop, job.jobId, shell.id)).toEqual({ ...none, reserved: 2 });
    expect(complaints).toEqual([]);
  });

  test('a mark that was misread is put right on the page of the part', async () => {
    const { page, complaints } = await dashboard.at('clerk', { width: 1280, height: 1000 });
    await page.goto('/stores/parts');
    await page.getByLabel('Find a part').fill('H355-MB');
    await page.getByRole('button', { name: /Main bearing shell/ }).click();
    await page
      .getByRole('button', { name: /^Correct what lies in/ })
      .first()
      .click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText('Its marks put right').click();
    const go = dialog.getByRole('button', { name: 'Write it down' });
    await dialog.getByLabel('Reason').fill('read upside down');
    expect(await go.isDisabled()).toBe(true);
    await dialog.getByLabel('Grade').fill('C');
    await go.click();
    await dialog.getByText('Written down.').waitFor();
    await dialog.getByRole('button', { name: 'Close' }).click();
    await page.getByRole('cell', { name: 'C', exact: true }).waitFor();
    expect(complaints).toEqual([]);
    const lots = await shop.sql`select grade from stock_lot where part_id = ${shell.id} order by received_at`;
    expect(lots.map(({ grade }) => grade)).toEqual(['C', 'B']);
  });

  test('is asked for with the part itself', async () => {
    const { page, complaints } = await dashboard.at('clerk', { width: 1280, height: 1000 });
    const other = await takeIn(shop, { serial: 'H355-0434' });
    await page.goto('/stores');
    await page.getByRole('button', { name: 'Ask for parts' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('For the job').selectOption(other.jobId);
    await dialog.getByText('A single part').click();
    await dialog.getByLabel('Part', { exact: true }).fill('H355-MB');
    await dialog.getByRole('button', { name: 'Choose Main bearing shell' }).click();
    await dialog.getByText('In stock: B, C.').waitFor();
    await dialog.getByLabel('Only in the grade (empty: any lot)').fill('c');
    await dialog.getByLabel('What for').fill('journal of class 3');
    await dialog.getByRole('button', { name: 'Ask for it' }).click();
    await dialog.waitFor({ state: 'detached' });
    const { body } = await shop.as.clerk.get(`/api/jobs/${other.jobId}/demands`);
    expect(body.lines).toMatchObject([
      { lotRule: { grade: 'c', cause: 'grade asked', reason: 'journal of class 3', by: expect.any(String) } },
    ]);
    expect(complaints).toEqual([]);
  });

  test('axe finds nothing in the dialog, and nothing of it is cut off, on a phone and in the dark', async () => {
    for (const width of [390, 1280]) {
      const { page } = await dashboard.at('clerk', { width, height: 1200 });
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme });
        await page.goto('/stores');
        await page.getByRole('button', { name: 'More about Main bearing shell' }).first().click();
        const dialog = page.getByRole('dialog');
        await dialog.getByText('Choose lots by a rule').first().click();
        await dialog.getByText('One grade').click();
        await dialog.getByText('In stock: B, C.').waitFor();
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
        expect(await violationsOn(page, '[role=dialog]')).toEqual([]);
      }
    }
  });
});

describe('the smallest oversize that will do', { sequential: true }, () => {
  test('is refused by its figures where a smaller one is typed, and decided on by one tap, which asks for its part', async () => {
    const { page } = await dashboard.at('technician', { width: 1280, height: 1100 });
    await page.goto(`/engines/${job.engineId}`);
    const section = page.getByRole('region', { name: 'Obligations' });
    await section.getByRole('button', { name: 'Decide' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.getByText('bore to a size', { exact: true }).click();
    await dialog.getByText(/\+0\.25 is the smallest that will do: 2 in stores as H355-P25/).waitFor();
    await dialog.getByLabel('Size class to bore to').fill('standard');
    await dialog.getByRole('button', { name: 'Decide' }).click();
    await dialog.getByText(/Only a lead may decide on it all the same, with a reason/).waitFor();
    await dialog.getByRole('button', { name: 'Bore to +0.25 and ask for H355-P25' }).click();
    expect(await dialog.getByLabel('Size class to bore to').inputValue()).toBe('+0.25');
    await dialog.getByRole('button', { name: 'Decide' }).click();
    await dialog.waitFor({ state: 'detached' });
    expect(await standing(shop, job.jobId, oversize.id)).toEqual({ ...none, notAsked: 1 });
    const { body } = await shop.as.technician.get(`/api/jobs/${job.jobId}/obligations`);
    expect(body.items[0]).toMatchObject({ state: 'decided', decided: { kind: 'bore', sizeClass: '+0.25' } });
  });
});
