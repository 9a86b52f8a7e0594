import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { jpeg } from '../support/pictures.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { until } from '../support/until.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: typeof name === 'string' });

async function fill(page: Page, serial: string) {
  await page.goto('/counter');
  await page.getByLabel('Serial').fill(serial);
  await page.getByLabel('Family').selectOption({ label: 'Halden 355' });
  await page.getByLabel('Owner', { exact: true }).fill('Ingrid Falk');
  await page.getByLabel('Hours on the meter').fill('243');
  await page.getByLabel('Put down in').selectOption({ label: await rackOf(page) });
  await page.getByLabel('Complaint').fill('Drinks coolant');
}
const rackOf = async (page: Page): Promise<string> =>
  (await page.getByLabel('Put down in').locator('option').allTextContents()).find((text) => text.startsWith('Rack')) ??
  '';

const axe = async (page: Page) => {
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  expect(await violationsOn(page)).toEqual([]);
};
const photosOf = async (serial: string) => {
  const [engine] = await shop.sql<{ id: string }[]>`select id from engine where serial = ${serial}`;
  if (engine === undefined) return [];
  return (await shop.as.writer.get(`/api/engines/${engine.id}/photos`)).body.items;
};
describe('a writer takes photos of an engine while taking it in', () => {
  test('by the terminal’s camera: they stand in the form, then at the job, then on the timeline', async () => {
    const { page, complaints, context } = await dashboard.at('writer', { width: 1280, height: 1000 });
    await fill(page, 'H355-T1');
    await button(page, 'Take photos').click();
    const sheet = page.getByRole('dialog', { name: 'Photos of its state' });
    await sheet.getByLabel('What it shows (may stay empty)').fill('Bent footrest');
    await sheet.getByRole('button', { name: 'Take it', exact: true }).click();
    await sheet.getByLabel('What it shows (may stay empty)').fill('Blurred');
    await sheet.getByRole('button', { name: 'Take it', exact: true }).click();
    await sheet.getByText('2 photos taken, to be sent once the engine is taken in.').waitFor();
    await axe(page);
    await button(page, 'Done').click();
    await sheet.waitFor({ state: 'detached' });
    const form = page.getByRole('group', { name: 'Photos of its state' });
    await form.getByRole('button', { name: 'Throw it away: Blurred' }).click();
    await form.getByText('Bent footrest').waitFor();
    expect(await form.getByText('Blurred').count()).toBe(0);
    await axe(page);
    expect(await photosOf('H355-T1')).toEqual([]);
    const takenBefore = Date.now();
    await button(page, 'Take it in').click();
    await page.waitForURL(/\/counter\/[0-9a-f-]+$/);
    await button(page, 'Look at: Bent footrest').waitFor();
    const [photo, ...others] = await photosOf('H355-T1');
    expect(others).toEqual([]);
    expect(photo).toMatchObject({ caption: 'Bent footrest', of: { kind: 'job' }, by: { id: shop.people.writer } });
    expect(Date.parse(photo.takenAt), 'taken when it was taken, not when it was sent').toBeLessThan(takenBefore);
    await page.getByRole('link', { name: 'Engine’s page' }).click();
    await page.getByText('Photo taken, Bent footrest').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('as files from a phone: what is no picture is said at once, a refused take-in keeps them in the form', async () => {
    const { page, context } = await dashboard.at('writer', { width: 390, height: 844 });
    await fill(page, 'H355-T2');
    await button(page, 'Take photos').click();
    await page
      .locator('input[type=file]')
      .last()
      .setInputFiles([
        { name: 'left.jpg', mimeType: 'image/jpeg', buffer: await jpeg(640, 480) },
        { name: 'song.mp3', mimeType: 'audio/mpeg', buffer: Buffer.from('x') },
      ]);
    await page.getByText('song.mp3 is neither a picture nor a PDF').waitFor();
    await button(page, 'Done').click();
    await page.getByText('Photo 1', { exact: true }).waitFor();
    // As high as the page is, the foot bar of a phone lies over nothing.
    await page.setViewportSize({ width: 390, height: 2600 });
    await axe(page);
    await page.route('**/api/jobs', (route) => route.abort());
    await button(page, 'Take it in').click();
    await page.getByRole('alert').first().waitFor();
    await page.getByText('Photo 1', { exact: true }).waitFor();
    await page.unroute('**/api/jobs');
    await button(page, 'Take it in').click();
    await page.waitForURL(/\/counter\/[0-9a-f-]+$/);
    expect(
      await until(
        () => photosOf('H355-T2'),
        (items) => items.length > 0,
      ),
    ).toHaveLength(1);
    await context.close();
  });

  test('when they can’t be sent the engine is taken in all the same, and they are told as not sent until they are', async () => {
    const { page, context } = await dashboard.at('writer', { width: 390, height: 844 });
    await fill(page, 'H355-T3');
    await button(page, 'Take photos').click();
    await page
      .locator('input[type=file]')
      .last()
      .setInputFiles([
        { name: 'left.jpg', mimeType: 'image/jpeg', buffer: await jpeg(640, 482) },
        { name: 'renamed.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') },
      ]);
    await button(page, 'Done').click();
    await page.route('**/api/jobs/*/photos?*', (route) => route.abort());
    await button(page, 'Take it in').click();
    await page.waitForURL(/\/counter\/[0-9a-f-]+$/);
    const photos = page.locator('section', { has: page.locator('#photos') });
    await photos.getByText(/^2 are not with the server yet\. They are kept on this terminal/).waitFor();
    await axe(page);
    await page.reload();
    await photos.getByText(/^2 are not with the server yet/).waitFor();
    const [job] =
      await shop.sql`select count(*)::int as jobs from job j join engine e on e.id = j.engine_id where e.serial = 'H355-T3'`;
    expect(job).toEqual({ jobs: 1 });
    await page.unroute('**/api/jobs/*/photos?*');
    await photos.getByText(/Not kept by the server: This is neither a JPEG/).waitFor();
    expect(
      await until(
        () => photosOf('H355-T3'),
        (items) => items.length > 0,
      ),
    ).toHaveLength(1);
    await photos.getByText(/not with the server yet/).waitFor({ state: 'detached' });
    await context.close();
  });

  test('a reload loses none: they are offered to who took them, until they are used or thrown away', async () => {
    const { page, complaints, context } = await dashboard.at('writer', { width: 390, height: 844 });
    const group = page.getByRole('group', { name: 'Photos of its state' });
    const offer = group.getByText(/of a take-in that was not finished, taken by you/);
    const takeOne = async (name: string, width: number) => {
      await button(page, 'Take photos').click();
      const buffer = await jpeg(width, 480);
      await page
        .locator('input[type=file]')
        .last()
        .setInputFiles([{ name, mimeType: 'image/jpeg', buffer }]);
      await button(page, 'Done').click();
    };
    await fill(page, 'H355-T4');
    await takeOne('left.jpg', 651);
    await group.getByText('Photo 1', { exact: true }).waitFor();
    await page.reload();
    await offer.waitFor();
    await page.setViewportSize({ width: 390, height: 2600 });
    await axe(page);
    expect(await button(page, 'Throw it away: Photo 1').count(), 'in no form until somebody says so').toBe(0);
    await fill(page, 'H355-T4');
    await button(page, 'Yes, they go with it').click();
    await takeOne('right.jpg', 652);
    await button(page, 'Take it in').click();
    await page.waitForURL(/\/counter\/[0-9a-f-]+$/);
    const both = await until(
      () => photosOf('H355-T4'),
      (items) => items.length === 2,
    );
    expect(both).toHaveLength(2);
    await page.goto('/counter');
    await button(page, 'Take photos').waitFor();
    expect(await offer.count()).toBe(0);
    await takeOne('again.jpg', 653);
    await button(page, 'Begin anew').click();
    await group.getByText('Photo 1', { exact: true }).waitFor({ state: 'detached' });
    await takeOne('and-again.jpg', 654);
    await page.reload();
    await offer.waitFor();
    await button(page, 'No, throw them away').click();
    await offer.waitFor({ state: 'detached' });
    await page.reload();
    await button(page, 'Take photos').waitFor();
    await page.waitForTimeout(300);
    expect(await offer.count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
