import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { type DemoShop, openDemoShop, type Terminal } from '../support/terminals.ts';
import {
  assembleByProcedure,
  chooseShim,
  closeIt,
  closingRefused,
  inspectBolts,
  placeRings,
  pullFasteners,
  recordProofs,
  signProofs,
  signRings,
  tickTheCheck,
} from './walk/assembling.ts';
import { button, choose, chooseOf, count, goTo, heading, link, press, seen, select } from './walk/at-the-page.ts';
import { countBlind, offer } from './walk/handing-over.ts';
import { keyBlades, keyFigures, sayTemperature, takeUp } from './walk/measuring.ts';
import { sendOut, takeIn } from './walk/outside.ts';
import { stripByProcedure } from './walk/stripping.ts';

const serial = 'H355-W7001';

let shop: DemoShop;
let idris: Terminal;
let nadia: Terminal;
let oskar: Terminal;
let hetty: Terminal;
let maren: Terminal;
/** The service writer's second tab, open on the floor from first to last. */
let floor: Page;
let jobId = '';

const proofs = ['Leak-down', 'First start', 'Heat cycles'];

beforeAll(async () => {
  shop = await openDemoShop();
});
afterAll(() => shop.close());
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.picture(task.name)));

const inTime = { timeout: 30_000 } as const;

/** The engine where it stands on the floor. */
const card = () => floor.getByRole('article', { name: serial });
const onTheFloor = (words: string | RegExp) => seen(card(), words);
const gone = (words: string | RegExp) => expect.poll(() => card().getByText(words).count(), inTime).toBe(0);
/** Its lines in the list of what is past a limit or can't be told. */
const pastOrUndecided = () => floor.getByRole('region', { name: /^Past the limit or undecided/ }).getByText(serial);
const inDays = (days: number) => new Date(Date.now() + days * 86_400_000).toISOString().slice(0, 10);

/** The card of the engine on somebody's own bench. */
const held = (page: Page) => page.getByRole('article', { name: new RegExp(serial) });
async function atTheBench(page: Page) {
  await page.goto('/bench');
  await held(page).waitFor();
  return held(page);
}

/** What stores have before them for the job. */
const inStores = (page: Page) => page.getByRole('region', { name: `Halden 355 ${serial}, what it wants` });
async function issueAll(page: Page) {
  const pick = inStores(page).getByRole('button', { name: /^Pick \d+: / });
  await pick.first().waitFor();
  while ((await pick.count()) > 0) {
    const left = await pick.count();
    await pick.first().click();
    await expect.poll(() => pick.count(), inTime).toBeLessThan(left);
  }
}

/** Signs the step that waits for a second person, at their own bench. */
async function signAStep(page: Page) {
  await page.goto('/bench');
  const stops = page.getByRole('region', { name: 'Waiting for a second person' });
  await link(stops.getByRole('listitem').filter({ hasText: serial }), 'Look and sign').click();
  await press(button(page, 'I have looked: sign it'));
  await seen(page, 'Looked at and signed');
}

async function measureLash(page: Page, round: 'as received' | 'as built') {
  await takeUp(page, /^Lash, intake left/, round);
  await keyBlades(page, '0.12', '0.13');
  await takeUp(page, /^Lash, intake right/);
  await keyBlades(page, '0.12', '0.13');
  for (const valve of [/^Lash, exhaust left/, /^Lash, exhaust right/]) {
    await takeUp(page, valve);
    await keyBlades(page, '0.18', '0.19');
  }
}

async function measureAsItCame(page: Page) {
  await takeUp(page, /^Compression/, 'as received');
  await keyFigures(page, '905');
  await takeUp(page, /^Leak-down/);
  await keyFigures(page, '9');
}

async function measureRingGaps(page: Page) {
  await link(page, 'Measure').click();
  for (const ring of [/^Ring end gap, top/, /^Ring end gap, second/]) {
    await takeUp(page, ring, 'as built');
    await keyBlades(page, '0.36', '0.38');
  }
}

