import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const stampName = '.made-from';

/**
 * Makes a folder again when what it is made from has changed. Contents count, not times: a checkout or a copy changes
 * every time and no content.
 * @param {{ project: string, folder: string, sources: readonly string[], extra?: string }} product
 * @param {() => Promise<void>} make
 */
export async function ensureFresh({ project, folder, sources, extra = '' }, make) {
  const stamp = path.join(project, folder, stampName);
  const wanted = fingerprint(project, sources, extra);
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  rmSync(stamp, { force: true });
  await make();
  mkdirSync(path.dirname(stamp), { recursive: true });
  writeFileSync(stamp, wanted);
}

function fingerprint(project, sources, extra) {
  const hash = createHash('sha256').update(`${process.platform} ${extra}`);
  for (const file of sources.flatMap((source) => filesOf(project, source)).sort()) {
    hash.update(`\0${file}\0`).update(readFileSync(path.join(project, file)));
  }
  return hash.digest('hex');
}

/** Every file of a source, by its path in the project; generated code is a product, not a source. */
function filesOf(project, source) {
  const whole = path.join(project, source);
  if (!existsSync(whole)) return [];
  const entries = readdirSync(path.dirname(whole), { withFileTypes: true });
  const self = entries.find((entry) => entry.name === path.basename(whole));
  if (self?.isFile()) return [source];
  return readdirSync(whole, { withFileTypes: true })
    .filter((entry) => entry.name !== 'generated' && entry.name !== 'node_modules')
    .flatMap((entry) => filesOf(project, `${source}/${entry.name}`));
}
