import { mkdirSync, truncateSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { contentFile, flipByte } from '../support/files.ts';
import { jpeg } from '../support/pictures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { filesOf } from '../support/test-config.ts';

let shop: Shop;
let dashboard: Dashboard;
let jobId: string;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
  ({ jobId } = await takeIn(shop, { serial: 'H355-F40' }));
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

async function keep(width: number, caption: string): Promise<string> {
  const { token } = await startSession(shop.sql, { personId: shop.people.technician, terminalId: undefined });
  const sent = await shop.app.inject({
    method: 'POST',
    url: `/api/jobs/${jobId}/photos?place=cylinder&caption=${caption}`,
    payload: await jpeg(width, 200),
    headers: { 'content-type': 'image/jpeg', 'idempotency-key': crypto.randomUUID() },
    cookies: { [SESSION_COOKIE]: token },
  });
  const [row] = await shop.sql<{ hash: string }[]>`select hash from photo where id = ${sent.json().id}`;
  return contentFile(filesOf(shop.url), row?.hash ?? '');
}

const filesOn = (page: Page) => page.getByRole('region', { name: 'Photos and documents' });
const look = async (page: Page) => {
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  expect(await violationsOn(page)).toEqual([]);
};

describe('the lead has all photos and documents checked', { sequential: true }, () => {
  test('is told that all is well, and after a disk changed one bit which photo of which engine it was', async () => {
    await keep(300, 'Whole');
    const file = await keep(301, 'Scored');
    const { page, complaints, context } = await dashboard.at('lead', { width: 390, height: 844 });
    await page.goto('/shop');
    const files = filesOn(page);
    await files.getByRole('button', { name: 'Check all files' }).click();
    await files.getByText('Every photo and document is there, as it was stored.').waitFor();
    await files.getByText('none', { exact: true }).waitFor();
    flipByte(file);
    await files.getByRole('button', { name: 'Check again' }).click();
    await files.getByRole('heading', { name: '1 file is no longer what was stored' }).waitFor();
    await files.getByText(/part: .*, Scored$/).waitFor();
    await files.getByText(file.slice(file.lastIndexOf(path.sep) + 1)).waitFor();
    await files.getByRole('button', { name: 'Check again' }).waitFor();
    await look(page);
    await files.getByRole('link', { name: 'H355-F40' }).click();
    await page.waitForURL(/\/engines\/.*#photos$/);
    flipByte(file);
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('stops it half-way, and is told that nothing is known of the rest', async () => {
    // So long that it is not read to its end while the test lasts.
    const long = contentFile(filesOf(shop.url), `88${'0'.repeat(62)}`);
    mkdirSync(path.dirname(long), { recursive: true });
    writeFileSync(long, '');
    truncateSync(long, 200_000_000_000);
    const { page, complaints, context } = await dashboard.at('lead');
    await page.goto('/shop');
    const files = filesOn(page);
    await files.getByRole('button', { name: 'Check all files' }).click();
    await files.getByText('8 of 16 parts of the folder').waitFor();
    await look(page);
    await files.getByRole('button', { name: 'Stop the check' }).click();
    await files.getByText('Stopped after 8 of 16 parts. Of the others nothing is known.').waitFor();
    expect(await files.getByText('Every photo and document is there').count()).toBe(0);
    truncateSync(long, 10);
    await files.getByRole('button', { name: 'Check again' }).click();
    await files.getByRole('heading', { name: '1 file belongs to no photo' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
