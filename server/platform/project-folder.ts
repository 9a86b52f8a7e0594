import { existsSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of package.json above this module, whether it runs from server/ or bundled from dist/server/. */
export const projectFolder = folderOfPackage(path.dirname(fileURLToPath(import.meta.url)));

function folderOfPackage(start: string): string {
  for (let folder = start; ; folder = path.dirname(folder)) {
    if (existsSync(path.join(folder, 'package.json'))) return folder;
    if (folder === path.dirname(folder)) throw new Error(`no package.json above ${start}`);
  }
}
