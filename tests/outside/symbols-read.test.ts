// Source: pictures of Data Matrix (ISO/IEC 16022) and QR (ISO/IEC 18004) symbols that the camera's decoder is tried on:
// zxing-cpp's own test samples (Apache-2.0), see data/symbols/SOURCES.md. The decoder is the same library, so this holds
// that it is set up and fed right, not that the library is; what is not one of our codes' forms is left out by name.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { decoding } from '../../web/src/scan/decoding.ts';
import { decoded } from '../support/symbols.ts';

const folder = path.join(import.meta.dirname, 'data/symbols');
const pictures = ['datamatrix-1', 'qrcode-2'].flatMap((kind) =>
  readdirSync(path.join(folder, kind))
    .filter((name) => name.endsWith('.png'))
    .map((name) => `${kind}/${name}`),
);

test('the pictures are there', () => expect(pictures.length).toBeGreaterThan(40));

test.each(pictures)('the camera’s decoder reads %s', async (name) => {
  const file = path.join(folder, name);
  const expected = readFileSync(file.replace(/\.png$/, '.txt'), 'utf8');
  expect(await decoded(readFileSync(file), decoding)).toEqual([expected]);
});
