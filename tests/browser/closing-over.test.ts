import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let job: Awaited<ReturnType<typeof takeIn>>;

beforeAll(async () => {
  shop = await openShop();
  job = await takeIn(shop, { serial: 'H355-0418' });
  await shop.as.technician.post(`/api/jobs/${job.jobId}/openings`);
  const raised = { words: 'Look at the oil pump', inside: true };
  expect((await shop.as.lead.post(`/api/jobs/${job.jobId}/obligations`, raised)).status).toBe(201);
  dashboard = await openDashboard(shop);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

test('a lead closes over an open obligation with a reason, a technician is not asked for one; the sheet prints it', async () => {
  const technician = await dashboard.at('technician', { width: 1280, height: 900 });
  await technician.page.goto(`/bench/${job.jobId}/assemble`);
  await technician.page.getByText('Close and prove').first().click();
  const close = technician.page.getByRole('button', { name: 'Close the engine, and sign for it' });
  await close.waitFor();
  expect(await close.isDisabled()).toBe(true);
  expect(await technician.page.getByLabel('Reason for closing it all the same').count()).toBe(0);

  const { page, complaints } = await dashboard.at('lead', { width: 1280, height: 900 });
  await page.goto(`/bench/${job.jobId}/assemble`);
  await page.getByText('Close and prove').first().click();
  const over = page.getByRole('button', { name: 'Close it all the same, and sign for it' });
  await over.waitFor();
  expect(await over.isDisabled()).toBe(true);
  await page.getByLabel('Reason for closing it all the same').fill('Sold as a core');
  await over.click();
  await page.getByText('Closed all the same: Sold as a core').waitFor();
  await page.getByRole('listitem').getByText('Nobody has discharged: Look at the oil pump.').waitFor();
  await technician.page.getByText('Closed all the same: Sold as a core').waitFor();
  await page.goto(`/sheets/${job.jobId}`);
  await page.getByText('closed over what stood against it').waitFor();
  await page.getByText('Sold as a core').waitFor();
  expect(complaints).toEqual([]);
});
