import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { prepareZXingModule, type ReaderOptions, readBarcodes } from 'zxing-wasm/reader';

const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
prepareZXingModule({ overrides: { wasmBinary: readFileSync(wasm).buffer as ArrayBuffer } });

/** What an independent decoder (zxing-cpp) reads in a picture. */
export async function decoded(picture: Uint8Array, options: ReaderOptions = {}): Promise<readonly string[]> {
  const found = await readBarcodes(picture, { formats: ['DataMatrix', 'QRCode'], tryHarder: true, ...options });
  return found.filter(({ isValid }) => isValid).map(({ text }) => text);
}

/** Every Data Matrix symbol of a picture, and where its top left corner is in it. */
export async function symbolsIn(picture: Uint8Array) {
  const found = await readBarcodes(picture, { formats: ['DataMatrix'], tryHarder: true, maxNumberOfSymbols: 255 });
  return found
    .filter(({ isValid }) => isValid)
    .map(({ text, position: { topLeft } }) => ({ text, x: topLeft.x, y: topLeft.y }));
}
