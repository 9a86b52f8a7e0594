import type { AddressInfo } from 'node:net';
import type { FastifyInstance } from 'fastify';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Database, openDatabase } from '#platform/database/client.ts';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { projectFolder } from '#platform/project-folder.ts';
import { buildApp } from '../../server/app.ts';
import { violationsOn } from '../support/axe.ts';
import { launchBrowser } from '../support/browser.ts';
import { cloneDemoDatabase, demoAnchor, type TestDatabase } from '../support/database.ts';
import { filesOf } from '../support/test-config.ts';

/** Cover off and uncovered, in the strip bay. */
const uncovered = 'H388-0122';
/** Its bore is undecided. */
const measured = 'H355-0417';

let shop: TestDatabase;
let browser: Browser;
let app: FastifyInstance;
let otherDb: Database;
/** Another process of the service on the same database. */
let other: FastifyInstance;
let address: string;

const serviceOn = (db: Database) =>
  buildApp({
    config: {
      port: 0,
      host: '127.0.0.1',
      loopback: true,
      databaseUrl: shop.url,
      dataFolder: '',
      filesFolder: filesOf(shop.url),
      demo: false,
      anchor: demoAnchor,
      logLevel: 'silent',
      publicOrigin: undefined,
      projectFolder,
    },
    db,
  });

beforeAll(async () => {
  shop = await cloneDemoDatabase();
  otherDb = openDatabase(shop.url);
  app = await serviceOn(shop.db);
  other = await serviceOn(otherDb);
  await app.listen({ port: 0, host: '127.0.0.1' });
  address = `http://127.0.0.1:${(app.server.address() as AddressInfo).port}`;
  browser = await launchBrowser();
}, 240_000);
afterAll(async () => {
  await browser.close();
  await other.close();
  await otherDb.close();
  await app.close();
  await shop.drop();
});

async function tokenOf(name: string): Promise<string> {
  const [person] = await shop.db.sql<{ id: string }[]>`select id from person where name = ${name}`;
  const { token } = await startSession(shop.db.sql, { personId: person?.id ?? '', terminalId: undefined });
  return token;
}

async function signedIn(name: string, viewport = { width: 1280, height: 900 }) {
  const context = await browser.newContext({ baseURL: address, viewport });
  await context.addCookies([{ name: SESSION_COOKIE, value: await tokenOf(name), url: address }]);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return { context, page, complaints };
}

/** Somebody acts at another terminal, whose requests go to the other process. */
async function acts(name: string, url: string, payload: object): Promise<number> {
  const { statusCode } = await other.inject({
    method: 'POST',
    url,
    payload,
    cookies: { [SESSION_COOKIE]: await tokenOf(name) },
    headers: { 'idempotency-key': crypto.randomUUID() },
  });
  return statusCode;
}

const card = (page: Page, serial: string) => page.getByRole('article', { name: new RegExp(serial) });

/** Tabs until the element has the focus: what can't be reached so can't be reached by whoever has no mouse. */
async function tabTo(page: Page, isThere: () => Promise<boolean>, most = 60): Promise<void> {
  for (let presses = 0; presses < most; presses += 1) {
    if (await isThere()) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`not reached by ${most} presses of Tab`);
}
/** Of the control that has the focus; nothing while none has. */
const focusedText = (page: Page) =>
  page.evaluate(() => document.querySelector(':is(a, button):focus')?.textContent ?? '');

async function openingOf(serial: string): Promise<string> {
  const [row] = await shop.db.sql<{ id: string }[]>`
    select o.id from opening o join engine e on e.id = o.engine_id where e.serial = ${serial} and o.closed_at is null`;
  return row?.id ?? '';
}

