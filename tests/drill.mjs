// `npm run drill -- custody [--steps N] [--seed S]`: drives random histories against a real database, longer than `npm test` does.
import path from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { ensureDatabaseClient } from '../scripts/build.mjs';
import { runVisibly } from '../scripts/command.mjs';
import { checkNode, ensureDependencies } from '../scripts/dependencies.mjs';
import { Failure, orExplain } from '../scripts/failure.mjs';

const project = fileURLToPath(new URL('..', import.meta.url));
const drills = ['custody'];

/** The number said for an option, or the one it has by itself. */
function wholeNumber(said, name, otherwise) {
  if (said === undefined) return String(otherwise);
  if (/^[1-9]\d{0,8}$/.test(said)) return said;
  throw new Failure(`--${name} is a whole number from 1 to 999999999, not "${said}".`);
}

await orExplain(async () => {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { steps: { type: 'string' }, seed: { type: 'string' } },
  });
  const [name] = positionals;
  if (positionals.length !== 1 || !drills.includes(name)) {
    throw new Failure(`Say which drill: npm run drill -- ${drills.join('|')} [--steps N] [--seed S].`);
  }
  process.env.CROSSHATCH_DRILL_STEPS = wholeNumber(values.steps, 'steps', 200_000);
  process.env.CROSSHATCH_DRILL_SEED = wholeNumber(values.seed, 'seed', 1 + Math.floor(Math.random() * 900_000_000));
  checkNode();
  await ensureDependencies(project, { development: true });
  await ensureDatabaseClient(project);
  const vitest = path.join(project, 'node_modules/vitest/vitest.mjs');
  process.exitCode = await runVisibly(
    process.execPath,
    [vitest, 'run', `tests/drills/${name}`, '--disable-console-intercept'],
    {
      cwd: project,
    },
  );
});
