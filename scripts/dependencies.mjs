import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { run, tail } from './command.mjs';
import { Failure } from './failure.mjs';
import { step } from './progress.mjs';

const oldestNode = [20, 19];

/** Refuses a Node that is too old, before anything of the project is loaded. */
export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major > oldestNode[0] || (major === oldestNode[0] && minor >= oldestNode[1])) return;
  throw new Failure(`Crosshatch needs Node.js ${oldestNode.join('.')} or later; this is ${process.versions.node}.`);
}

/**
 * Installs the locked dependencies when they are missing or are not what package-lock.json says.
 * @param {string} project the folder of package.json
 * @param {{ development: boolean }} options whether the tools for tests and checks are needed too
 */
export async function ensureDependencies(project, { development }) {
  const missing = missingPackages(project, development);
  if (missing === 0) return;
  const parameters = ['ci', '--no-audit', '--no-fund', development ? '--include=dev' : '--omit=dev'];
  await step(`Installing dependencies (${missing} packages)`, async () => {
    const { code, output } = await npm(parameters, project);
    if (code === 0) return;
    throw new Failure(
      `The dependencies could not be installed (npm ci ended with ${code}). Check the network and npm's registry setting, then try again. npm said:\n${tail(output)}`,
    );
  });
}

/** npm tells its scripts where it lies; a bare `node start.mjs` looks for it on the path. */
function npm(parameters, project) {
  const script = process.env.npm_execpath;
  if (script && /npm-cli\.c?js$/.test(script)) return run(process.execPath, [script, ...parameters], { cwd: project });
  return run('npm', parameters, { cwd: project, shell: process.platform === 'win32' });
}

/** npm keeps what it installed in node_modules/.package-lock.json, written last of all. */
function missingPackages(project, development) {
  const wanted = packagesOf(path.join(project, 'package-lock.json'));
  const present = packagesOf(path.join(project, 'node_modules', '.package-lock.json'));
  const isMissing = ([place, entry]) =>
    place !== '' && isForHere(entry, development) && present[place]?.version !== entry.version;
  return Object.entries(wanted).filter(isMissing).length;
}

function packagesOf(file) {
  if (!existsSync(file)) return {};
  try {
    return JSON.parse(readFileSync(file, 'utf8')).packages ?? {};
  } catch (error) {
    throw new Failure(`${file} is not readable (${error.message}): restore it from the repository.`);
  }
}

/** Packages for other platforms are left out, and so are the optional ones without a platform, which npm may skip. */
function isForHere(entry, development) {
  if (entry.devOptional || (entry.dev && !development)) return false;
  if (entry.os && !allows(entry.os, process.platform)) return false;
  if (entry.cpu && !allows(entry.cpu, process.arch)) return false;
  if (entry.libc && !allows(entry.libc, libc())) return false;
  return !entry.optional || Boolean(entry.os);
}

function allows(list, value) {
  const named = list.filter((item) => !item.startsWith('!'));
  return !list.includes(`!${value}`) && (named.length === 0 || named.includes(value));
}

function libc() {
  return process.report.getReport().header.glibcVersionRuntime ? 'glibc' : 'musl';
}
