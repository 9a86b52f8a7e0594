import AxeBuilder from '@axe-core/playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import type { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { boreOf, insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let job: { readonly jobId: string; readonly engineId: string };

beforeAll(async () => {
  shop = await openShop();
  const { lead, technician } = shop.as;
  await insertInstruments(shop.sql, shop.people.lead);
  job = await takeIn(shop, { serial: 'N-1' });
  await technician.post(`/api/jobs/${job.jobId}/readings`, {
    round: 'as received',
    dimension: 'bore',
    readings: boreOf(['88.031', '88.030', '88.031', '88.030', '88.031', '88.030']),
  });
  const begun = await lead.post(`/api/families/${shop.sheet.familyId}/spec-revisions`, {
    copyOf: shop.sheet.revisionId,
  });
  const url = `/api/spec-revisions/${begun.body.id}`;
  const sheet: SpecSheetDocument = (await lead.get(`${url}/sheet.json`)).body;
  const lowered = JSON.stringify(sheet).replaceAll('"88.050"', '"88.020"');
  const put = await lead.put(`${url}/sheet.json`, JSON.parse(lowered), { 'if-match': `"${begun.body.version}"` });
  expect(put.status, JSON.stringify(put.body)).toBe(200);
  await lead.post(`${url}/publish`, undefined, { 'if-match': `"${put.body.version}"` });
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

test('an open job is told of a newer revision, and a technician sees what it changes but cannot move it', async () => {
  const { page, complaints } = await dashboard.at('technician', { width: 1280, height: 900 });
  await page.goto(`/engines/${job.engineId}`);
  await page.getByText('revision 2 is published').waitFor();
  await page.getByRole('button', { name: 'See what it changes' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByText(/Bore, size, as received: within service limit → past the limit/).waitFor();
  await dialog.getByText('A lead moves the job, with a reason.').waitFor();
  expect(await dialog.getByRole('button', { name: 'Move the job to it' }).count()).toBe(0);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('a lead compares, moves it with a reason, and what is judged otherwise stands on the page at once', async () => {
  const { page, complaints } = await dashboard.at('lead', { width: 390, height: 844 });
  await page.goto(`/engines/${job.engineId}`);
  await page.getByRole('button', { name: 'See what it changes' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('cell', { name: '88.020 mm' }).waitFor();
  const { violations } = await new AxeBuilder({ page }).include('[role=dialog]').analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);
  const move = dialog.getByRole('button', { name: 'Move the job to it' });
  expect(await move.isDisabled()).toBe(true);
  await dialog.getByLabel(/^Reason/).fill('Bulletin 7 lowers the limit');
  await move.click();
  await dialog.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'See what it changes' }).waitFor({ state: 'detached' });
  await page.getByText(/^revision 2/).waitFor();
  await page.getByText(/Bulletin 7 lowers the limit/).waitFor();
  const { body } = await shop.as.lead.get(`/api/jobs/${job.jobId}/findings`);
  expect(body.items.at(-1)).toMatchObject({ verdict: 'past the limit' });
  expect(complaints).toEqual([]);
  await page.context().close();
});
