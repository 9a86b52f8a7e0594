import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addLot, addPart, demand } from '../support/stores.ts';

let shop: Shop;
let dashboard: Dashboard;
let clerk: AtTerminal;
let quoteId: string;
let quoted: Awaited<ReturnType<typeof takeIn>>;

beforeAll(async () => {
  shop = await openShop();
  quoted = await takeIn(shop, { serial: 'HELD-1' });
  const plain = await takeIn(shop, { serial: 'PLAIN-2' });
  const piston = await addPart(shop.sql, { name: 'Piston' });
  const pin = await addPart(shop.sql, { name: 'Piston pin' });
  await addLot(shop, { partId: piston.id, quantity: 2 });
  await addLot(shop, { partId: pin.id, quantity: 1 });
  await demand(shop, quoted.jobId, [
    [piston.id, 1],
    [pin.id, 1],
  ]);
  await demand(shop, plain.jobId, [[piston.id, 1]]);
  const sent = await shop.as.writer.post(`/api/jobs/${quoted.jobId}/quotes`, {
    lines: [{ kind: 'labour', words: 'Top end', quantity: 1, each: { minor: '10000', currency: 'EUR' } }],
  });
  expect(sent.status).toBe(201);
  quoteId = sent.body.id;
  dashboard = await openDashboard(shop);
  clerk = await dashboard.at('clerk', { width: 1280, height: 1000 });
  await clerk.page.goto('/stores');
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const job = (page: Page, serial: string) => page.getByRole('region', { name: new RegExp(`${serial}, what it wants`) });
const line = (page: Page, serial: string, part: string) =>
  job(page, serial)
    .locator('li.line')
    .filter({ has: page.getByRole('button', { name: `More about ${part}`, exact: true }) });
/** Until when, on the shop's clock, each reservation of the quoted job is held. */
const untils = async () =>
  (
    await shop.sql<{ until: string | null }[]>`
      select to_char(r.expires_at at time zone s.zone, 'YYYY-MM-DD HH24:MI') as until
      from shop s, reservation r join demand_line d on d.id = r.demand_line_id
      where d.job_id = ${quoted.jobId} and r.quantity > 0 order by r.reserved_at`
  ).map(({ until }) => until);

test('a job whose quote is out holds its parts for two weeks, unless another day is keyed; without a quote firmly', {
  timeout: 90_000,
}, async () => {
  const { page } = clerk;
  expect(await job(page, 'PLAIN-2').getByLabel('Held until').inputValue()).toBe('');
  await job(page, 'PLAIN-2').getByRole('button', { name: 'Reserve what there is' }).click();
  await line(page, 'PLAIN-2', 'Piston').getByRole('button', { name: 'Pick 1: Piston' }).waitFor();
  const [firm] = await shop.sql`select expires_at from reservation where quantity > 0`;
  expect(firm?.expires_at).toBeNull();

  const day = job(page, 'HELD-1').getByLabel('Held until');
  const [usual] =
    await shop.sql`select to_char((now() at time zone zone) + interval '14 days', 'YYYY-MM-DD') as day from shop`;
  expect(await day.inputValue()).toBe(usual?.day);
  await line(page, 'HELD-1', 'Piston').getByRole('button', { name: 'Reserve: Piston' }).click();
  await line(page, 'HELD-1', 'Piston')
    .getByText(/held for a yes until/)
    .waitFor();
  expect(await untils()).toEqual([`${usual?.day} 23:59`]);

  await day.fill('2020-01-01');
  await job(page, 'HELD-1').getByText('That day is past. Choose today or a later one.').waitFor();
  expect(await job(page, 'HELD-1').getByRole('button', { name: 'Reserve what there is' }).isDisabled()).toBe(true);

  await page.getByRole('button', { name: 'More about Piston pin', exact: true }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Held until').fill('2099-03-02');
  await dialog.getByRole('button', { name: 'Reserve what there is' }).click();
  await dialog.waitFor({ state: 'detached' });
  expect(await untils()).toEqual([`${usual?.day} 23:59`, '2099-03-02 23:59']);
});

test('a lead sets on the shop page how long holds without a yes last, and the stores page offers that day', {
  timeout: 90_000,
}, async () => {
  const lead = await dashboard.at('lead', { width: 1280, height: 1000 });
  await lead.page.goto('/shop');
  const section = lead.page.getByRole('region', { name: 'Parts held for a yes' });
  await section.getByText('held for 14 days').waitFor();
  const keep = async (days: string) => {
    await section.getByRole('button', { name: 'Change' }).click();
    await lead.page.getByLabel('Holds without a yes last, days').fill(days);
    await lead.page.getByRole('dialog').getByRole('button', { name: 'Keep' }).click();
  };
  await keep('366');
  await lead.page.getByRole('dialog').getByText('must be from 0 to 365').waitFor();
  await lead.page.getByRole('dialog').getByRole('button', { name: 'Cancel' }).click();
  await keep('');
  await section.getByText('held without an end').waitFor();
  await keep('5');
  await section.getByText('held for 5 days').waitFor();
  expect(lead.complaints).toEqual([expect.stringContaining('400')]);

  const circlip = await addPart(shop.sql, { name: 'Circlip' });
  await addLot(shop, { partId: circlip.id, quantity: 1 });
  await demand(shop, quoted.jobId, [[circlip.id, 1]]);
  await clerk.page.reload();
  const [ruled] =
    await shop.sql`select to_char((now() at time zone zone) + interval '5 days', 'YYYY-MM-DD') as day from shop`;
  const day = job(clerk.page, 'HELD-1').getByLabel('Held until');
  await day.waitFor();
  expect(await day.inputValue()).toBe(ruled?.day);
  expect(await untils()).toHaveLength(2);
});

test('a no gives them back before the clerk’s eyes; after a yes no day is asked for', { timeout: 90_000 }, async () => {
  const { page } = clerk;
  const said = { saidBy: 'Ingrid Falk', how: 'by telephone' };
  expect((await shop.as.writer.post(`/api/quotes/${quoteId}/answer`, { yes: false, ...said })).status).toBe(200);
  await line(page, 'HELD-1', 'Piston').getByText('not asked yet').waitFor();
  await line(page, 'HELD-1', 'Piston pin').getByText('not asked yet').waitFor();

  const { body } = await shop.as.writer.post(`/api/jobs/${quoted.jobId}/quotes`, {
    lines: [{ kind: 'labour', words: 'Less', quantity: 1, each: { minor: '5000', currency: 'EUR' } }],
  });
  const sum = { minor: '5000', currency: 'EUR' };
  expect((await shop.as.writer.post(`/api/quotes/${body.id}/answer`, { yes: true, sum, ...said })).status).toBe(200);
  await job(page, 'HELD-1').getByLabel('Held until').waitFor({ state: 'detached' });
  await job(page, 'HELD-1').getByRole('button', { name: 'Reserve what there is' }).click();
  await line(page, 'HELD-1', 'Piston').getByRole('button', { name: 'Pick 1: Piston' }).waitFor();
  expect(await untils()).toEqual([null, null, null]);

  await page.goto(`/engines/${quoted.engineId}`);
  await page.getByText(/No to the quote.*given back to stock: Piston, Piston pin/).waitFor();
  expect(clerk.complaints).toEqual([]);
});
