import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { violationsOn } from '../support/axe.ts';
import { type Dashboard, openDashboard } from '../support/dashboard.ts';
import { inHand } from '../support/in-hand.ts';
import { insertInstruments } from '../support/measuring.ts';
import { jpeg, pdf } from '../support/pictures.ts';
import { insertStrip, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { until } from '../support/until.ts';

let shop: Shop;
let dashboard: Dashboard;
let strip: WrittenProcedure;
beforeAll(async () => {
  shop = await openShop();
  strip = await insertStrip(shop.sql, shop.sheet.familyId);
  await insertInstruments(shop.sql, shop.people.lead);
  dashboard = await openDashboard(shop);
});
afterAll(async () => {
  await dashboard.close();
  await shop.close();
});

const button = (page: Page, name: string | RegExp) =>
  page.getByRole('button', { name, exact: typeof name === 'string' });
const photosIn = async (engineId: string) => (await shop.as.writer.get(`/api/engines/${engineId}/photos`)).body.items;

describe('a photo', () => {
  test('is taken of what an obligation is about, and of a handover, and stands there', async () => {
    const { jobId, engineId } = await inHand(shop);
    await shop.as.lead.post(`/api/jobs/${jobId}/obligations`, { words: 'Stud pulled out of the case', inside: false });
    const { page, complaints, context } = await dashboard.at('technician');
    const takeIt = async (at: Locator, caption: string) => {
      await at.getByRole('button', { name: /^Photo: / }).click();
      await page.getByLabel('What it shows (may stay empty)').fill(caption);
      await button(page, 'Take it').click();
      await until(
        () => photosIn(engineId),
        (items) => items.some((photo: { caption: string }) => photo.caption === caption),
      );
      await button(page, 'Done').click();
      await at.getByRole('button', { name: `Look at: ${caption}` }).waitFor();
    };
    await page.goto(`/engines/${engineId}`);
    await takeIt(page.getByRole('listitem').filter({ hasText: 'Stud pulled out of the case' }), 'The hole');
    const offer = await shop.as.technician.post(`/api/jobs/${jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: true,
      trayIds: [],
      looseWords: '',
    });
    expect(offer.status, JSON.stringify(offer.body)).toBe(201);
    await page.goto(`/handovers/${offer.body.id}`);
    await takeIt(page.getByRole('complementary'), 'On the trolley');
    expect((await photosIn(engineId)).map(({ of }: { of: { kind: string } }) => of.kind)).toEqual([
      'handover',
      'obligation',
    ]);
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('taken by the terminal’s camera at a step stands at the step and on the engine’s timeline', async () => {
    const { jobId, engineId } = await inHand(shop);
    const { page, complaints, context } = await dashboard.at('technician');
    await page.goto(`/bench/${jobId}/procedure`);
    await button(page, 'Begin: strip-h355').click();
    await page.getByRole('heading', { name: 'Drain the coolant' }).waitFor();
    await button(page, 'Photo: Drain the coolant').click();
    await page.getByLabel('What it shows (may stay empty)').fill('Milky coolant');
    await button(page, 'Take it').click();
    const [photo] = await until(
      () => photosIn(engineId),
      (items) => items.length > 0,
    );
    expect(photo).toMatchObject({ type: 'image/jpeg', caption: 'Milky coolant', of: { kind: 'step' } });
    expect(photo.width).toBeGreaterThan(300);
    await button(page, 'Done').click();
    await button(page, 'Look at: Milky coolant').waitFor();

    await page.goto(`/engines/${engineId}`);
    const happened = page
      .getByRole('region', { name: 'What happened' })
      .or(page.locator('section', { has: page.locator('#happened') }));
    await happened.getByText('Photo taken, Step 1, Drain the coolant, Milky coolant').waitFor();
    const thumb = happened.getByRole('button', { name: 'Look at: Milky coolant' });
    await thumb.click();
    const viewer = page.getByRole('dialog', { name: 'Milky coolant' });
    await viewer.getByText('step: Step 1, Drain the coolant').waitFor();
    const shown = await viewer.locator('img').evaluate(async (image: HTMLImageElement) => {
      await image.decode();
      return image.naturalWidth;
    });
    expect(shown).toBeGreaterThan(300);
    expect(await violationsOn(page)).toEqual([]);
    await viewer.getByLabel('Caption').fill('Oil in the coolant');
    await viewer.getByRole('button', { name: 'Keep the caption' }).click();
    await viewer.getByLabel('Print it on the build sheet').check();
    await until(
      () => photosIn(engineId),
      ([one]) => one.onSheet,
    );
    await page.keyboard.press('Escape');
    await page.goto(`/sheets/${jobId}`);
    await page.getByText('Oil in the coolant').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('of a reading is taken where it is measured, and stands at that reading, not at the next', async () => {
    const { jobId, engineId } = await inHand(shop);
    const { page, complaints, context } = await dashboard.at('technician', { width: 390, height: 844 });
    await page.goto(`/bench/${jobId}/measure?dimension=bore`);
    await page.getByRole('heading', { name: 'At A-across' }).waitFor();
    expect(await button(page, /^Photo: Bore, size, /).count()).toBe(0);
    await page.keyboard.type('88.040');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'At A-along' }).waitFor();
    await page
      .getByRole('region', { name: 'Places' })
      .getByRole('button', { name: /88\.040/ })
      .click();
    await page.getByRole('heading', { name: 'At A-across' }).waitFor();
    await button(page, 'Photo: Bore, size, A-across 88.040').click();
    await page.getByLabel('What it shows (may stay empty)').fill('Scored under the ring');
    await button(page, 'Take it').click();
    const [photo] = await until(
      () => photosIn(engineId),
      (items) => items.length > 0,
    );
    expect(photo).toMatchObject({ caption: 'Scored under the ring', of: { kind: 'reading' } });
    await button(page, 'Done').click();
    await button(page, 'Look at: Scored under the ring').first().waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.getByRole('region', { name: 'Places' }).getByRole('button', { name: /along/ }).first().click();
    await page.getByRole('heading', { name: 'At A-along' }).waitFor();
    expect(await page.getByRole('button', { name: /^Look at: Scored/ }).count()).toBe(0);
    await page
      .getByRole('button', { name: /88\.040.*1 photo/ })
      .first()
      .waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('of a piece that came off stands beside it, small, and opens large', async () => {
    const { jobId, engineId } = await inHand(shop);
    const { page, complaints, context } = await dashboard.at('technician', { width: 390, height: 844 });
    await page.goto(`/bench/${jobId}/procedure`);
    await button(page, 'Begin: strip-h355').click();
    await page.getByRole('heading', { name: 'Drain the coolant' }).waitFor();
    const { body: opening } = await shop.as.technician.post(`/api/jobs/${jobId}/openings`);
    const [[name, stepPieceId] = ['', '']] = Object.entries(strip.pieces);
    const off = { pieces: [{ stepPieceId, count: 1 }] };
    expect((await shop.as.technician.post(`/api/openings/${opening.id}/pieces/off`, off)).status).toBe(200);
    await button(page, 'Step done').click();
    await page.getByRole('heading', { name: 'Cover off' }).waitFor();
    await button(page, `Photo: ${name}`).click();
    await page.getByLabel('What it shows (may stay empty)').fill('Chafed edge');
    await button(page, 'Take it').click();
    await until(
      () => photosIn(engineId),
      (items) => items.length > 0,
    );
    await button(page, 'Done').click();
    const small = page
      .getByRole('listitem')
      .filter({ hasText: name })
      .getByRole('button', { name: 'Look at: Chafed edge' });
    await small.click();
    await page.getByRole('dialog', { name: 'Chafed edge' }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    expect(await violationsOn(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('taken while the network is down is kept, and sent once it is back, once', async () => {
    const { jobId, engineId } = await inHand(shop);
    const { page, context } = await dashboard.at('technician');
    await page.goto(`/engines/${engineId}`);
    await button(page, 'Photo').click();
    await button(page, 'Take it').waitFor();
    await context.setOffline(true);
    await button(page, 'Take it').click();
    await page.getByText('waits to be sent').first().waitFor();
    await page.waitForTimeout(600);
    expect(await photosIn(engineId)).toEqual([]);
    await context.setOffline(false);
    expect(
      await until(
        () => photosIn(engineId),
        (items) => items.length > 0,
      ),
    ).toHaveLength(1);
    await page.waitForTimeout(5_000);
    expect(await photosIn(engineId)).toHaveLength(1);
    expect(await page.getByText('waits to be sent').count()).toBe(0);
    expect(jobId).toBeTruthy();
    await context.close();
  });

  test('kept through a reload of the page while the server did not take it', async () => {
    const { engineId } = await inHand(shop);
    const { page, context } = await dashboard.at('technician');
    await page.goto(`/engines/${engineId}`);
    await page.route('**/api/jobs/*/photos?*', (route) => route.abort());
    await button(page, 'Photo').click();
    await button(page, 'Take it').click();
    await page.getByText('waits to be sent').first().waitFor();
    await page.reload();
    await page.getByText('waits to be sent').first().waitFor();
    await page.unroute('**/api/jobs/*/photos?*');
    expect(
      await until(
        () => photosIn(engineId),
        (items) => items.length > 0,
      ),
    ).toHaveLength(1);
    await context.close();
  });

  test('several files at once; the wrong type and the too large are said before they are sent', async () => {
    const { engineId } = await inHand(shop);
    const { page, complaints, context } = await dashboard.at('writer', { width: 390, height: 844 });
    await page.goto(`/engines/${engineId}`);
    await button(page, 'Photo').click();
    const files = [
      { name: 'left.jpg', mimeType: 'image/jpeg', buffer: await jpeg(640, 480) },
      { name: 'right.jpg', mimeType: 'image/jpeg', buffer: await jpeg(640, 481) },
      { name: 'delivery note.pdf', mimeType: 'application/pdf', buffer: pdf() },
      { name: 'song.mp3', mimeType: 'audio/mpeg', buffer: Buffer.from('x') },
      { name: 'renamed.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture') },
    ];
    await page.locator('input[type=file]').last().setInputFiles(files);
    await page.getByText('song.mp3 is neither a picture nor a PDF').waitFor();
    await page
      .getByText(/Not kept by the server: This is neither a JPEG/)
      .first()
      .waitFor();
    await page.getByRole('dialog').getByRole('button', { name: 'Throw it away' }).click();
    const folder = mkdtempSync(path.join(tmpdir(), 'crosshatch-huge-'));
    writeFileSync(path.join(folder, 'huge.jpg'), Buffer.alloc(27_000_000));
    await page.locator('input[type=file]').last().setInputFiles(path.join(folder, 'huge.jpg'));
    await page.getByText('huge.jpg is larger than 25 MB').waitFor();
    rmSync(folder, { recursive: true });
    await button(page, 'Done').click();
    await button(page, 'Look at: delivery note.pdf').first().click();
    const opening = page.getByRole('link', { name: 'Open the document' });
    expect(await opening.getAttribute('target')).toBe('_blank');
    const paper = await page.request.get((await opening.getAttribute('href')) ?? '');
    expect(paper.headers()['content-disposition']).toMatch(/^inline; filename="delivery note.pdf"/);
    await button(page, 'Close').click();
    expect(await photosIn(engineId)).toHaveLength(3);
    expect(complaints.filter((text) => !text.includes('415'))).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    await context.close();
  });

  test('removed by the lead with a reason is gone from the page; the timeline tells why', async () => {
    const { jobId, engineId } = await inHand(shop);
    const lead = await dashboard.at('lead');
    const { page } = lead;
    await page.goto(`/counter/${jobId}`);
    await button(page, 'Photo').click();
    await page.getByLabel('What it shows (may stay empty)').fill('As it came in');
    await button(page, 'Take it').click();
    await until(
      () => photosIn(engineId),
      (items) => items.length > 0,
    );
    await button(page, 'Done').click();
    await button(page, 'Look at: As it came in').click();
    await button(page, 'Remove it').click();
    await page.getByLabel('Why it is removed').fill('A face is in it');
    await button(page, 'Remove the photo').click();
    await button(page, 'Look at: As it came in').waitFor({ state: 'detached' });
    await page.goto(`/engines/${engineId}`);
    await page.getByText('Photo removed, A face is in it').waitFor();
    expect(await photosIn(engineId)).toEqual([]);
    await lead.context.close();
  });
});
