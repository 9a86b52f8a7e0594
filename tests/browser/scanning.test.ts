import { hash } from '@node-rs/argon2';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { violationsOn } from '../support/axe.ts';
import { launchBrowser } from '../support/browser.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { cameraArgs, filmOf } from '../support/fake-camera.ts';
import { labelCode } from '../support/label-code.ts';
import { insertInstruments } from '../support/measuring.ts';
import { insertStrip } from '../support/procedures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { addBin, addKit, addLot, addPart } from '../support/stores.ts';
import { wedge } from '../support/wedge.ts';

let shop: Shop;
let dashboard: Dashboard;
let bin: { id: string; code: string };
let partId: string;
let serials = 900;
beforeAll(async () => {
  shop = await openShop();
  await shop.sql`update shop set label_mark = 'Q7'`;
  await insertInstruments(shop.sql, shop.people.lead);
  await insertStrip(shop.sql, shop.sheet.familyId);
  bin = await addBin(shop.sql);
  partId = (await addPart(shop.sql, { number: 'H355-P', name: 'Piston' })).id;
  await addLot(shop, { partId, quantity: 5, binId: bin.id });
  dashboard = await openDashboard(shop);
}, 240_000);
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const codeOf = (kind: string, id: string) => labelCode(shop, kind, id);
const note = (page: Page) => page.locator('.scan-note');
const said = (page: Page, text: string | RegExp) => note(page).getByText(text).waitFor();
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name });

