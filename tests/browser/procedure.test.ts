import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { inHand } from '../support/in-hand.ts';
import { insertProcedure, insertStrip } from '../support/procedures.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let dashboard: Dashboard;
beforeAll(async () => {
  shop = await openShop();
  await insertStrip(shop.sql, shop.sheet.familyId);
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { name });
const howMany = (page: Page, piece: string) => page.getByRole('textbox', { name: `How many: ${piece}`, exact: true });

async function press(page: Page, name: string | RegExp) {
  await button(page, name).focus();
  await page.keyboard.press('Enter');
}

async function count(page: Page, piece: string, number: number) {
  await howMany(page, piece).fill(String(number));
  await page.keyboard.press('Tab');
}

/** Whether a name stands on the page soon. */
const seen = async (page: Page, text: string | RegExp) => page.getByText(text).first().waitFor();

async function runOf(jobId: string) {
  const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/procedure-runs`);
  return body.items[0];
}

/** Begins the strip and comes to its second step, by keyboard alone. */
async function beginStrip(page: Page, jobId: string) {
  await page.goto(`/bench/${jobId}/procedure`);
  await heading(page, 'Which procedure?').waitFor();
  await press(page, 'Begin: strip-h355');
  await heading(page, 'Drain the coolant').waitFor();
  await press(page, 'Step done');
  await heading(page, 'Cover off').waitFor();
}

describe('following a procedure', () => {
  test('a short count stops the work at once; found, it goes on, and the drawing follows what is off', async () => {
    const { jobId, serial } = await inHand(shop);
    const { page, complaints } = await dashboard.at('technician');
    await page.goto('/bench');
    await page
      .getByRole('article', { name: new RegExp(serial) })
      .getByRole('link', { name: 'Choose a procedure' })
      .click();
    await heading(page, 'Which procedure?').waitFor();
    await beginStrip(page, jobId);

    await press(page, 'Open the engine');
    await seen(page, 'uncovered');
    await press(page, 'All 1: valve cover');
    await count(page, 'cover bolt', 3);
    await seen(page, 'This stops the work: 1 × cover bolt short.');
    expect(await button(page, 'Say where they go').isDisabled()).toBe(true);
    await page.getByText('stay with the engine').click();
    await press(page, 'Count off: 4 pieces');

    await heading(page, 'Stop: 1 × cover bolt missing').waitFor();
    expect(await button(page, 'Step done').isDisabled()).toBe(true);
    expect((await runOf(jobId)).shortPieces).toMatchObject([{ name: 'cover bolt', short: 1 }]);
    await button(page, 'Found').click();
    expect(await button(page, 'It is found').isDisabled()).toBe(true);
    await button(page, 'On the bench').click();
    await button(page, 'It is found').click();
    await seen(page, '4 of 4 off');
    await button(page, 'Step done').click();

    await heading(page, 'Caps off').waitFor();
    await page.getByRole('img', { name: /cover off, uncovered$/ }).waitFor();
    await button(page, 'Cover it').click();
    await page.getByRole('img', { name: /cover off, covered$/ }).waitFor();
    expect((await runOf(jobId)).shortPieces).toEqual([]);
    const obligations = await shop.sql`
      select a.reason from obligation o join obligation_act a on a.obligation_id = o.id where o.job_id = ${jobId}`;
    expect(obligations.map(({ reason }) => reason)).toEqual(['Found: On the bench']);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('a step for two waits on another’s bench until they sign it with their own PIN', async () => {
    const { jobId, serial } = await inHand(shop);
    const nadia = await dashboard.at('technician');
    const oskar = await dashboard.at('colleague');
    await oskar.page.goto('/bench');
    await heading(oskar.page, 'My bench').waitFor();
    const { page } = nadia;
    await beginStrip(page, jobId);
    await button(page, 'Open the engine').click();
    await button(page, 'New tray').click();
    await page.getByLabel('What goes in it').fill('Cover and caps');
    await page.keyboard.press('Enter');
    await page.getByRole('radio', { name: /Cover and caps/ }).waitFor({ state: 'attached' });
    await button(page, 'All 1: valve cover').click();
    await button(page, 'All 4: cover bolt').click();
    await button(page, /^Count off: 5 pieces into \d+·1$/).click();
    await button(page, 'Step done').click();
    await heading(page, 'Caps off').waitFor();
    await button(page, 'All 2: cam cap').click();
    await button(page, 'All 8: cap dowel').click();
    await button(page, /^Count off: 10 pieces into/).click();
    await button(page, 'Step done').click();
    await heading(page, 'Waits for a second person').waitFor();
    expect(await button(page, 'I have looked: sign it').count()).toBe(0);

    const waiting = oskar.page.getByRole('region', { name: 'Waiting for a second person' });
    await waiting.getByText(serial).waitFor();
    await waiting.getByRole('link', { name: 'Look and sign' }).click();
    await heading(oskar.page, 'Caps off').waitFor();
    await press(oskar.page, 'I have looked: sign it');
    await seen(oskar.page, 'Looked at and signed');
    await seen(page, 'Looked at and signed');
    expect((await runOf(jobId)).steps[2]).toMatchObject({ standing: 'done' });
    expect([...nadia.complaints, ...oskar.complaints]).toEqual([]);
    await nadia.context.close();
    await oskar.context.close();
  });

  test('a step is skipped only with a reason, and one can go back to look at it', async () => {
    const { jobId } = await inHand(shop);
    const { page, context } = await dashboard.at('technician');
    await beginStrip(page, jobId);
    await button(page, 'Step 4, Head off: to do').click();
    await button(page, 'Skip it').click();
    expect(await button(page, 'Skip the step').isDisabled()).toBe(true);
    await page.getByLabel('Why it is skipped').fill('The head stays on');
    await page.keyboard.press('Enter');
    await heading(page, 'Cover off').waitFor();
    await press(page, 'Step 4, Head off: skipped');
    await seen(page, /by Nadia Quill.*: The head stays on/);
    await context.close();
  });

  test('while the network is down what was counted stays on the screen and is then counted once', async () => {
    const { jobId } = await inHand(shop);
    const { page, context } = await dashboard.at('technician');
    await beginStrip(page, jobId);
    await button(page, 'Open the engine').click();
    await button(page, 'All 1: valve cover').click();
    await count(page, 'cover bolt', 4);
    await page.getByText('stay with the engine').click();
    await page.route('**/pieces/off', (route) => route.abort('connectionfailed'));
    await button(page, 'Count off: 5 pieces').click();
    await page.getByRole('alert').filter({ hasText: 'The server does not answer' }).waitFor();
    expect(await howMany(page, 'cover bolt').inputValue()).toBe('4');
    await page.unroute('**/pieces/off');
    await button(page, 'Count off: 5 pieces').click();
    await seen(page, '4 of 4 off');
    const counted = await shop.sql`
      select m.count from piece_movement m join piece p on p.id = m.piece_id join opening o on o.id = p.opening_id
      where o.job_id = ${jobId} and p.name = 'cover bolt'`;
    expect(counted.map(({ count: number }) => number)).toEqual([4]);
    await context.close();
  });

  test('what comes off goes back on by the tally when the engine is assembled', async () => {
    const { jobId } = await inHand(shop);
    const assemble = await insertProcedure(shop.sql, {
      familyId: shop.sheet.familyId,
      code: `build-${jobId.slice(-6)}`,
      kind: 'assemble',
      steps: [{ title: 'Cover on' }],
    });
    const as = shop.as.technician;
    const opening = await as.post(`/api/jobs/${jobId}/openings`);
    await as.post(`/api/openings/${opening.body.id}/pieces/off`, {
      pieces: [
        { byHand: { name: 'cover bolt' }, count: 4 },
        { byHand: { name: 'cover gasket', oneTime: true }, count: 1 },
      ],
    });
    await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: assemble.versionId });
    const { page, context } = await dashboard.at('technician');
    await page.goto(`/bench/${jobId}/procedure`);
    await seen(page, '5 pieces still loose.');
    expect(await howMany(page, 'cover gasket').count()).toBe(0);
    await count(page, 'cover bolt', 4);
    await button(page, 'Back on: 4 pieces').click();
    await seen(page, '1 piece still loose.');
    await page.getByText('New in its stead').click();
    await button(page, 'All 1: cover gasket').click();
    await button(page, 'New on: 1 piece').click();
    await seen(page, 'Every piece of the tally has its place.');
    await context.close();
  });

  test('it can be read and used by everybody: no fault by the accessibility rules, by day and by night', async () => {
    const { jobId } = await inHand(shop);
    const { page, context } = await dashboard.at('technician', { width: 390, height: 2600 });
    await beginStrip(page, jobId);
    await button(page, 'Open the engine').click();
    await howMany(page, 'cover bolt').waitFor();
    for (const scheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme: scheme });
      for (const path of [`/bench/${jobId}/procedure`, '/bench']) {
        await page.goto(path);
        await heading(page, path === '/bench' ? 'My bench' : 'Cover off').waitFor();
        expect(await violationsOn(page)).toEqual([]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
      }
    }
    await context.close();
  });
});
