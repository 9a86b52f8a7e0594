import type { Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { ProcedureDocument } from '#domain/procedures/document.ts';
import { violationsOn } from '../support/axe.ts';
import { type AtTerminal, type Dashboard, openDashboard } from '../support/dashboard.ts';
import { openBench } from '../support/open-bench.ts';
import { wordsOfPdf } from '../support/pdf-words.ts';
import { openShop, type Shop } from '../support/shop.ts';
import { branching, writtenStep } from '../support/written-procedure.ts';

let shop: Shop;
let dashboard: Dashboard;
let lead: AtTerminal;
beforeAll(async () => {
  shop = await openShop();
  dashboard = await openDashboard(shop);
  lead = await dashboard.at('lead');
});
afterAll(async () => {
  await dashboard?.close();
  await shop?.close();
});

const button = (within: Page | Locator, name: string | RegExp) =>
  within.getByRole('button', { name, exact: typeof name === 'string' });
const heading = (page: Page, name: string) => page.getByRole('heading', { name });
const versions = async () => Number((await shop.sql`select count(*) as number from procedure_version`)[0]?.number);
const file = (body: string) => ({ name: 'look.json', mimeType: 'application/json', buffer: Buffer.from(body) });

/** Long enough for a second sheet of paper: steps with all a step can say. */
const written = branching('H355-PAPER', {
  name: 'Look at the bore and the pin',
  note: 'The maker’s manual, local rules and qualified people decide.',
  steps: [
    ...branching('x').steps,
    ...Array.from({ length: 14 }, (_, index) =>
      writtenStep(`Bearing ${index + 1} looked at`, {
        words: 'Wiped clean, held to the light and turned once round. '.repeat(3).trim(),
        cautions: [{ hazard: 'damage', words: 'Nothing hard goes near the running faces.' }],
        pieces: [
          {
            ...{ name: `Shell ${index + 1}`, expected: 2, from: 'crankcase', why: 'one wears before the other' },
            ...{ layer: null, oneTime: true, matchedSet: null },
          },
        ],
      }),
    ),
    writtenStep('Bring it to the mark'),
  ],
});

describe('a procedure', { sequential: true }, () => {
  test('that is no document, or lacks something, is refused at its step and field, and nothing is written', async () => {
    const { page } = lead;
    const before = await versions();
    await page.goto('/procedures');
    await button(page, 'Import').click();
    const dialog = page.getByRole('dialog', { name: 'Import a procedure' });
    const paste = dialog.getByLabel('Or paste it here');
    const refused = async (body: string, told: string | RegExp) => {
      await dialog.getByLabel('File').setInputFiles(file(body));
      await expect.poll(() => paste.inputValue()).toBe(body);
      await button(dialog, 'Import it').click();
      await dialog.getByText(told).first().waitFor();
    };
    await refused('code,name\nH355,Look', 'This is not a JSON document.');
    const [first, second, ...others] = written.steps;
    const { title: _, ...untitled } = { ...second, cautions: [{ hazard: 'bad smell', words: 'Air it.' }] };
    await refused(JSON.stringify({ ...written, steps: [first, untitled, ...others] }), /^Step 2, title$/);
    const told = await dialog.getByRole('table').textContent();
    expect(told).toMatch(/Step 2, title\s*is missing/);
    expect(told).toMatch(/Step 2, cautions 1, hazard\s*must be one of "fuel and solvent vapour"/);
    expect(await violationsOn(page)).toEqual([]);
    await refused(JSON.stringify({ ...written, kind: 'polish' }), /what it is for/);
    await refused(JSON.stringify({ ...written, family: 'X900' }), 'is no family of this shop');
    expect(await versions()).toBe(before);
  });

  test('imported from a good file stands there as a draft; that a step turns the engine is set, kept and published', async () => {
    const { page } = lead;
    const dialog = page.getByRole('dialog', { name: 'Import a procedure' });
    await dialog.getByLabel('File').setInputFiles(file(JSON.stringify(written)));
    await expect.poll(() => dialog.getByLabel('Or paste it here').inputValue()).toBe(JSON.stringify(written));
    await button(dialog, 'Import it').click();
    await heading(page, written.name).waitFor();
    await page.getByText('Nothing keeps it from being published.').waitFor();
    await page
      .getByRole('listitem')
      .getByRole('button', { name: /Bring it to the mark/ })
      .click();
    const turns = page.getByLabel(/The engine is turned over in it/);
    await turns.check();
    await button(page, 'Keep the draft').click();
    await page.getByText('Kept as it stands here.').waitFor();
    await page.reload();
    await page
      .getByRole('listitem')
      .getByRole('button', { name: /Bring it to the mark/ })
      .click();
    expect(await turns.isChecked()).toBe(true);
    await button(page, 'Publish').click();
    await button(page, 'Publish').waitFor({ state: 'detached' });
  });

  test('is printed with every step, caution and stop point, on A4, and nothing is cut off', async () => {
    const { page } = lead;
    await page.getByRole('link', { name: 'Print' }).click();
    await button(page, 'Print').waitFor();
    await page.getByText('Bring it to the mark').waitFor();
    expect(await violationsOn(page)).toEqual([]);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    const words = (await wordsOfPdf(pdf)).flat().join(' ').replace(/\s+/g, ' ');
    const { steps } = written as ProcedureDocument;
    const told = steps.flatMap(({ title, cautions }) => [title, ...cautions.map((caution) => caution.words)]);
    expect(told.filter((each) => !words.includes(each))).toEqual([]);
    expect(words).toContain('Stop: another person looks and signs.');
    expect(words).toContain('The engine is turned over in this step.');
    expect(words).not.toContain('Back to the version');
    expect(pdf.toString('latin1')).toMatch(/MediaBox \[0 0 59[45].*84[12]/);
    // As wide as the paper between its margins: nothing stands past the right edge.
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: 703, height: 1000 });
    const past = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(past).toBeLessThanOrEqual(0);
    await page.emulateMedia({ media: 'screen' });
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
    expect(lead.complaints.filter((text) => !/40[09]|422/.test(text))).toEqual([]);
  });

  test('in a run the step that turns the engine waits while a piece may be inside, and says what to do', async () => {
    const bench = await openBench(shop);
    const { body: off } = await bench.off([{ byHand: { name: 'dowel', expected: 2 }, count: 1 }]);
    const pieces = [{ pieceId: off.pieces[0].id, count: 1 }];
    await bench.act('possibly-inside', { pieces, reason: 'Heard it fall' });
    const { items } = (await bench.as.get(`/api/procedures?familyId=${shop.sheet.familyId}`)).body;
    await bench.as.post(`/api/jobs/${bench.jobId}/procedure-runs`, { versionId: items[0].versionId });
    const [run] = (await bench.as.get(`/api/jobs/${bench.jobId}/procedure-runs`)).body.items;
    const at = (title: string) => run.steps.find((step: { title: string }) => step.title === title).id;
    const { page, context, complaints } = await dashboard.at('technician', { width: 390, height: 844 });
    await page.goto(`/bench/${bench.jobId}/procedure?step=${at('Tidy up')}`);
    await heading(page, 'Tidy up').waitFor();
    expect(await page.getByText('Do not turn the engine over').count()).toBe(0);
    await page.goto(`/bench/${bench.jobId}/procedure?step=${at('Bring it to the mark')}`);
    const stop = page.getByRole('alert').filter({ hasText: 'Do not turn the engine over' });
    await stop.getByText('1 × dowel may be inside. This step waits until the search has ended.').waitFor();
    expect(await button(page, 'Step done').isDisabled()).toBe(true);
    expect(await violationsOn(page)).toEqual([]);
    await stop.getByRole('link', { name: 'Go to the search' }).click();
    await page.getByText('dowel').first().waitFor();
    await bench.act('found', { pieces, trayId: bench.trayId, reason: 'In the sump' });
    await page.goBack();
    await page.getByText('The engine is turned over in this step.').waitFor();
    await stop.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
    await context.close();
  });
});
