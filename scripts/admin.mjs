// `npm run admin -- COMMAND`: builds the server when its sources have changed, then runs the operator's program.
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { ensureDatabaseClient, ensureServer } from './build.mjs';
import { checkNode, ensureDependencies } from './dependencies.mjs';
import { orExplain } from './failure.mjs';

const project = fileURLToPath(new URL('..', import.meta.url));

await orExplain(async () => {
  checkNode();
  await ensureDependencies(project, { development: false });
  await ensureDatabaseClient(project);
  await ensureServer(project);
});
process.setSourceMapsEnabled(true);
await import(new URL('../dist/server/admin.js', import.meta.url).href);
