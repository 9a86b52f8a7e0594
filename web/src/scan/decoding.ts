import type { ReaderOptions } from 'zxing-wasm/reader';

/** What is looked for in a picture: the symbols we print, and those that parts come with. */
export const decoding: ReaderOptions = {
  formats: ['DataMatrix', 'QRCode', 'Code128', 'Code39', 'EAN13'],
  // As it is in the symbol, nothing put in for people.
  textMode: 'Plain',
  tryHarder: true,
  tryInvert: true,
  maxNumberOfSymbols: 1,
};
