// Source: the symbologies of ISO/IEC 16022 (Data Matrix) and ISO/IEC 18004 (QR Code), as a decoder of other hands reads
// them: zxing-cpp (Apache-2.0, the library zxing-wasm) for both, and jsQR (Apache-2.0) for QR a second time.
// Pictures in data/symbols: zxing-cpp's own samples, see data/symbols/SOURCES.md.
import jsQR from 'jsqr';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type CodeKind, writeCode } from '#domain/labels/code.ts';
import { type LabelFacts, labelMarks } from '#domain/labels/design.ts';
import { labelStocks } from '#domain/labels/stock.ts';
import { labelSvg } from '#domain/labels/svg.ts';
import { measure } from '#features/labels/sheet.ts';
import { symbolOf } from '#features/labels/symbol.ts';
import { launchBrowser } from '../support/browser.ts';
import { decoded } from '../support/symbols.ts';

const DPI = 300;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launchBrowser();
  page = await (await browser.newContext({ deviceScaleFactor: DPI / 96 })).newPage();
}, 60_000);
afterAll(() => browser?.close());

const section = { stroke: 'four-stroke', cooling: 'water', depth: 'head', cams: true } as const;
const labels: readonly (Omit<LabelFacts, 'code'> & { readonly of: CodeKind })[] = [
  {
    of: 'engine',
    kind: 'engine',
    name: 'H355-0417',
    rows: ['Halden 355', 'job 2418'],
    section: { ...section, depth: 'closed' },
  },
  {
    of: 'tray',
    kind: 'tray, head',
    name: '2418·2',
    rows: ['Cam caps, dowels, chain', 'job 2418, H355-0417', 'cam cap, dowel, cap bolt'],
    section,
  },
  {
    of: 'rack',
    kind: 'rack',
    name: 'Tappet bucket',
    rows: ['4 places: exhaust left, exhaust right, intake left, intake right', 'job 2418, H355-0417', 'head'],
  },
  { of: 'bin', kind: 'bin', name: 'C-04-2', rows: ['Ring set, Piston pin circlip, Gudgeon pin'] },
  { of: 'part', kind: 'shim', name: '2.450 mm', rows: ['H355-S-2450', 'Shim 7.48', 'bin C-04-2'] },
  {
    of: 'badge',
    kind: 'badge',
    name: 'Nadia Quill',
    rows: ['technician', 'Quarry Lane Engines'],
    beneath: 'badge 104',
  },
];
const codeOf = (kind: CodeKind) =>
  writeCode({ kind, mark: 'Q7', serial: kind === 'badge' ? '7K3M9QZT04XWVB2C' : '7K3M9QZT' });

/** As a printer of 300 dots to the inch puts it on paper: dark or light, nothing between. */
async function printed(svg: string): Promise<Buffer> {
  await page.setContent(`<style>body{margin:0;background:#fff}svg{display:block}</style>${svg}`);
  return page.locator('svg').first().screenshot();
}

describe.each(['datamatrix', 'qr'] as const)('labels with a %s symbol', (symbol) => {
  for (const stock of labelStocks) {
    test.each(labels)(`of ${stock.name}: $of`, async ({ of, ...facts }) => {
      const code = codeOf(of);
      const marks = labelMarks({ ...facts, code }, { size: stock.label, symbol: symbolOf(code, symbol), measure });
      const picture = await printed(labelSvg(marks, stock.label, facts.name));
      expect(await decoded(picture, { formats: [symbol === 'qr' ? 'QRCode' : 'DataMatrix'] })).toEqual([code]);
      if (symbol === 'qr') {
        const { data, width, height } = await pixelsOf(picture);
        expect(jsQR.default(data, width, height)?.data).toBe(code);
      }
    });
  }
});

async function pixelsOf(picture: Buffer) {
  const flat = await page.evaluate(async (base64) => {
    const bitmap = await createImageBitmap(await (await fetch(`data:image/png;base64,${base64}`)).blob());
    const { width, height } = bitmap;
    const context = new OffscreenCanvas(width, height).getContext('2d');
    context?.drawImage(bitmap, 0, 0);
    const reader = new FileReader();
    reader.readAsDataURL(new Blob([context?.getImageData(0, 0, width, height).data ?? new Uint8ClampedArray()]));
    await new Promise((read) => reader.addEventListener('load', read));
    return { width, height, pixels: String(reader.result).split(',')[1] ?? '' };
  }, picture.toString('base64'));
  return { ...flat, data: Uint8ClampedArray.from(Buffer.from(flat.pixels, 'base64')) };
}
