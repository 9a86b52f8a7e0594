import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** Where a content lies in the folder of files. */
export const contentFile = (folder: string, hash: string): string =>
  path.join(folder, hash.slice(0, 2), hash.slice(2, 4), hash);

/** As a failing disk does it: one bit in the middle, and nothing else, is another. */
export function flipByte(file: string): void {
  const bytes = readFileSync(file);
  const at = Math.floor(bytes.length / 2);
  bytes.writeUInt8(bytes.readUInt8(at) ^ 1, at);
  writeFileSync(file, bytes);
}
