import { type ChildProcess, spawn } from 'node:child_process';

export interface ServiceOptions {
  readonly folder: string;
  readonly settings: Readonly<Record<string, string>>;
  readonly user?: { readonly uid: number; readonly gid: number };
  /** What is typed; `node start.mjs` unless told otherwise. */
  readonly command?: readonly [string, ...string[]];
}

export interface StartedService {
  readonly pid: number;
  /** All that it has printed so far, both streams. */
  readonly output: () => string;
  /** Resolves with the address once it is printed; fails if the service ends before. */
  readonly address: Promise<string>;
  /** Resolves with the exit code. */
  readonly exit: Promise<number | null>;
  readonly seconds: () => number;
}

/** Runs `node start.mjs` as an operator would, in a process group of its own. */
export function startService({ folder, settings, user, command }: ServiceOptions): StartedService {
  const [program, ...parameters] = command ?? [process.execPath, 'start.mjs'];
  const started = performance.now();
  const { DATABASE_URL: _url, NODE_ENV: _mode, ...inherited } = process.env;
  const child = spawn(program, parameters, {
    ...user,
    cwd: folder,
    detached: true,
    env: { ...inherited, PORT: '0', CROSSHATCH_ANCHOR: '2026-11-25', ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let text = '';
  let seconds = Number.NaN;
  const exit = new Promise<number | null>((resolve) => child.once('close', (code) => resolve(code)));
  const address = new Promise<string>((resolve, reject) => {
    const hear = (chunk: Buffer): void => {
      text += chunk.toString();
      const found = /Crosshatch is at (http:\S+)/.exec(text)?.[1];
      if (found === undefined) return;
      if (Number.isNaN(seconds)) seconds = (performance.now() - started) / 1000;
      resolve(found);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    exit.then((code) => reject(new Error(`ended with ${code} before it served:\n${text}`)));
  });
  // Whoever only waits for the exit must not be disturbed by an address that never came.
  address.catch(() => undefined);
  return { pid: pidOf(child), output: () => text, address, exit, seconds: () => seconds };
}

function pidOf(child: ChildProcess): number {
  if (child.pid === undefined) throw new Error('the service could not be started at all');
  return child.pid;
}
