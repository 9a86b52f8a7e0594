import { type ChildProcess, spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import {
  chownSync,
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { StartupFailure } from '../startup-failure.ts';
import type { EmbeddedPlace } from './embedded-place.ts';

/** Passwords of the superuser and of the service's own role, which owns the database and nothing more. */
export interface Credentials {
  readonly postgres: string;
  readonly crosshatch: string;
}

export const clusterFolder = (place: EmbeddedPlace): string => path.join(place.folder, 'cluster');
export const logFile = (place: EmbeddedPlace): string => path.join(place.folder, 'server.log');
const credentialsFile = (folder: string): string => path.join(folder, 'credentials.json');

/**
 * Makes the cluster with random passwords if there is none yet. It appears under its name only when complete, so a start
 * that is killed in between leaves nothing that the next one would trip over.
 * @returns true if it was made now
 */
export async function createCluster(place: EmbeddedPlace): Promise<boolean> {
  if (existsSync(clusterFolder(place))) return false;
  const unfinished = `${place.folder}.${process.pid}`;
  rmSync(unfinished, { recursive: true, force: true });
  mkdirSync(unfinished, { recursive: true, mode: 0o700 });
  const credentials: Credentials = { postgres: password(), crosshatch: password() };
  writeFileSync(credentialsFile(unfinished), `${JSON.stringify(credentials)}\n`, { mode: 0o600 });
  const passwordFile = path.join(unfinished, 'initdb-password');
  writeFileSync(passwordFile, credentials.postgres, { mode: 0o600 });
  if (place.user) for (const file of [unfinished, passwordFile]) chownSync(file, place.user.uid, place.user.gid);
  await initialise(place, unfinished, passwordFile);
  rmSync(passwordFile);
  try {
    renameSync(unfinished, place.folder);
    return true;
  } catch (error) {
    rmSync(unfinished, { recursive: true, force: true });
    // Another start at the same moment was first; its cluster is as good as ours.
    if (existsSync(clusterFolder(place))) return false;
    throw error;
  }
}

async function initialise(place: EmbeddedPlace, folder: string, passwordFile: string): Promise<void> {
  const options = ['--username=postgres', '--auth=scram-sha-256', `--pwfile=${passwordFile}`, '--encoding=UTF8'];
  const locale = ['--locale=C', '--locale-provider=builtin', '--builtin-locale=C.UTF-8'];
  const child = spawn(program(place, 'initdb'), ['-D', path.join(folder, 'cluster'), ...options, ...locale], {
    ...place.user,
    cwd: folder,
    stdio: ['ignore', 'pipe', 'pipe'],
    windowsHide: true,
  });
  const output: string[] = [];
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk) => output.push(String(chunk)));
  const { code, error } = await ended(child);
  if (code === 0) return;
  rmSync(folder, { recursive: true, force: true });
  throw new StartupFailure(
    `The embedded PostgreSQL could not make its cluster in ${folder}: ${error?.message ?? output.join('').trim()}`,
  );
}

/** Reads the cluster's passwords. */
export function readCredentials(place: EmbeddedPlace): Credentials {
  const file = credentialsFile(place.folder);
  try {
    return JSON.parse(readFileSync(file, 'utf8')) as Credentials;
  } catch (error) {
    throw new StartupFailure(
      `The passwords of the embedded PostgreSQL can't be read from ${file} (${(error as Error).message}): start as the user who made this data folder.`,
      { cause: error },
    );
  }
}

/**
 * Starts the server on the cluster, in a session of its own: Ctrl-C in a terminal reaches every process of the
 * foreground group, and the database has to outlive the service's last write.
 */
export function spawnServer(place: EmbeddedPlace, port: number, settings: readonly string[]): ChildProcess {
  shortenLog(logFile(place));
  const log = openSync(logFile(place), 'a', 0o600);
  const fixed = [
    'listen_addresses=127.0.0.1',
    'unix_socket_directories=',
    'timezone=UTC',
    'log_timezone=UTC',
    'jit=off',
  ];
  const flags = [...fixed, ...settings].flatMap((setting) => ['-c', setting]);
  try {
    const child = spawn(program(place, 'postgres'), ['-D', clusterFolder(place), '-p', String(port), ...flags], {
      ...place.user,
      cwd: place.folder,
      detached: true,
      stdio: ['ignore', log, log],
      windowsHide: true,
    });
    child.unref();
    return child;
  } finally {
    closeSync(log);
  }
}

/** Stops the server, ours or adopted, and waits until it has written everything. */
export async function stopServer(place: EmbeddedPlace): Promise<void> {
  const stopOnce = async (mode: string, seconds: number): Promise<boolean> => {
    const arguments_ = ['stop', '-D', clusterFolder(place), '-m', mode, '-w', '-t', String(seconds), '-s'];
    const child = spawn(program(place, 'pg_ctl'), arguments_, {
      ...place.user,
      cwd: place.folder,
      detached: true,
      stdio: 'ignore',
      windowsHide: true,
    });
    return (await ended(child)).code === 0;
  };
  if ((await stopOnce('fast', 20)) || !existsSync(path.join(clusterFolder(place), 'postmaster.pid'))) return;
  await stopOnce('immediate', 10);
}

/** Waits for a child's end, also when it could not even be started. */
export function ended(child: ChildProcess): Promise<{ code: number | null; error?: Error }> {
  return new Promise((resolve) => {
    child.once('error', (error) => resolve({ code: null, error }));
    child.once('exit', (code) => resolve({ code }));
  });
}

function program(place: EmbeddedPlace, name: string): string {
  return path.join(place.programs, 'bin', process.platform === 'win32' ? `${name}.exe` : name);
}

function password(): string {
  return randomBytes(24).toString('base64url');
}

function shortenLog(file: string): void {
  if (existsSync(file) && statSync(file).size > 10_000_000) renameSync(file, `${file}.1`);
}
