import { execFileSync } from 'node:child_process';
import { readFileSync, readlinkSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import path from 'node:path';
import { clusterFolder } from './embedded-cluster.ts';
import type { EmbeddedPlace } from './embedded-place.ts';

/** What postmaster.pid says about a server on a cluster. */
export interface Postmaster {
  readonly pid: number;
  readonly port: number;
}

/**
 * The server that is alive on this cluster, also one left behind when the service was killed. A file that names a
 * process which is gone is left to PostgreSQL; one whose number now belongs to another program is removed, since
 * PostgreSQL would take that program for itself and refuse to start.
 */
export function livePostmaster(place: EmbeddedPlace): Postmaster | undefined {
  const file = path.join(clusterFolder(place), 'postmaster.pid');
  const lines = readLines(file);
  const pid = Number(lines[0]);
  if (!Number.isInteger(pid) || pid <= 1 || !isAlive(pid)) return undefined;
  if (!isServerOf(place, pid)) {
    rmSync(file, { force: true });
    return undefined;
  }
  return { pid, port: Number(lines[3]) };
}

function readLines(file: string): readonly string[] {
  try {
    return readFileSync(file, 'utf8').split('\n');
  } catch {
    return [];
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

function isServerOf(place: EmbeddedPlace, pid: number): boolean {
  try {
    // PostgreSQL works in its data folder.
    if (process.platform === 'linux') return readlinkSync(`/proc/${pid}/cwd`) === clusterFolder(place);
    if (process.platform === 'win32') return true;
    return execFileSync('ps', ['-p', String(pid), '-o', 'command='], { encoding: 'utf8' }).includes('postgres');
  } catch {
    return false;
  }
}

/** The port remembered for this cluster if it is still free, else another free one. */
export async function freePort(remembered: number | undefined): Promise<number> {
  if (remembered !== undefined && (await isFree(remembered))) return remembered;
  return listenBriefly(0);
}

async function isFree(port: number): Promise<boolean> {
  try {
    await listenBriefly(port);
    return true;
  } catch {
    return false;
  }
}

function listenBriefly(port: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(port, '127.0.0.1', () => {
      const address = probe.address();
      const taken = address !== null && typeof address === 'object' ? address.port : port;
      probe.close(() => resolve(taken));
    });
  });
}
