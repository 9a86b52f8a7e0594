// `npm run drill -- custody|stores [--steps N] [--seed S]`: drives random histories against a real database, longer than
// `npm test` does.
import { spawn } from 'node:child_process';
import path from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { ensureDatabaseClient } from '../scripts/build.mjs';
import { checkNode, ensureDependencies } from '../scripts/dependencies.mjs';
import { Failure, orExplain } from '../scripts/failure.mjs';

const project = fileURLToPath(new URL('..', import.meta.url));
/** Each drill, and how many steps it does where nobody says otherwise. */
const drills = { custody: 200_000, stores: 20_000 };

/** The number said for an option, or the one it has by itself. */
function wholeNumber(said, name, otherwise) {
  if (said === undefined) return String(otherwise);
  if (/^[1-9]\d{0,8}$/.test(said)) return said;
  throw new Failure(`--${name} is a whole number from 1 to 999999999, not "${said}".`);
}

/** Runs vitest in the open; what ends this process ends it first. Answers its exit code and its process id. */
function runDrill(name) {
  const vitest = path.join(project, 'node_modules/vitest/vitest.mjs');
  const parameters = [vitest, 'run', `tests/drills/${name}`, '--disable-console-intercept'];
  const child = spawn(process.execPath, parameters, { cwd: project, stdio: ['ignore', 'inherit', 'inherit'] });
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => child.kill('SIGTERM'));
  return new Promise((resolve, reject) => {
    child.once('error', reject);
    child.once('close', (code) => resolve({ code: code ?? 1, pid: child.pid }));
  });
}

/** A drill that was broken off leaves its databases on a server that was named to it: nobody else would drop them. */
async function dropDatabasesOf(pid) {
  const server = process.env.CROSSHATCH_TEST_SERVER;
  if (!server) return;
  const { default: postgres } = await import('postgres');
  const sql = postgres(server, { max: 1, onnotice: () => undefined });
  const left = await sql`
    select datname as name from pg_database where starts_with(datname, ${`crosshatch_test_${pid}_`})`;
  for (const { name } of left) await sql`drop database if exists ${sql(name)} with (force)`;
  await sql.end();
}

await orExplain(async () => {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { steps: { type: 'string' }, seed: { type: 'string' } },
  });
  const [name] = positionals;
  if (positionals.length !== 1 || !Object.hasOwn(drills, name)) {
    throw new Failure(`Say which drill: npm run drill -- ${Object.keys(drills).join('|')} [--steps N] [--seed S].`);
  }
  process.env.CROSSHATCH_DRILL_STEPS = wholeNumber(values.steps, 'steps', drills[name]);
  process.env.CROSSHATCH_DRILL_SEED = wholeNumber(values.seed, 'seed', 1 + Math.floor(Math.random() * 900_000_000));
  checkNode();
  await ensureDependencies(project, { development: true });
  await ensureDatabaseClient(project);
  const { code, pid } = await runDrill(name);
  await dropDatabasesOf(pid);
  process.exitCode = code;
});