/** The shim of one valve worked out, issued and put in; then the lash of all as built. */
async function setTheLash(page: Page) {
  await link(await atTheBench(page), 'Assemble').click();
  const shim = await chooseShim(page);
  await seen(inStores(hetty.page), new RegExp(`^Shim ${shim.slice(0, 4)}`));
  await button(inStores(hetty.page), 'Reserve what there is').click();
  await issueAll(hetty.page);
  await link(await atTheBench(page), 'Measure')
    .last()
    .click();
  await measureLash(page, 'as built');
}

async function enginePage(page: Page) {
  await goTo(page, 'Engines');
  await link(page, new RegExp(serial)).first().click();
  await heading(page, new RegExp(serial)).waitFor();
}

describe.sequential('one engine, start to finish, as three people and those they hand over to', () => {
  test('each taps in by name and PIN, and the floor is open', async () => {
    idris = await shop.tapIn('idris');
    nadia = await shop.tapIn('nadia');
    oskar = await shop.tapIn('oskar');
    hetty = await shop.tapIn('hetty');
    maren = await shop.tapIn('maren');
    floor = await shop.tab(idris);
    await floor.goto('/');
    await heading(floor, 'Floor').waitFor();
    await floor.evaluate(() => Object.assign(window, { sinceTheStart: true }));
  });

  test('the service writer takes it in: it appears on the floor', async () => {
    const { page } = idris;
    expect(await card().count()).toBe(0);
    await goTo(page, 'Counter');
    await page.getByLabel('Serial').fill(serial.toLowerCase());
    await select(page, 'Family', /^Halden 355$/);
    await page.getByLabel('Owner').fill('Ingrid Falk');
    await page.getByLabel('How to reach a new owner').fill('calls after five');
    await page.getByLabel('Hours on the meter').fill('243,5');
    await page.getByLabel('Complaint').fill('Hard to start hot, smokes on the overrun');
    await select(page, 'Put down in', /^Rack/);
    await page.getByLabel('Wishes').fill('Keep the old piston for me');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.waitForURL(/\/counter\/[0-9a-f-]{36}$/);
    jobId = page.url().split('/').at(-1) ?? '';
    await onTheFloor('Rack');
    await onTheFloor('Closed');
  });

  test('a bay is planned and a day promised', async () => {
    const { page } = idris;
    await select(page, 'Goes next to', /^Bay 1/);
    await button(page, 'Plan it').click();
    await seen(page, 'Planned: Bay 1.');
    await page.getByLabel('Ready on').fill(inDays(21));
    await chooseOf(page, 'How sure, of 5', '3');
    await button(page, 'Promise it').click();
    await seen(page, /sure 3 times of 5$/);
    await onTheFloor('bay: Bay 1 is full');
  });

  test('the technician takes it on their own bench', async () => {
    const { page } = nadia;
    await goTo(page, 'My bench');
    await press(button(page, `Take it: Halden 355 ${serial}`));
    const dialog = page.getByRole('dialog');
    await choose(dialog, /^Rack/);
    await press(button(dialog, 'Take it'));
    await held(page).waitFor();
    await onTheFloor('Nadia Quill');
  });

  test('stripped by the procedure: a short count stops the work until the piece is found', async () => {
    const { page } = nadia;
    await link(held(page), 'Choose a procedure').click();
    await stripByProcedure(page, {
      measure: async (title) => {
        await link(page, 'Measure').click();
        if (title.startsWith('Compression')) await measureAsItCame(page);
        else await measureLash(page, 'as received');
        await link(await atTheBench(page), 'Procedure').click();
        await heading(page, title).and(page.locator('h1')).waitFor();
      },
      sign: () => signAStep(oskar.page),
      after: async (title) => {
        if (title === 'Valve cover off') await onTheFloor('Cover off');
        if (title === 'Head off') await onTheFloor('Head off');
        if (title === 'Cylinder off') await onTheFloor('Cylinder off');
      },
    });
    await onTheFloor('uncovered');
    await button(page, 'Cover it').click();
    await gone('uncovered');
    await heading(page, 'Every step is done or skipped').waitFor();
  });

  test('the head bolts were loosened: each is looked at before it may be used again', async () => {
    const { page } = nadia;
    await link(await atTheBench(page), 'Assemble').click();
    await inspectBolts(page);
  });

  test('handed over: counted blind, accepted with a difference', async () => {
    await atTheBench(nadia.page);
    await offer(nadia.page, { serial, to: 'Oskar Pell', bay: /^Rack/ });
    await onTheFloor('offered to Oskar Pell');
    await oskar.page.goto('/bench');
    await countBlind(oskar.page, serial);
    await heading(nadia.page, 'Accepted with a difference').waitFor();
    await onTheFloor('Oskar Pell');
    await gone('offered to Oskar Pell');
    await onTheFloor(/^decision: /);
  });

  test('the lead settles the difference once the dowel is found', async () => {
    const { page } = maren;
    await enginePage(page);
    const obligation = page.getByRole('listitem').filter({ hasText: 'Cylinder dowel' });
    await button(obligation, 'Discharge').click();
    const dialog = page.getByRole('dialog');
    await dialog.getByLabel('Reason').fill('Found on the strip bench, put into its tray');
    await button(dialog, 'Discharge').click();
    await gone(/^decision: /);
  });

  test('measured: figures, blades, and a verdict that stays undecided', async () => {
    const { page } = oskar;
    await link(await atTheBench(page), 'Measure')
      .last()
      .click();
    await sayTemperature(page, '21.5');
    await takeUp(page, /^Bore/);
    await keyFigures(page, '88.049 88.041 88.044 88.038 88.034 88.032');
    await seen(page.locator('.verdict-panel'), 'undecided');
    await takeUp(page, /^Piston, /);
    await keyFigures(page, '87.955');
    await takeUp(page, /^Ring end gap, top/);
    await keyBlades(page, '0.42', '0.45');
    await onTheFloor(/^decision: Bore.* undecided/);
    await pastOrUndecided().first().waitFor();
  });

  test('the lead decides what is past the limit or undecided', async () => {
    const { page } = maren;
    const decide = button(page, 'Decide').and(page.locator('.main'));
    await decide.first().waitFor();
    while ((await decide.count()) > 0) {
      const left = await decide.count();
      await decide.first().click();
      const dialog = page.getByRole('dialog');
      await choose(dialog, /^replate$/);
      await dialog.getByLabel('Reason').fill('Bore and clearance near the limit: replated to standard');
      await button(dialog, 'Decide').click();
      await expect.poll(() => decide.count(), inTime).toBeLessThan(left);
    }
    await gone(/^decision: /);
  });

  test('the parts clerk reserves the kit, all or nothing', async () => {
    const { page } = hetty;
    await goTo(page, 'Stores');
    await button(page, 'Ask for parts').click();
    const dialog = page.getByRole('dialog');
    await select(dialog, 'For the job', new RegExp(serial));
    await select(dialog, 'A kit', /^Top end$/);
    await button(dialog, 'Ask for it').click();
    await dialog.waitFor({ state: 'detached' });
    await button(inStores(page), 'Reserve the kit, all or nothing').click();
    await seen(inStores(page), /^Reserved: \d+ pieces\. Nothing is missing\.$/);
  });

  test('quoted from findings and demands, and the owner’s yes recorded', async () => {
    const { page } = idris;
    await button(page, 'Draft one from findings and demands').click();
    await page
      .getByLabel(/^Each, EUR, line/)
      .last()
      .fill('235');
    await button(page, 'Add a line').click();
    const lines = page.locator('.quote-line');
    const line = lines.last();
    await line.getByRole('combobox').selectOption('labour');
    await line.getByLabel(/^What, line/).fill('Strip, measure, assemble, prove: hours');
    await line.getByLabel(/^How many, line/).fill('9');
    await line.getByLabel(/^Each, EUR, line/).fill('72.00');
    await button(page, 'Send the quote').click();
    await onTheFloor(/^yes: quote sent/);
    await heading(page, 'What the owner said').waitFor();
    await page.getByLabel('Note').last().fill('Calls back on Friday');
    await press(button(page, 'Record it'));
    await seen(page, /^Ingrid Falk said yes to .*, by telephone\.$/);
    await gone(/^yes: quote sent/);
  });

  test('the parts are issued', async () => {
    await issueAll(hetty.page);
  });

  test('the cylinder goes to the plater and comes back, counted', async () => {
    const { page } = oskar;
    await sendOut(await atTheBench(page), { vendor: 'Saltmere Plating', dueOn: inDays(14) });
    await onTheFloor(/^outside work: Saltmere Plating, due /);
    await takeIn(page, { serial, vendor: 'Saltmere Plating' });
    await gone(/^outside work/);
    await button(page, `Take it: Halden 355 ${serial}`).click();
    const dialog = page.getByRole('dialog');
    await choose(dialog, /^Rack/);
    await count(dialog, 'Cylinder', 1);
    await button(dialog, 'Take it: 1 piece counted').click();
    await dialog.waitFor({ state: 'detached' });
  });

  test('measured again after the work, which proves the decision', async () => {
    const { page } = oskar;
    await link(await atTheBench(page), 'Measure').click();
    await takeUp(page, /^Bore/, 'after work');
    await keyFigures(page, '88.006 88.005 88.007 88.005 88.006 88.004');
    await seen(page.locator('.verdict-panel'), 'within standard');
    await takeUp(page, /^Piston, /);
    await keyFigures(page, '87.958');
    await expect.poll(() => pastOrUndecided().count(), inTime).toBe(0);
  });

  test('closing is refused, with every reason', async () => {
    const { page } = oskar;
    await link(await atTheBench(page), 'Assemble').click();
    const reasons = await closingRefused(page);
    expect(reasons.length).toBeGreaterThan(10);
    expect(reasons.join('; ')).toMatch(/Head bolts/);
    expect(reasons.join('; ')).toMatch(/Cylinder dowel/);
  });

  test('assembled by the procedure, every piece back on, renewed or accounted for', async () => {
    const { page } = oskar;
    await placeRings(page);
    await signRings(nadia.page, page.url());
    await link(await atTheBench(page), 'Procedure').click();
    await button(page, 'Other procedure').first().click();
    await assembleByProcedure(page, {
      measure: async (title) => {
        if (title === 'Lash') await setTheLash(page);
        else await measureRingGaps(page);
        await link(await atTheBench(page), 'Procedure').click();
        await heading(page, title).and(page.locator('h1')).waitFor();
      },
      sign: () => signAStep(nadia.page),
      after: async (title) => {
        if (title === 'Cylinder on') await onTheFloor('Head off');
        if (title === 'Head on') await onTheFloor('Cover off');
      },
    });
  });

  test('every fastener pulled in order', async () => {
    const { page } = oskar;
    await link(await atTheBench(page), 'Assemble').click();
    await pullFasteners(page);
  });

  test('closed and signed for: the floor shows it closed', async () => {
    const { page } = oskar;
    await tickTheCheck(nadia.page, jobId);
    await link(await atTheBench(page), 'Assemble').click();
    await closeIt(page);
    await onTheFloor('Closed');
  });

  test('proved, and signed off by a second person', async () => {
    await recordProofs(oskar.page, proofs);
    await onTheFloor(/^sign-off: /);
    await link(nadia.page, 'My bench').click();
    await enginePage(nadia.page);
    await link(nadia.page, 'Assemble').click();
    await signProofs(nadia.page, proofs);
    await gone(/^sign-off/);
  });

  test('handed back at the counter: it is gone from the floor', async () => {
    const { page } = idris;
    await page.getByLabel('Note for the owner').fill('Run in: two tanks at half throttle, then check the lash again');
    await seen(page, 'Nothing speaks against it.');
    await button(page, 'Hand it back').click();
    await seen(page, /^Handed back /);
    await expect.poll(() => card().count(), inTime).toBe(0);
  });

  test('the build sheet tells the serial and what was found', async () => {
    const { page } = idris;
    await link(page, 'Build sheet').click();
    await heading(page, 'Build sheet').waitFor();
    await seen(page, `Halden 355, serial ${serial}`);
    const row = page.getByRole('row', { name: /^Bore, size/ });
    await seen(row, 'within standard');
    await seen(row, /88\.047/);
    expect(jobId).toBe(page.url().split('/').at(-1));
  });

  test('no page was reloaded for it, and none complained', async () => {
    expect(await floor.evaluate(() => 'sinceTheStart' in window)).toBe(true);
    expect(shop.complaints).toEqual([]);
  });
});
