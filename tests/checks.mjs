import path from 'node:path';
import process from 'node:process';
import { run } from '../scripts/command.mjs';

/** Fewer modules than this, and the import checker has not seen the project at all. */
const fewestModules = 300;

/** Format and lint, types, import rules, dead code: what `npm run check` runs, each counted as one test. */
const checks = [
  { name: 'format and lint', script: '@biomejs/biome/bin/biome', parameters: ['check', '--error-on-warnings'] },
  { name: 'types', script: 'typescript/bin/tsc', parameters: ['-p', '.'] },
  {
    name: 'import rules',
    script: 'dependency-cruiser/bin/dependency-cruise.mjs',
    parameters: ['server', 'web/src', 'prisma/demo', '--config', '.dependency-cruiser.cjs'],
    fault: (output) => {
      const modules = Number(/(\d+) modules/.exec(output)?.[1] ?? 0);
      return modules >= fewestModules
        ? undefined
        : `the checker saw ${modules} modules, at least ${fewestModules} exist`;
    },
  },
  { name: 'dead code', script: 'knip/bin/knip.js', parameters: ['--no-progress'] },
];

/**
 * Runs every check and prints what is wrong.
 * @param {string} project the folder of package.json
 */
export async function runChecks(project) {
  let failed = 0;
  for (const check of checks) {
    const fault = await faultOf(project, check);
    process.stdout.write(`${fault === undefined ? '✓' : '✗'} ${check.name}\n`);
    if (fault === undefined) continue;
    failed += 1;
    process.stdout.write(`${fault.trimEnd()}\n`);
  }
  return { passed: checks.length - failed, failed, skipped: 0 };
}

async function faultOf(project, { script, parameters, fault }) {
  const { code, output } = await run(process.execPath, [path.join(project, 'node_modules', script), ...parameters], {
    cwd: project,
    env: { ...process.env, NO_COLOR: '1' },
  });
  if (code !== 0) return output || `ended with ${code}`;
  return fault?.(output);
}

if (import.meta.filename === process.argv[1]) {
  const { failed } = await runChecks(path.dirname(import.meta.dirname));
  process.exitCode = failed > 0 ? 1 : 0;
}
