import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertProcedure, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let strip: WrittenProcedure;
let assemble: WrittenProcedure;
beforeAll(async () => {
  shop = await openShop();
  const { familyId } = shop.sheet;
  strip = await insertProcedure(shop.sql, {
    familyId,
    code: 'caps-off',
    kind: 'strip',
    steps: [{ title: 'Caps off', pieces: [{ name: 'cap dowel', expected: 8 }] }, { title: 'Cams out' }],
  });
  assemble = await insertProcedure(shop.sql, {
    familyId,
    code: 'caps-on',
    kind: 'assemble',
    steps: [{ title: 'Caps on' }, { title: 'Time the cams', secondPerson: true }],
  });
  dashboard = await openDashboard(shop);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const fill = (page: Page, label: string, text: string) => page.getByLabel(label).fill(text);

/** An open engine whose strip has begun, by the API: what is looked at here begins with the count. */
async function begun(serial: string) {
  const as = shop.as.technician;
  const { jobId } = await takeIn(shop, { serial });
  await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId });
  const { body } = await as.post(`/api/jobs/${jobId}/openings`);
  const openingId: string = body.id;
  const off = (count: number) =>
    as.post(`/api/openings/${openingId}/pieces/off`, {
      pieces: [{ stepPieceId: strip.pieces['cap dowel'], count }],
    });
  return { jobId, openingId, off };
}

test('a dowel is short: possibly inside, the engine is locked, it is searched for, found, and unlocked', async () => {
  const { jobId, off } = await begun('H355-0701');
  await off(7);
  const { page, complaints } = await dashboard.at('technician');
  await page.goto(`/bench/${jobId}/procedure`);
  await page.getByText('1 × cap dowel missing').first().waitFor();
  await button(page, 'May be inside').click();
  await button(page, 'Seen to fall in').click();
  await button(page, 'It may be inside').click();

  await page.goto(`/bench/${jobId}/search`);
  await page.getByRole('heading', { name: 'Do not turn this engine over' }).waitFor();
  await page.getByRole('heading', { name: '1 × cap dowel' }).waitFor();
  await button(page, 'Looked, not found: Magnet').click();
  await page.getByText('Looked, not found:').waitFor();
  expect(await button(page, 'A lead decides that it is not inside').count()).toBe(0);
  expect(await violationsOn(page)).toEqual([]);

  await button(page, 'It is found').click();
  await fill(page, 'Where it was', 'In the head, second hole');
  await button(page, 'Found: end the search').click();
  await page.getByText('Found, says Nadia Quill').waitFor();
  expect(await page.getByRole('heading', { name: 'Do not turn this engine over' }).count()).toBe(0);

  await page.goto(`/sheets/${jobId}`);
  await page.getByText('cap dowel: found, says Nadia Quill.').waitFor();
  expect(complaints).toEqual([]);
}, 120_000);

test('one of two plugs is not there: lost, looked for, found again; the others come out', async () => {
  const { jobId, openingId } = await begun('H355-0702');
  const plugs = { kind: 'plug', name: 'Plug', where: 'intake port', count: 2 };
  await shop.as.technician.post(`/api/openings/${openingId}/put-in`, plugs);
  const { page } = await dashboard.at('technician');
  await page.goto(`/bench/${jobId}/procedure#put-in`);
  const put = page.getByRole('region', { name: 'Put in' });
  await put.getByText('2 × Plug, intake port').waitFor();
  await expect.poll(() => put.evaluate((place) => document.activeElement === place)).toBe(true);
  await button(page, 'Not there').click();
  await put.getByRole('textbox', { name: 'How many' }).fill('1');
  await fill(page, 'Where you looked, and what you saw', 'Gone from the port');
  await button(page, 'Not found: it may be inside').click();
  await put.getByText('1 not found: may be inside').waitFor();
  expect(await violationsOn(page)).toEqual([]);
  await button(page, 'Plug, intake port out').click();
  await put.getByText('1 × Plug, intake port').waitFor();
  await put.getByRole('button', { name: 'Found' }).click();
  await fill(page, 'Where it was', 'Under the stand');
  await button(page, 'It is found').click();
  await put.getByText('No rag, plug or tool is in.').waitFor();
}, 120_000);

test('the check goes in reverse, by another person than who put it back; each reason leads where it is settled', async () => {
  const { jobId, openingId, off } = await begun('H355-0703');
  const as = shop.as.technician;
  const [dowels] = (await off(8)).body.pieces;
  const stud = { byHand: { name: 'stud', expected: 2 }, count: 2 };
  const [studs] = (await as.post(`/api/openings/${openingId}/pieces/off`, { pieces: [stud] })).body.pieces;
  await as.post(`/api/openings/${openingId}/pieces/fitted`, {
    pieces: [
      { pieceId: dowels.id, count: 8 },
      { pieceId: studs.id, count: 2 },
    ],
  });
  const run = await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: assemble.versionId });
  await shop.as.lead.post(`/api/jobs/${jobId}/obligations`, { words: 'Look at the oil pump', inside: true });
  expect(run.status).toBe(201);

  const own = await dashboard.at('technician');
  await own.page.goto(`/bench/${jobId}/check`);
  await own.page.getByText('You worked on it: another person ticks it.').first().waitFor();
  expect(await button(own.page, 'Seen, as it says').count()).toBe(0);

  const { page } = own;
  const prove = `/bench/${jobId}/assemble?step=prove`;
  const follow = async (reason: string | RegExp) => {
    await page.goto(prove);
    await page.getByRole('link', { name: reason }).click();
  };
  await follow('Nobody has discharged: Look at the oil pump.');
  await page.waitForURL(/#obligation-/);
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.textContent ?? ''), { timeout: 20_000 })
    .toContain('Look at the oil pump');
  await follow('Time the cams: not signed by a second person.');
  await page.getByRole('heading', { name: 'Time the cams' }).first().waitFor();
  await follow(/^Closing check: 2 of 2 lines not ticked/);
  await page.getByRole('heading', { level: 1, name: '2 of 2 lines to tick' }).waitFor();

  const other = (await dashboard.at('colleague')).page;
  await other.goto(`/bench/${jobId}/check`);
  await button(other, 'Seen, as it says').waitFor();
  const names = await other.locator('.check-line').allTextContents();
  expect(names[0]).toContain('stud');
  expect(await violationsOn(other)).toEqual([]);
  await button(other, 'Seen, as it says').click();
  await other.getByRole('heading', { level: 1, name: '1 of 2 lines to tick' }).waitFor();
  await button(other, 'Seen, as it says').click();
  await other.getByRole('heading', { level: 1, name: 'All 2 lines ticked' }).waitFor();
}, 120_000);

test('a link on the assembly bench leads to its step of that very bench', async () => {
  const { jobId } = await begun('H355-0704');
  const { page } = await dashboard.at('technician');
  await page.goto(`/bench/${jobId}/assemble?step=prove`);
  await page
    .getByRole('heading', { name: /keeps it open|Close/ })
    .first()
    .waitFor();
  const steps = page.getByRole('navigation').filter({ hasText: 'Close and prove' });
  await steps.getByRole('button', { name: /^Valve lash/ }).click();
  await page.waitForURL(/step=lash/);
  expect(await steps.getByRole('button', { name: /^Valve lash/ }).getAttribute('aria-current')).toBe('step');
}, 120_000);
