// `npm test`: sets itself up, runs the checks and every suite, and ends with the line `N passed, N failed`.
// With arguments only the named suites run: `npm test -- domain`, `npm test -- --project api`.
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { ensureDatabaseClient, ensureServer, ensureWebApp } from '../scripts/build.mjs';
import { runVisibly } from '../scripts/command.mjs';
import { checkNode, ensureDependencies } from '../scripts/dependencies.mjs';
import { orExplain } from '../scripts/failure.mjs';
import { runChecks } from './checks.mjs';

const project = fileURLToPath(new URL('..', import.meta.url));
const parameters = process.argv.slice(2);

await orExplain(async () => {
  checkNode();
  await ensureDependencies(project, { development: true });
  await ensureDatabaseClient(project);
  await ensureServer(project);
  await ensureWebApp(project);
  const checks = parameters.length === 0 ? await runChecks(project) : { passed: 0, failed: 0, skipped: 0 };
  const suites = await runSuites();
  const passed = checks.passed + suites.passed;
  const failed = checks.failed + suites.failed;
  const skipped = suites.skipped > 0 ? `, ${suites.skipped} skipped` : '';
  process.stdout.write(`${passed} passed, ${failed} failed${skipped}\n`);
  process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
});

async function runSuites() {
  const folder = mkdtempSync(path.join(tmpdir(), 'crosshatch-results-'));
  const results = path.join(folder, 'results.json');
  const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${results}`];
  const vitest = path.join(project, 'node_modules/vitest/vitest.mjs');
  try {
    const code = await runVisibly(process.execPath, [vitest, 'run', ...reporters, ...parameters], { cwd: project });
    return counted(readResults(results), code);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function readResults(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return undefined;
  }
}

/** A file that can't even be loaded, and an error outside any test, count as a failure each. */
function counted(results, code) {
  if (results === undefined) return { passed: 0, failed: 1, skipped: 0 };
  const broken = results.testResults.filter(
    ({ status, assertionResults }) => status === 'failed' && !assertionResults.some((test) => test.status === 'failed'),
  );
  for (const { name, message } of broken) tellFailure(name, '(the file itself)', message);
  for (const { name, assertionResults } of results.testResults) {
    for (const test of assertionResults.filter(({ status }) => status === 'failed')) {
      tellFailure(name, test.fullName, test.failureMessages.join('\n'));
    }
  }
  const failed = results.numFailedTests + broken.length;
  return {
    passed: results.numPassedTests,
    failed: code !== 0 && failed === 0 ? 1 : failed,
    skipped: results.numPendingTests + results.numTodoTests,
  };
}

/** Once more at the end, in few lines: whoever keeps only the tail of a long log still learns what failed. */
function tellFailure(file, test, message) {
  const words = message.trim().split('\n').slice(0, 6).join('\n    ');
  process.stdout.write(`FAILED ${path.relative(project, file)} > ${test}\n    ${words}\n`);
}
