import { existsSync, rmSync } from 'node:fs';
import path from 'node:path';
import { run, tail } from './command.mjs';
import { Failure } from './failure.mjs';
import { ensureFresh } from './freshness.mjs';
import { step } from './progress.mjs';

const generatedClient = 'server/platform/database/generated';

/**
 * Generates the database client when the schema has changed.
 * @param {string} project the folder of package.json
 */
export async function ensureDatabaseClient(project) {
  const sources = ['prisma/schema.prisma', 'prisma.config.ts', 'node_modules/prisma/package.json'];
  await ensureFresh({ project, folder: generatedClient, sources }, () =>
    step('Generating the database client', async () => {
      rmSync(path.join(project, generatedClient), { recursive: true, force: true });
      await tool(project, 'node_modules/prisma/build/index.js', ['generate']);
    }),
  );
}

/**
 * Bundles the server when its sources have changed.
 * @param {string} project the folder of package.json
 */
export async function ensureServer(project) {
  const sources = ['server', 'prisma', 'package.json', 'package-lock.json', 'scripts/build.mjs'];
  await ensureFresh({ project, folder: 'dist/server', sources }, () =>
    step('Building the server', async () => {
      const { build, stop } = await import('esbuild');
      rmSync(path.join(project, 'dist/server'), { recursive: true, force: true });
      try {
        await build({
          absWorkingDir: project,
          entryPoints: entryPoints(project),
          outdir: 'dist/server',
          bundle: true,
          packages: 'external',
          platform: 'node',
          format: 'esm',
          target: 'node20',
          sourcemap: true,
          splitting: true,
          logLevel: 'silent',
        });
      } catch (error) {
        throw new Failure(`The server could not be built:\n${error.message}`);
      } finally {
        await stop();
      }
    }),
  );
}

/** The service itself, the programs for operators beside it, and what the service runs in a thread of its own. */
function entryPoints(project) {
  const candidates = {
    main: 'server/main.ts',
    admin: 'server/admin/main.ts',
    'pdf-worker': 'server/platform/files/pdf-worker.ts',
  };
  return Object.fromEntries(Object.entries(candidates).filter(([, file]) => existsSync(path.join(project, file))));
}

/**
 * Builds the web app when its sources have changed.
 * @param {string} project the folder of package.json
 */
export async function ensureWebApp(project) {
  const sources = [
    'web',
    'server/contracts',
    'server/domain',
    'package.json',
    'package-lock.json',
    'scripts/build.mjs',
  ];
  await ensureFresh({ project, folder: 'dist/web', sources }, () =>
    step('Building the web app', () =>
      tool(project, 'node_modules/vite/bin/vite.js', ['build', 'web', '--outDir', '../dist/web', '--emptyOutDir']),
    ),
  );
}

async function tool(project, script, parameters) {
  const env = { ...process.env, NO_COLOR: '1' };
  const { code, output } = await run(process.execPath, [script, ...parameters], { cwd: project, env });
  if (code !== 0) throw new Failure(`${script.split('/')[1]} ${parameters[0]} ended with ${code}:\n${tail(output)}`);
}
