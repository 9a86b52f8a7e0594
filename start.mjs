// `npm start`: brings a bare clone to a running service. Needs nothing but Node; `--build` stops before the service.
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { ensureDatabaseClient, ensureServer, ensureWebApp } from './scripts/build.mjs';
import { checkNode, ensureDependencies } from './scripts/dependencies.mjs';
import { Failure, orExplain } from './scripts/failure.mjs';

const project = fileURLToPath(new URL('.', import.meta.url));

await orExplain(async () => {
  const unknown = process.argv.slice(2).filter((argument) => argument !== '--build');
  if (unknown.length > 0) {
    throw new Failure(
      `There is no option ${unknown.join(' ')}: settings are given as PORT, HOST, DATABASE_URL, CROSSHATCH_DATA.`,
    );
  }
  checkNode();
  await ensureDependencies(project, { development: false });
  await ensureDatabaseClient(project);
  await ensureServer(project);
  await ensureWebApp(project);
});
if (!process.argv.includes('--build')) {
  process.setSourceMapsEnabled(true);
  await import(new URL('./dist/server/main.js', import.meta.url).href);
}
