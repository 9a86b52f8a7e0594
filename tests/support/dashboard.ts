import type { AddressInfo } from 'node:net';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { projectFolder } from '#platform/project-folder.ts';
import { buildApp } from '../../server/app.ts';
import { launchBrowser } from './browser.ts';
import type { Shop, StaffName } from './shop.ts';
import { filesOf } from './test-config.ts';

/** Somebody at a terminal of their own: a browser that knows who is signed in. */
export interface AtTerminal {
  readonly page: Page;
  readonly context: BrowserContext;
  /** What the page complained of: refused by the policy, thrown, logged as an error. */
  readonly complaints: readonly string[];
}

export interface Dashboard {
  readonly address: string;
  readonly at: (who: StaffName, size?: { readonly width: number; readonly height: number }) => Promise<AtTerminal>;
  readonly close: () => Promise<void>;
}

/** The built dashboard over a test shop, served as it is served in a shop. */
export async function openDashboard(shop: Shop): Promise<Dashboard> {
  const app = await buildApp({
    config: {
      port: 0,
      host: '127.0.0.1',
      loopback: true,
      databaseUrl: shop.url,
      dataFolder: '',
      filesFolder: filesOf(shop.url),
      demo: false,
      anchor: undefined,
      logLevel: 'silent',
      publicOrigin: undefined,
      projectFolder,
    },
    db: shop.db,
  });
  await app.listen({ port: 0, host: '127.0.0.1' });
  const { port } = app.server.address() as AddressInfo;
  const address = `http://127.0.0.1:${port}`;
  const browser = await launchBrowser();
  return {
    address,
    at: (who, size = { width: 1280, height: 800 }) => signedIn({ shop, browser, address }, who, size),
    close: async () => {
      await browser.close();
      await app.close();
    },
  };
}

async function signedIn(
  { shop, browser, address }: { shop: Shop; browser: Browser; address: string },
  who: StaffName,
  size: { readonly width: number; readonly height: number },
): Promise<AtTerminal> {
  const { token } = await startSession(shop.sql, { personId: shop.people[who], terminalId: undefined });
  const context = await browser.newContext({ baseURL: address, viewport: { ...size } });
  await context.addCookies([{ name: SESSION_COOKIE, value: token, url: address }]);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return { page, context, complaints };
}