async function resting() {
  serials += 1;
  const serial = `H355-${serials}`;
  return { serial, ...(await takeIn(shop, { serial })) };
}
async function inHand(trays: readonly string[]) {
  const engine = await resting();
  const as = shop.as.technician;
  await as.post(`/api/engines/${engine.engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
  const opening = await as.post(`/api/jobs/${engine.jobId}/openings`);
  const ids: string[] = [];
  for (const name of trays) {
    const { body } = await as.post(`/api/jobs/${engine.jobId}/trays`, { name });
    await as.post(`/api/openings/${opening.body.id}/pieces/off`, {
      pieces: [{ byHand: { name: `${name} bolt` }, count: 2 }],
      trayId: body.id,
    });
    ids.push(body.id);
  }
  return { ...engine, trayIds: ids };
}

describe('a reader that types', () => {
  test('on the floor opens what was scanned, says so, and leads back', async () => {
    const { engineId, serial } = await resting();
    const { page, context, complaints } = await dashboard.at('writer');
    await page.goto('/');
    await page.getByRole('heading', { name: 'Floor' }).waitFor();
    await wedge(page, await codeOf('engine', engineId));
    await page.waitForURL(`**/engines/${engineId}`);
    await said(page, `Halden 355 ${serial}:`);
    expect(await violationsOn(page, '.scan-note')).toEqual([]);
    await button(page, 'Back').click();
    await page.getByRole('heading', { name: 'Floor' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('at my bench offers to take what rests in a bay', async () => {
    const { engineId, serial } = await resting();
    const { page, context } = await dashboard.at('technician');
    await page.goto('/bench');
    await button(page, `Take it: Halden 355 ${serial}`).or(page.getByText(serial).first()).first().waitFor();
    // Some readers end with nothing at all.
    await wedge(page, (await codeOf('engine', engineId)).toLowerCase(), '');
    await said(page, 'rests here');
    await page.getByRole('dialog').getByText(serial).first().waitFor();
    await context.close();
  });

  test('in a handover goes to the tray to be counted, and says of another that it is none of it', async () => {
    const { jobId, trayIds } = await inHand(['Caps', 'Cover']);
    const other = await inHand(['Elsewhere']);
    const { body } = await shop.as.technician.post(`/api/jobs/${jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: true,
      trayIds,
    });
    const { page, context } = await dashboard.at('colleague', { width: 390, height: 844 });
    await page.goto(`/handovers/${body.id}`);
    await page.getByRole('textbox', { name: 'How many: Caps bolt' }).waitFor();
    await page.getByRole('textbox', { name: 'How many: Caps bolt' }).focus();
    await wedge(page, await codeOf('tray', trayIds[1] ?? ''));
    await page.getByRole('textbox', { name: 'How many: Cover bolt' }).waitFor();
    await said(page, 'count it now');
    await button(page, 'Back').click();
    await page.getByRole('textbox', { name: 'How many: Caps bolt' }).waitFor();
    expect(await page.getByRole('textbox', { name: 'How many: Caps bolt' }).inputValue()).toMatch(/^0?$/);
    await wedge(page, await codeOf('tray', other.trayIds[0] ?? ''));
    await said(page, 'is not in this handover');
    expect(page.url()).toContain(body.id);
    await context.close();
  });

  test('where pieces are counted off chooses the tray they go into', async () => {
    const engine = await resting();
    await shop.as.technician.post(`/api/engines/${engine.engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const tray = await shop.as.technician.post(`/api/jobs/${engine.jobId}/trays`, { name: 'Cover bolts' });
    const { page, context } = await dashboard.at('technician');
    await page.goto(`/bench/${engine.jobId}/procedure`);
    await button(page, 'Begin: strip-h355').click();
    await page.getByRole('heading', { name: 'Drain the coolant' }).waitFor();
    await button(page, 'Step done').click();
    await page.getByRole('heading', { name: 'Cover off' }).waitFor();
    await button(page, 'Open the engine').click();
    await button(page, 'All 1: valve cover').click();
    await wedge(page, await codeOf('tray', tray.body.id));
    await said(page, 'pieces go in here now');
    await button(page, 'Print a label').waitFor();
    expect(await page.getByRole('radio', { name: /Cover bolts/ }).isChecked()).toBe(true);
    await context.close();
  });

  test('among figures of the number pad leaves the figure as it was', async () => {
    const { jobId, engineId } = await resting();
    const { page, context } = await dashboard.at('technician');
    await page.goto(`/bench/${jobId}/measure?dimension=bore`);
    await page.locator('.measure').waitFor();
    await page.keyboard.type('88.0');
    const figure = page.locator('.figure-line output');
    await expect.poll(() => figure.textContent()).toBe('88.0');
    const wrong = `${await codeOf('engine', engineId)}0`;
    await wedge(page, wrong);
    await said(page, 'one of its letters or digits is wrong');
    expect(await figure.textContent()).toBe('88.0');
    await page.keyboard.type('12');
    await expect.poll(() => figure.textContent()).toBe('88.012');
    await context.close();
  });
});

test('a tray’s label on the floor leads to what lies in it, and back', async () => {
  const { trayIds } = await inHand(['Dowels']);
  const { page, context } = await dashboard.at('writer');
  await page.goto('/');
  await page.getByRole('heading', { name: 'Floor' }).waitFor();
  await wedge(page, await codeOf('tray', trayIds[0] ?? ''));
  await page.waitForURL(`**/trays/${trayIds[0]}`);
  await page.getByText('2 × Dowels bolt').waitFor();
  await button(page, 'Back').click();
  await page.getByRole('heading', { name: 'Floor' }).waitFor();
  await context.close();
});

describe('somebody who types', () => {
  test('loses no letter, however fast, and a scan leaves none in the field', async () => {
    const { page, context } = await dashboard.at('writer');
    await page.goto('/engines');
    const field = page.getByRole('searchbox').first();
    await field.fill('');
    for (const [text, delay] of [
      ['XHT 7 xhe xx', 90],
      ['xylophone XH', 1],
      ['XHTX', 3],
    ] as const) {
      await field.fill('');
      await field.pressSequentially(text, { delay });
      await expect.poll(() => field.inputValue()).toBe(text);
    }
    await field.fill('H355');
    await field.press('End');
    await wedge(page, 'XHTQ77K3M9QZTA');
    await said(page, 'one of its letters or digits is wrong');
    expect(await field.inputValue()).toBe('H355');
    await context.close();
  });

  test('or whose reader is broken types what is printed beneath', async () => {
    const { page, context } = await dashboard.at('clerk');
    await page.goto('/');
    await button(page, 'Scan a label').click();
    const dialog = page.getByRole('dialog');
    const code = await codeOf('bin', bin.id);
    await dialog.getByLabel('Or type what is printed').fill(`${code.slice(0, 3)} ${code.slice(3, 5)} ${code.slice(5)}`);
    await page.keyboard.press('Enter');
    await page.waitForURL('**/stores');
    await page.getByText(`Bin ${bin.code}`, { exact: true }).waitFor();
    await context.close();
  });
});

test('in stores a part that is to be picked gets its button the focus, and a bin takes goods in', async () => {
  const { jobId, number } = await resting();
  const kitId = await addKit(shop, [[partId, 1]]);
  await shop.as.technician.post(`/api/jobs/${jobId}/demands`, { kitId });
  await shop.as.clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true });
  const { page, context } = await dashboard.at('clerk');
  await page.goto('/stores');
  await button(page, 'Pick 1: Piston').waitFor();
  await wedge(page, await codeOf('part', partId));
  await said(page, `1 to pick for job ${number}`);
  await expect
    .poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-label')))
    .toBe('Pick 1: Piston');
  const second = await addBin(shop.sql);
  await page.reload();
  await button(page, 'Pick 1: Piston').waitFor();
  await wedge(page, await codeOf('part', partId));
  await button(page, 'Receive').first().click();
  await page.getByRole('dialog').getByLabel('Bin').waitFor();
  await wedge(page, await codeOf('bin', second.id));
  await said(page, 'goods go in here');
  expect(await page.getByRole('dialog').getByLabel('Bin').inputValue()).toBe(second.id);
  await context.close();
});

test('a badge at the sign-in asks for its bearer’s PIN, and one held to a terminal in use taps out first', async () => {
  await shop.sql`update person set pin_hash = ${await hash('2468')} where id = ${shop.people.technician}`;
  const { body } = await shop.as.lead.post('/api/badges', { personId: shop.people.technician });
  const { page, context } = await dashboard.at('writer');
  await page.goto('/');
  await page.getByRole('heading', { name: 'Floor' }).waitFor();
  await wedge(page, body.code);
  await page.getByText('Badge of Nadia Quill read. Now the PIN.').waitFor();
  // Held once more, into the PIN's own field: still no letter of it there.
  await wedge(page, body.code);
  await page.keyboard.type('2468');
  await page.keyboard.press('Enter');
  await page.getByText('Nadia Quill').first().waitFor();
  await page.getByRole('heading', { name: 'Floor' }).waitFor();
  await context.close();
});

test('the camera reads a label from its picture', async () => {
  const { engineId } = await resting();
  const { body } = await shop.as.clerk.post('/api/labels/drawings', {
    labels: [{ kind: 'engine', id: engineId }],
    stock: '65-on-a4',
  });
  const size = { width: 640, height: 480 };
  const drawing = await dashboard.at('clerk', size);
  const tilted = 'position:absolute;left:120px;top:110px;transform:rotate(11deg) scale(2.4);transform-origin:0 0';
  await drawing.page.setContent(
    `<body style="margin:0;background:#9a9286"><div style="${tilted}">${body.items[0].svg}</div>`,
  );
  const film = await filmOf(drawing.page, size);
  await drawing.context.close();
  const browser = await launchBrowser({ args: cameraArgs(film.file) });
  const context = await browser.newContext({ baseURL: dashboard.address, viewport: { width: 390, height: 844 } });
  const { token } = await startSession(shop.sql, { personId: shop.people.clerk, terminalId: undefined });
  await context.addCookies([{ name: SESSION_COOKIE, value: token, url: dashboard.address }]);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  const outside: string[] = [];
  page.on('request', (request) => !request.url().startsWith(dashboard.address) && outside.push(request.url()));
  await page.goto('/');
  await button(page, 'Scan a label').click();
  await page.waitForURL(`**/engines/${engineId}`, { timeout: 45_000 });
  expect(complaints).toEqual([]);
  expect(outside.filter((url) => !url.startsWith('blob:'))).toEqual([]);
  await browser.close();
  film.remove();
}, 90_000);

test('where there is no camera a photo of the label is read; one without a label is told', async () => {
  const { engineId } = await resting();
  const { body } = await shop.as.clerk.post('/api/labels/drawings', {
    labels: [{ kind: 'engine', id: engineId }],
    stock: '65-on-a4',
    symbol: 'qr',
  });
  const camera = await dashboard.at('clerk', { width: 900, height: 700 });
  const tilted = 'position:absolute;left:150px;top:180px;transform:rotate(-8deg) scale(2.4);transform-origin:0 0';
  await camera.page.setContent(`<div style="${tilted}">${body.items[0].svg}</div>`);
  const photo = await camera.page.screenshot();
  await camera.page.setContent('<p>Nothing to be read</p>');
  const empty = await camera.page.screenshot();
  await camera.context.close();
  const { page, context } = await dashboard.at('clerk', { width: 390, height: 844 });
  await page.addInitScript(() => {
    navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no camera', 'NotFoundError'));
  });
  await page.goto('/');
  await button(page, 'Scan a label').click();
  const field = page.getByLabel('Photograph the label');
  await field.setInputFiles({ name: 'empty.png', mimeType: 'image/png', buffer: empty });
  await page.getByText('Nothing was read in that photo.').waitFor();
  expect(await violationsOn(page, '[role="dialog"]')).toEqual([]);
  await field.setInputFiles({ name: 'label.png', mimeType: 'image/png', buffer: photo });
  await page.waitForURL(`**/engines/${engineId}`);
  await context.close();
});
