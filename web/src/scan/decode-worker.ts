import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import wasm from 'zxing-wasm/reader/zxing_reader.wasm?url';
import { decoding } from './decoding.ts';

// From our own server, like everything else: nothing is fetched from elsewhere.
prepareZXingModule({ overrides: { locateFile: () => wasm } });

addEventListener('message', async ({ data }: MessageEvent<ImageData>) => {
  const [found] = await readBarcodes(data, decoding).catch(() => []);
  postMessage(found?.isValid === true ? found.text : null);
});
