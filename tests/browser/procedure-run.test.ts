import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

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
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { name });
const field = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true });

async function noFault(page: Page) {
  expect(await violationsOn(page)).toEqual([]);
}

/** From nothing to a published version, with a question, a branch, a stop point and a photo point. */
async function write(page: Page) {
  await page.goto('/procedures');
  await button(page, 'New procedure').click();
  await page.getByLabel('Engine family').selectOption({ label: 'Halden 355' });
  await page.getByLabel('What it is for').selectOption('Prove');
  await field(page, 'Code').fill('H355-LOOK');
  await field(page, 'Name').fill('Look it over');
  await button(page, 'Begin it').click();
  await page.getByText('No step is written yet: add the first.').waitFor();
  await page.getByText('1 thing keeps it from being published').waitFor();
  expect(await button(page, 'Publish').isDisabled()).toBe(true);

  await button(page, 'Add a step after this').click();
  await field(page, 'Title of the step').fill('Look at the bore');
  await field(page, 'Photograph').fill('The bore all round');
  await button(page, 'Add: Cautions').click();
  await page.getByLabel('Hazard').selectOption('Cuts');
  await page.getByLabel('What to mind').fill('Port edges cut.');
  await page.getByLabel('This step asks what was found').check();
  await field(page, 'Question').fill('What is seen?');
  await field(page, 'Code of the question').fill('seen');
  for (const [place, [told, code]] of [
    ['Sound', 'sound'],
    ['Scored', 'scored'],
  ].entries()) {
    await button(page, 'Add: Choices').click();
    await field(page, 'Answer as it is tapped').nth(place).fill(String(told));
    await field(page, 'Code of the answer').nth(place).fill(String(code));
  }
  await button(page, 'Add a step after this').click();
  await field(page, 'Title of the step').fill('Wrap the cylinder');
  await button(page, 'Add: Only if').click();
  await page.getByLabel('It stands on').selectOption('What is seen?');
  await page.getByRole('checkbox', { name: 'Scored' }).check();
  for (const title of ['Sweep the bench', 'Lid on']) {
    await button(page, 'Add a step after this').click();
    await field(page, 'Title of the step').fill(title);
  }
  await noFault(page);
  await button(page, 'Keep the draft').click();
  await page.getByText('Nothing keeps it from being published.').waitFor();
  await button(page, 'Publish').click();
  await heading(page, 'Look it over').waitFor();
  await button(page, 'Publish').waitFor({ state: 'detached' });
}

describe('a procedure', () => {
  test('is written from an empty draft, published, and run by two people to its end', async () => {
    const lead = await dashboard.at('lead');
    await write(lead.page);
    const { jobId, engineId } = await takeIn(shop, { serial: 'H355-RUN1' });
    await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const nadia = await dashboard.at('technician', { width: 390, height: 844 });
    const { page } = nadia;
    await page.goto(`/bench/${jobId}/procedure`);
    await button(page, 'Begin: Look it over').click();
    await heading(page, 'Look at the bore').waitFor();

    // The photo point holds the step open until the camera's picture is with the server.
    await page.getByRole('note', { name: 'Caution' }).getByText('Port edges cut.').waitFor();
    await button(page, 'Scored').click();
    await page.getByText('Take the photo, then mark the step.').waitFor();
    expect(await button(page, 'Step done').isDisabled()).toBe(true);
    const asked = page.getByRole('region', { name: 'Photograph' });
    await asked.getByText('The bore all round').waitFor();
    await noFault(page);
    await asked.getByRole('button', { name: 'Photo: Look at the bore' }).click();
    await button(page, 'Take it').click();
    await button(page, 'Done').click();
    await asked.getByText('✓ 1 photo is taken').waitFor();
    await asked.getByRole('button', { name: 'Look at: Step 1, Look at the bore' }).waitFor();
    await button(page, 'Step done').click();

    // What was found opens the branch; called away in the middle of it, she says what is loose.
    await heading(page, 'Wrap the cylinder').waitFor();
    await button(page, 'I am called away').click();
    await button(page, 'End of the shift').click();
    await page.getByLabel('What is loose or half done').fill('Tape not round yet');
    await button(page, 'Leave it here').click();
    await heading(page, 'This work was left in the middle').waitFor();

    // Somebody else, at another terminal, reads it and goes on at that very step.
    const oskar = await dashboard.at('colleague');
    await oskar.page.goto(`/bench/${jobId}/procedure`);
    const left = oskar.page.getByRole('region', { name: 'This work was left in the middle' });
    await left.getByText('Tape not round yet').waitFor();
    await noFault(oskar.page);
    await heading(oskar.page, 'Wrap the cylinder').waitFor();
    expect(await button(oskar.page, 'Skip it').isDisabled()).toBe(true);
    await button(oskar.page, 'I have read it: go on from there').click();
    await left.waitFor({ state: 'detached' });
    await heading(oskar.page, 'Wrap the cylinder').waitFor();
    await oskar.page.getByText('Loose or half done then:').waitFor();
    await button(oskar.page, 'Step done').click();

    // Skipped with a reason; back to the first step, where the next person sees the photo.
    await heading(oskar.page, 'Sweep the bench').waitFor();
    await button(oskar.page, 'Skip it').click();
    await oskar.page.getByLabel('Why it is skipped').fill('The bench is swept');
    await button(oskar.page, 'Skip the step').click();
    await heading(oskar.page, 'Lid on').waitFor();
    await button(oskar.page, 'Step 1, Look at the bore: done').click();
    await heading(oskar.page, 'Look at the bore').waitFor();
    await button(oskar.page, 'Look at: Step 1, Look at the bore').waitFor();
    await button(oskar.page, 'To the next step').click();
    await button(oskar.page, 'Step done').click();
    await heading(oskar.page, 'Every step is done or skipped').waitFor();

    await oskar.page.goto(`/sheets/${jobId}`);
    await oskar.page.getByText('Step 1, Look at the bore').first().waitFor();
    expect([...lead.complaints, ...nadia.complaints, ...oskar.complaints]).toEqual([]);
    for (const { context } of [lead, nadia, oskar]) await context.close();
  });

  test('opens at the step an address names, whichever run it is of, and not at one of nowhere', async () => {
    const { jobId, engineId } = await takeIn(shop, { serial: 'H355-RUN2' });
    await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const { items } = (await shop.as.technician.get(`/api/procedures?familyId=${shop.sheet.familyId}`)).body;
    await shop.as.technician.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: items[0].versionId });
    const [run] = (await shop.as.technician.get(`/api/jobs/${jobId}/procedure-runs`)).body.items;
    const { page, context } = await dashboard.at('technician');
    await page.goto(`/bench/${jobId}/procedure?step=${run.steps[3].id}`);
    await heading(page, 'Lid on').waitFor();
    await page.goto(`/bench/${jobId}/procedure?run=${run.id}&step=${run.steps[2].id}`);
    await heading(page, 'Sweep the bench').waitFor();
    await page.goto(`/bench/${jobId}/procedure?step=${crypto.randomUUID()}`);
    await heading(page, 'Look at the bore').waitFor();
    await context.close();
  });
});
