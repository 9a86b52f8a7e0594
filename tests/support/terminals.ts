import { mkdirSync, rmSync } from 'node:fs';
import type { AddressInfo } from 'node:net';
import path from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { projectFolder } from '#platform/project-folder.ts';
import { latestAnchor } from '../../prisma/demo/clock.ts';
import { loadDemoIfEmpty } from '../../prisma/demo/load.ts';
import { demoPeople, type PersonKey } from '../../prisma/demo/people.ts';
import { buildApp } from '../../server/app.ts';
import { launchBrowser } from './browser.ts';
import { cloneDatabase } from './database.ts';
import { filesOf } from './test-config.ts';

/** Somebody of the demo shop at a browser of their own. */
export interface Terminal {
  readonly name: string;
  readonly page: Page;
  readonly context: BrowserContext;
}

export interface DemoShop {
  /** Signs somebody in on the page, by name and PIN. */
  readonly tapIn: (who: PersonKey, size?: Size) => Promise<Terminal>;
  /** One more tab of a browser that somebody is signed in at. */
  readonly tab: (of: Terminal) => Promise<Page>;
  /** What any page complained of: refused by the policy, thrown, logged as an error. */
  readonly complaints: readonly string[];
  readonly picture: (name: string) => Promise<void>;
  readonly close: () => Promise<void>;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

/** Before anybody is signed in the page asks who is, and is told that nobody is: a browser logs that as an error. */
const isNobodyYet = (text: string, url: string): boolean =>
  url.endsWith('/api/session') && text.includes('status of 401');

function listen(page: Page, complaints: string[]): void {
  page.on('console', (message) => {
    if (message.type() !== 'error' || isNobodyYet(message.text(), message.location().url)) return;
    complaints.push(`${new URL(page.url()).pathname}: ${message.text()}`);
  });
  page.on('pageerror', (error) => complaints.push(`${new URL(page.url()).pathname}: ${error.message}`));
}

async function enter(page: Page, who: PersonKey): Promise<string> {
  const person = demoPeople.find(({ key }) => key === who);
  if (person === undefined) throw new Error(`Nobody of the demo shop is ${who}.`);
  await page.goto('/');
  await page.getByRole('button', { name: person.name }).click();
  await page.locator('#pin').pressSequentially(person.pin);
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Tap out' }).waitFor();
  return person.name;
}

/** The demo shop as it is loaded today, served as it is served in a shop, with a browser for each who works there. */
export async function openDemoShop(): Promise<DemoShop> {
  const { db, url, drop } = await cloneDatabase();
  await loadDemoIfEmpty(db, { anchor: latestAnchor(new Date()), loopback: true, filesFolder: filesOf(url) });
  const app = await buildApp({
    config: {
      port: 0,
      host: '127.0.0.1',
      loopback: true,
      databaseUrl: url,
      dataFolder: '',
      filesFolder: filesOf(url),
      demo: true,
      anchor: undefined,
      logLevel: 'silent',
      publicOrigin: undefined,
      projectFolder,
    },
    db,
  });
  await app.listen({ port: 0, host: '127.0.0.1' });
  const baseURL = `http://127.0.0.1:${(app.server.address() as AddressInfo).port}`;
  const browser = await launchBrowser();
  const complaints: string[] = [];
  const pages = new Map<string, Page>();
  return {
    tapIn: async (who, size = { width: 1280, height: 800 }) => {
      const context = await browser.newContext({ baseURL, viewport: { ...size } });
      context.setDefaultTimeout(30_000);
      const page = await context.newPage();
      listen(page, complaints);
      pages.set(who, page);
      return { name: await enter(page, who), page, context };
    },
    tab: async ({ name, context }) => {
      const page = await context.newPage();
      listen(page, complaints);
      pages.set(`${name} tab`, page);
      return page;
    },
    complaints,
    picture: async (name) => {
      const folder = path.join(projectFolder, 'tests/browser/pictures');
      mkdirSync(folder, { recursive: true });
      const file = (of: string) => path.join(folder, `${name} ${of}.png`.replaceAll(/[^\w.]+/g, '-'));
      for (const [of, page] of pages) await page.screenshot({ path: file(of) });
    },
    close: async () => {
      await browser.close();
      await app.close();
      await drop();
      rmSync(filesOf(url), { recursive: true, force: true });
    },
  };
}
