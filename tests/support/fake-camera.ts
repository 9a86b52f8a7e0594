import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';

const FRAMES = 10;

/** A picture's brightness, one byte a pixel, row by row. */
interface Grey {
  readonly width: number;
  readonly height: number;
  readonly pixels: Buffer;
}

/** What a page shows, as grey as a camera's picture is without its colours. */
async function greyOf(page: Page, size: { width: number; height: number }): Promise<Grey> {
  const picture = await page.screenshot({ clip: { x: 0, y: 0, ...size } });
  const base64 = await page.evaluate(async (png) => {
    const bitmap = await createImageBitmap(await (await fetch(`data:image/png;base64,${png}`)).blob());
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
    context?.drawImage(bitmap, 0, 0);
    const { data } = context?.getImageData(0, 0, bitmap.width, bitmap.height) ?? { data: new Uint8ClampedArray() };
    const reader = new FileReader();
    reader.readAsDataURL(new Blob([data.filter((_, index) => index % 4 === 1)]));
    await new Promise((read) => reader.addEventListener('load', read));
    return String(reader.result).split(',')[1] ?? '';
  }, picture.toString('base64'));
  return { ...size, pixels: Buffer.from(base64, 'base64') };
}

/** Writes what a page shows as a film for Chromium's pretended camera (YUV4MPEG2, grey). */
export async function filmOf(page: Page, size: { width: number; height: number }) {
  const { width, height, pixels } = await greyOf(page, size);
  const colours = Buffer.alloc((width * height) / 2, 128);
  const frame = Buffer.concat([Buffer.from('FRAME\n'), pixels, colours]);
  const head = Buffer.from(`YUV4MPEG2 W${width} H${height} F10:1 Ip A1:1 C420jpeg\n`);
  const folder = mkdtempSync(path.join(tmpdir(), 'crosshatch-film-'));
  const file = path.join(folder, 'label.y4m');
  writeFileSync(file, Buffer.concat([head, ...Array.from({ length: FRAMES }, () => frame)]));
  return { file, remove: () => rmSync(folder, { recursive: true }) };
}

/** Switches with which Chromium takes a film for its camera and asks nobody. */
export const cameraArgs = (file: string): string[] => [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-dev-shm-usage',
  '--use-fake-ui-for-media-stream',
  '--use-fake-device-for-media-stream',
  `--use-file-for-fake-video-capture=${file}`,
];
