// Source: PDF (ISO 32000) as PDF.js (Apache-2.0) draws it, and the symbols on it (ISO/IEC 16022) as zxing-cpp reads them;
// places on the sheet are worked out by hand from the sizes of sheet and label (label sheets by dimension are common
// practice, no source: the labels lie in the middle of the sheet).
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CodeKind, writeCode } from '#domain/labels/code.ts';
import { labelMarks } from '#domain/labels/design.ts';
import { type LabelStock, labelStocks, type PlacingOptions, placesOn } from '#domain/labels/stock.ts';
import { labelSheet, measure } from '#features/labels/sheet.ts';
import { symbolOf } from '#features/labels/symbol.ts';
import { launchBrowser } from '../support/browser.ts';
import { symbolsIn } from '../support/symbols.ts';

const DPI = 300;
const { resolve } = createRequire(import.meta.url);
const served: Readonly<Record<string, string>> = {
  '/pdf.mjs': resolve('pdfjs-dist/build/pdf.min.mjs'),
  '/worker.mjs': resolve('pdfjs-dist/build/pdf.worker.min.mjs'),
};

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launchBrowser();
  page = await browser.newPage();
  await page.route('http://sheets.test/**', (route) => {
    const file = served[new URL(route.request().url()).pathname];
    return file === undefined
      ? route.fulfill({ contentType: 'text/html', body: '<!doctype html>' })
      : route.fulfill({ contentType: 'text/javascript', body: readFileSync(file) });
  });
  await page.goto('http://sheets.test/');
  await page.addScriptTag({ type: 'module', content: "import * as pdfjs from '/pdf.mjs'; window.pdfjs = pdfjs;" });
  await page.waitForFunction('window.pdfjs !== undefined');
}, 60_000);
afterAll(() => browser?.close());

/** One page of a PDF as it is printed at 300 dots to the inch, and how many pages there are. */
async function printed(pdf: Buffer, number: number) {
  const drawn = await page.evaluate(
    async ({ base64, number, scale }) => {
      const { pdfjs } = window as unknown as { pdfjs: typeof import('pdfjs-dist') };
      pdfjs.GlobalWorkerOptions.workerSrc = 'http://sheets.test/worker.mjs';
      const data = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
      const document = await pdfjs.getDocument({ data }).promise;
      const sheet = await document.getPage(number);
      const viewport = sheet.getViewport({ scale });
      const canvas = window.document.createElement('canvas');
      canvas.width = Math.round(viewport.width);
      canvas.height = Math.round(viewport.height);
      await sheet.render({ canvas, viewport }).promise;
      const words = (await sheet.getTextContent()).items.map((item) => ('str' in item ? item.str : ''));
      return { pages: document.numPages, words, png: canvas.toDataURL('image/png') };
    },
    { base64: pdf.toString('base64'), number, scale: DPI / 72 },
  );
  return { ...drawn, picture: Buffer.from(drawn.png.split(',')[1] ?? '', 'base64') };
}

const serialOf = (index: number) => `7K3M9Q${String(index).padStart(2, '0')}`;
const codeOf = (index: number) => writeCode({ kind: 'bin' satisfies CodeKind, mark: 'Q7', serial: serialOf(index) });

function sheetOf(stock: LabelStock, count: number, placing: PlacingOptions = {}) {
  const places = placesOn(stock, count, placing);
  const labels = places.map((place, index) => {
    const code = codeOf(index);
    const facts = { kind: 'bin', name: `C-${index}`, rows: ['Ring set', 'Gudgeon pin'], code };
    return { place, marks: labelMarks(facts, { size: stock.label, symbol: symbolOf(code, 'datamatrix'), measure }) };
  });
  return labelSheet(stock, labels, 'Labels');
}
const stockOf = (id: string): LabelStock => {
  const stock = labelStocks.find((each) => each.id === id);
  if (stock === undefined) throw new Error(id);
  return stock;
};

describe('a sheet of labels, printed', () => {
  test.each(labelStocks)(
    '$name: every symbol of a full sheet is read, each where its label lies',
    async (stock) => {
      const count = stock.columns * stock.rows;
      const { picture, pages, words } = await printed(await sheetOf(stock, count), 1);
      expect(pages).toBe(1);
      const found = await symbolsIn(picture);
      expect(found.map(({ text }) => text).toSorted()).toEqual(
        Array.from({ length: count }, (_, index) => codeOf(index)).toSorted(),
      );
      expect(words).toContain(`C-${count - 1}`);
      for (const { text, x, y } of found) {
        const index = Array.from({ length: count }, (_, each) => codeOf(each)).indexOf(text);
        const [left, top] = [index % stock.columns, Math.floor(index / stock.columns)];
        const mm = { x: (x * 25.4) / DPI, y: (y * 25.4) / DPI };
        const from = { x: stock.origin.x + left * stock.pitch.x, y: stock.origin.y + top * stock.pitch.y };
        expect(mm.x).toBeGreaterThan(from.x);
        expect(mm.x).toBeLessThan(from.x + stock.label.width);
        expect(mm.y).toBeGreaterThan(from.y);
        expect(mm.y).toBeLessThan(from.y + stock.label.height);
      }
    },
    60_000,
  );

  test('begins at the first label left and goes on to the next sheet, moved by what the printer is out by', async () => {
    const stock = stockOf('21-on-a4');
    const still = await printed(await sheetOf(stock, 3, { start: 20 }), 1);
    const moved = await printed(await sheetOf(stock, 3, { start: 20, offset: { x: 2, y: -1.5 } }), 1);
    expect(still.pages).toBe(2);
    const byCode = async (picture: Buffer) => new Map((await symbolsIn(picture)).map((each) => [each.text, each]));
    const [before, after] = [await byCode(still.picture), await byCode(moved.picture)];
    expect([...before.keys()].toSorted()).toEqual([codeOf(0), codeOf(1)].toSorted());
    const [one, other] = [before.get(codeOf(0)), after.get(codeOf(0))];
    expect((((other?.x ?? 0) - (one?.x ?? 0)) * 25.4) / DPI).toBeCloseTo(2, 0);
    expect((((other?.y ?? 0) - (one?.y ?? 0)) * 25.4) / DPI).toBeCloseTo(-1.5, 0);
    const second = await printed(await sheetOf(stock, 3, { start: 20 }), 2);
    expect((await symbolsIn(second.picture)).map(({ text }) => text)).toEqual([codeOf(2)]);
  });

  // Worked out by hand: (210 − 3 × 63.5 − 2 × 2.5) / 2 = 7.25; (297 − 7 × 38.1) / 2 = 15.15; 7.25 + 66 = 73.25.
  test('lies in the middle of the sheet', () => {
    const [first, second] = placesOn(stockOf('21-on-a4'), 2);
    expect(first?.x).toBeCloseTo(7.25, 9);
    expect(first?.y).toBeCloseTo(15.15, 9);
    expect(second?.x).toBeCloseTo(73.25, 9);
    // (215.9 − 3 × 66.7 − 2 × 3.1) / 2 = 4.8; (279.4 − 10 × 25.4) / 2 = 12.7.
    const [letter] = placesOn(stockOf('30-on-letter'), 1);
    expect(letter?.x).toBeCloseTo(4.8, 9);
    expect(letter?.y).toBeCloseTo(12.7, 9);
    expect(() => placesOn(stockOf('21-on-a4'), 1, { start: 22 })).toThrow(RangeError);
  });
});
