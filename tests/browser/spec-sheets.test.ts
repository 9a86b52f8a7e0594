import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { insertInstruments } from '../support/measuring.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
let lead: AtTerminal;

beforeAll(async () => {
  shop = await openShop();
  await insertInstruments(shop.sql, shop.people.lead);
  dashboard = await openDashboard(shop);
  lead = await dashboard.at('lead', { width: 1280, height: 1000 });
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const typed = [
  'dimension;what;value;unit;name;place;method;position;instrument;source;page',
  ';place;;;Oil pump;oil-pump;;;;;',
  'pump-tip;dimension;;mm;Oil pump, tip clearance;oil-pump;interval;;feeler set;workshop manual;p. 33',
  'pump-tip;position;;;;;;tips in line;;;',
  'pump-tip;service high;0,20;;;;;;;;p. 34',
].join('\n');

const faultsOf = ({ page }: AtTerminal) => violationsOn(page);

describe('a lead drafts the next revision', () => {
  test('as a copy of the one in force, under the family', async () => {
    const { page } = lead;
    await page.goto('/specs');
    await page.getByText('Figures invented').first().waitFor();
    expect(await faultsOf(lead)).toEqual([]);
    await page.getByRole('button', { name: 'Draft the next revision' }).click();
    await page.getByText('This is a draft.').waitFor();
    await page.getByRole('heading', { name: 'Bore, size' }).waitFor();
    expect(await faultsOf(lead)).toEqual([]);
  });

  test('adds a dimension that no other sheet has, by a paste; a bad row is told and nothing kept', async () => {
    const { page } = lead;
    await page.getByRole('button', { name: 'Bring in a file' }).click();
    const paste = page.getByLabel('Or paste it here');
    await paste.fill(typed.replace('0,20', 'many'));
    await page.getByRole('button', { name: 'Bring it in' }).click();
    await page.getByRole('cell', { name: 'row 5, column value' }).waitFor();
    expect(await faultsOf(lead)).toEqual([]);
    await paste.fill(typed);
    await page.getByRole('button', { name: 'Bring it in' }).click();
    await page.getByText('Kept. The draft holds 8 dimensions').waitFor();
    await page.getByRole('button', { name: 'Close', exact: true }).click();
    const line = page.locator('#pump-tip');
    await line.getByText('at most 0.20 mm').waitFor();
    await line.getByText('p. 34').waitFor();
  });

  test('changes a limit by form; limits that cross are refused at the field', async () => {
    const { page } = lead;
    await page.getByRole('button', { name: 'Edit Oil pump, tip clearance' }).click();
    await page.getByLabel('Standard, to', { exact: true }).fill('0,25');
    await page.getByRole('button', { name: 'Keep in the draft' }).click();
    await page.getByText('The upper service limit lies inside the standard range.').waitFor();
    expect(await faultsOf(lead)).toEqual([]);
    await page.getByLabel('Standard, to', { exact: true }).fill('0,15');
    await page.getByRole('button', { name: 'Keep in the draft' }).click();
    await page.locator('#pump-tip').getByText('at most 0.15 mm').waitFor();
  });

  test('sees what it changes, and publishes it for good', async () => {
    const { page } = lead;
    await page.getByRole('button', { name: 'Publish', exact: true }).click();
    await page.getByRole('dialog').getByRole('cell', { name: 'p. 34' }).waitFor();
    await page.getByRole('button', { name: 'Publish for good' }).click();
    await page.getByText('No engine was taken in on it yet.').waitFor();
    expect(await page.getByRole('button', { name: /^Edit/ }).count()).toBe(0);
  });
});

test('a technician reads the sheet and changes nothing; the engine taken in is measured and printed by it', async () => {
  const { jobId } = await takeIn(shop, { serial: 'H355-0777' });
  const technician = await dashboard.at('technician', { width: 390, height: 844 });
  const { page } = technician;
  await page.goto('/specs');
  await page.getByRole('link', { name: 'Revision 2' }).click();
  await page.getByText('1 in the shop, of 1').waitFor();
  expect(await page.getByRole('button', { name: /Edit|Publish|Draft|Bring in/ }).count()).toBe(0);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await page.setViewportSize({ width: 1280, height: 1000 });
  await page.goto(`/bench/${jobId}/measure`);
  await page.getByRole('button', { name: 'Choose another' }).click();
  await page.getByRole('dialog').getByRole('textbox').fill('oil pump');
  await page.keyboard.press('Enter');
  await page.locator('text=Oil pump, tip clearance >> visible=true').first().waitFor();
  const { status, body } = await shop.as.technician.post(`/api/jobs/${jobId}/readings`, {
    round: 'as received',
    dimension: 'pump-tip',
    readings: [{ position: 'tips in line', repeat: 1, instrumentCode: 'FE-1', interval: { go: '0.25', noGo: '0.30' } }],
  });
  expect(status, JSON.stringify(body)).toBe(201);
  await lead.page.goto(`/sheets/${jobId}`);
  const row = lead.page.locator('.readings').getByRole('row').filter({ hasText: 'Oil pump, tip clearance' });
  await row.getByText('past the limit').first().waitFor();
  expect(technician.complaints).toEqual([]);
});
