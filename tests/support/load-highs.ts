import { createRequire } from 'node:module';

// The package describes the types of its CommonJS form only, so that is the one to load.
const packaged: typeof import('highs') = createRequire(import.meta.url)('highs');

export const loadHighs = packaged.default;
