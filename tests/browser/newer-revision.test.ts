import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { boreOf, insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let job: { readonly jobId: string; readonly engineId: string };

beforeAll(async () => {
  shop = await openShop();
  const { technician } = shop.as;
  await insertInstruments(shop.sql, shop.people.lead);
  job = await takeIn(shop, { serial: 'N-1' });
  await technician.post(`/api/jobs/${job.jobId}/readings`, {
    round: 'as received',
    dimension: 'bore',
    readings: boreOf(['88.031', '88.030', '88.031', '88.030', '88.031', '88.030']),
  });
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

test('a lead drafts the next revision, lowers a limit by form, compares and publishes it', async () => {
  const { page, complaints } = await dashboard.at('lead', { width: 1280, height: 1000 });
  await page.goto('/specs');
  await page.getByRole('button', { name: 'Draft the next revision' }).click();
  await page.getByText('This is a draft.').waitFor();
  await page.getByRole('button', { name: 'Edit Bore, size', exact: true }).click();
  await page.getByLabel('Service limit, upper', { exact: true }).first().fill('88.020');
  await page.getByRole('button', { name: 'Keep in the draft' }).click();
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Publish', exact: true }).click();
  const row = page.getByRole('dialog').getByRole('row').filter({ hasText: '88.020 mm' });
  await row.getByText('88.050 mm').waitFor();
  await page.getByRole('button', { name: 'Publish for good' }).click();
  await page.getByText('No engine was taken in on it yet.').waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
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
  expect(await violationsOn(page, '[role=dialog]')).toEqual([]);
  const move = dialog.getByRole('button', { name: 'Move the job to it' });
  expect(await move.isDisabled()).toBe(true);
  await dialog.getByLabel(/^Reason/).fill('Bulletin 7 lowers the limit');
  await move.click();
  await dialog.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'See what it changes' }).waitFor({ state: 'detached' });
  await page.getByText(/^revision 2/).waitFor();
  await page.getByText(/Bulletin 7 lowers the limit/).waitFor();
  const { body } = await shop.as.lead.get(`/api/jobs/${job.jobId}/findings`);
  const bore = body.items.filter(({ dimension }: { dimension: string }) => dimension === 'bore');
  expect(bore.map(({ verdict }: { verdict: string }) => verdict)).toEqual(['within service limit', 'past the limit']);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('the build sheet prints the revision beside each finding, and who moved the job and why', async () => {
  const { page, complaints } = await dashboard.at('technician', { width: 1280, height: 1000 });
  await page.goto(`/sheets/${job.jobId}`);
  const row = (name: string) => page.locator('.readings').getByRole('row').filter({ hasText: name });
  await row('Bore, size').getByText('rev. 2').waitFor();
  await row('Bore, size').getByText('past the limit').first().waitFor();
  // What the newer sheet judges alike was not judged anew.
  await row('Bore, out-of-round').getByText('rev. 1').waitFor();
  await page.getByText(/Moved from revision 1 to 2 by .*Bulletin 7 lowers the limit/).waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});