describe('the floor', () => {
  test('is reached from the sign-in by keyboard alone, and Enter on an engine opens its page', async () => {
    const context: BrowserContext = await browser.newContext({ baseURL: address });
    const page = await context.newPage();
    await page.goto('/');
    await page.getByRole('button', { name: /Maren Tolk/ }).waitFor();
    await tabTo(page, async () => (await focusedText(page)).includes('Maren Tolk'));
    await page.keyboard.press('Enter');
    await page.locator('input[type=password]:focus').waitFor();
    await page.keyboard.type('4101');
    await page.keyboard.press('Enter');
    await card(page, measured).waitFor();
    await tabTo(page, async () => (await focusedText(page)).includes(measured));
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name: `Halden 355 ${measured}` }).waitFor();
    expect(new URL(page.url()).pathname).toMatch(/^\/engines\/[0-9a-f-]{36}$/);
    await context.close();
  });

  test('shows every engine of an open job once on the plan, and answers its three questions', async () => {
    const { context, page, complaints } = await signedIn('Idris Fenwick');
    await page.goto('/');
    await card(page, measured).waitFor();
    const open = await shop.db.sql<{ serial: string }[]>`
      select e.serial from job j join engine e on e.id = j.engine_id where j.handed_back_at is null`;
    expect(open.length).toBeGreaterThan(8);
    for (const { serial } of open) expect(await card(page, serial).count(), serial).toBe(1);

    const [{ open: openings } = { open: 0 }] = await shop.db.sql<{ open: number }[]>`
      select count(*)::int as open from opening where closed_at is null`;
    const openNow = page.getByRole('region', { name: /^Open now/ });
    expect(await openNow.getByRole('listitem').count()).toBe(openings);
    const past = page.getByRole('region', { name: /^Past the limit or undecided/ });
    expect(await past.getByRole('listitem').filter({ hasText: measured }).textContent()).toMatch(
      /undecided[\s\S]*88\.048/,
    );
    expect(
      await page
        .getByRole('region', { name: /^Waiting for parts/ })
        .getByText('no date')
        .count(),
    ).toBeGreaterThan(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('a change made through another process is on the open page without a reload', async () => {
    const { context, page } = await signedIn('Idris Fenwick');
    await page.goto('/');
    const engine = card(page, uncovered);
    await engine
      .getByText(/uncovered/)
      .first()
      .waitFor();
    await page
      .getByText('Live', { exact: true })
      .or(page.getByText(/^Live /))
      .first()
      .waitFor();
    await page.evaluate(() => Object.assign(window, { sameDocument: true }));

    expect(
      await acts('Oskar Pell', `/api/openings/${await openingOf(uncovered)}/cover`, { covered: true }),
    ).toBeLessThan(300);
    await engine.getByText('cover off, covered').waitFor({ timeout: 5000 });
    expect(await engine.getByText('uncovered').count()).toBe(0);

    expect(
      await acts('Oskar Pell', `/api/openings/${await openingOf(uncovered)}/cover`, { covered: false }),
    ).toBeLessThan(300);
    await engine.getByText(/uncovered \d+ min/).waitFor({ timeout: 5000 });
    expect(await page.evaluate(() => 'sameDocument' in window)).toBe(true);
    await context.close();
  });

  test.each([
    [360, 740],
    [1280, 900],
    [2560, 1440],
    [3840, 2160],
  ])(
    'never needs sideways scrolling, and keeps the shop’s own grid where there is room (%i px)',
    async (width, height) => {
      const { context, page } = await signedIn('Idris Fenwick', { width, height });
      await page.goto('/');
      await card(page, measured).waitFor();
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      const bays = ['Bay 1', 'Bay 2', 'Bay 4'].map((bay) => page.getByRole('region', { name: new RegExp(`^${bay}`) }));
      const shown = await Promise.all(bays.map((bay) => bay.elementHandle()));
      // Measured at one moment: what is said above the plan may still be coming in.
      const [first, second, fourth] = await page.evaluate(
        (regions) =>
          regions.map((region) => {
            const { x, y } = region?.getBoundingClientRect() ?? { x: -1, y: -1 };
            return { left: Math.round(x), top: Math.round(y) };
          }),
        shown,
      );
      if (!first || !second || !fourth) throw new Error('A bay is not on the plan.');
      if (width >= 1280) {
        expect(second.top).toBe(first.top);
        expect(second.left).toBeGreaterThan(first.left);
        expect(fourth.left).toBe(first.left);
      } else {
        expect([second.left, fourth.left]).toEqual([first.left, first.left]);
        await page.getByRole('link', { name: /open$/ }).click();
        await page.getByRole('heading', { name: /^Open now/ }).waitFor();
        expect(
          await page.evaluate(() => document.getElementById('open')?.getBoundingClientRect().top ?? 9999),
        ).toBeLessThan(height);
      }
      expect(fourth.top).toBeGreaterThan(second.top);
      await context.close();
    },
  );
});

describe('an engine’s page', () => {
  const open = async (page: Page, serial: string) => {
    const { items } = await (await page.request.get(`/api/engines?search=${serial}`)).json();
    await page.goto(`/engines/${items[0].id}`);
    await page.getByRole('heading', { level: 1, name: new RegExp(serial) }).waitFor();
    await page
      .getByRole('list')
      .filter({ hasText: 'Taken in' })
      .or(page.getByRole('button', { name: 'Earlier' }))
      .first()
      .waitFor();
  };

  test('tells what it waits for, what was measured, and the wear in a sentence', async () => {
    const { context, page, complaints } = await signedIn('Nadia Quill');
    await open(page, measured);
    const waits = page.getByRole('region', { name: 'What it waits for' });
    await waits.getByText('A decision: Bore, size undecided').waitFor();
    const bore = page.getByRole('img', { name: /^Bore, size, 88\.048 ± / });
    expect(await bore.getAttribute('aria-label')).toContain('undecided');
    expect(await page.getByRole('region', { name: 'Bore, size over the hours' }).textContent()).toMatch(
      /hours from now|reached already/,
    );
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('what is undecided is decided there, and the page says by whom', async () => {
    const { context, page } = await signedIn('Maren Tolk');
    await open(page, measured);
    await page.getByRole('region', { name: 'What it waits for' }).getByRole('button', { name: 'Decide' }).click();
    const dialog = page.getByRole('dialog', { name: 'Decide what is done about it' });
    // The sheet that says so is read while the dialog stands open.
    await expect.poll(() => dialog.getByRole('radio', { name: /^hone/ }).isDisabled()).toBe(true);
    await dialog.locator('label').filter({ hasText: 'use it as it is' }).click();
    await dialog.getByRole('button', { name: 'Decide' }).click();
    await dialog.getByText('Say why.').waitFor();
    await dialog.getByRole('textbox', { name: 'Reason' }).fill('Within the limit by two gauges out of three');
    await dialog.getByRole('button', { name: 'Decide' }).click();
    await dialog.waitFor({ state: 'detached' });
    const obligations = page.getByRole('region', { name: 'Obligations' });
    await obligations.getByText('Within the limit by two gauges out of three').first().waitFor();
    await page
      .getByRole('region', { name: 'What happened' })
      .getByText(/^Decided: use it as it is/)
      .waitFor();
    expect(await page.getByText('A decision: Bore, size undecided').count()).toBe(0);
    await context.close();
  });

  test('the list finds an engine by its owner, among all that were ever taken in', async () => {
    const { context, page } = await signedIn('Idris Fenwick');
    await page.goto('/engines');
    await page.getByRole('link', { name: new RegExp(measured) }).waitFor();
    await page.getByLabel('Serial, owner, family or job number').fill('Ingrid Falk');
    await page.getByRole('link', { name: new RegExp(uncovered) }).waitFor({ state: 'detached' });
    expect(await page.getByRole('link', { name: new RegExp(measured) }).count()).toBe(1);
    await page.getByLabel('Serial, owner, family or job number').fill('nobody of that name');
    await page.getByRole('heading', { name: 'No engine answers to that' }).waitFor();
    await context.close();
  });

  test('an address of no engine says so and leads back', async () => {
    const { context, page } = await signedIn('Idris Fenwick');
    await page.goto(`/engines/${crypto.randomUUID()}`);
    await page.getByRole('heading', { name: 'There is nothing here' }).waitFor();
    await page.getByRole('link', { name: 'To the floor' }).click();
    await card(page, measured).waitFor();
    await context.close();
  });
});

describe('for everybody', () => {
  test.each(['light', 'dark'] as const)(
    'axe finds nothing on the floor, the list and an engine’s page (%s)',
    async (colorScheme) => {
      const { context, page } = await signedIn('Maren Tolk');
      await page.emulateMedia({ colorScheme });
      await page.goto('/');
      await card(page, measured).waitFor();
      expect(await violationsOn(page)).toEqual([]);
      await card(page, measured).getByRole('link').click();
      await page.getByRole('region', { name: 'What happened' }).getByRole('listitem').first().waitFor();
      expect(await violationsOn(page)).toEqual([]);
      await page.goto('/engines');
      await page.getByRole('link', { name: new RegExp(measured) }).waitFor();
      expect(await violationsOn(page)).toEqual([]);
      await context.close();
    },
  );
});
