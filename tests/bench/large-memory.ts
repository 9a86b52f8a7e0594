import { fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { SESSION_COOKIE } from '#platform/identity/sessions.ts';
import type { BenchShop } from './bench-shop.ts';
import type { Figure } from './figures.ts';

const ROUNDS = 40;
/** How many ask at once: a shop's terminals, all of which read anew when something happened. */
const TERMINALS = 8;

/** What a process holds in memory, in MB (Linux tells it in kB). */
function residentMb(pid: number): number {
  const status = readFileSync(`/proc/${pid}/status`, 'utf8');
  return Number(/VmRSS:\s+(\d+) kB/.exec(status)?.[1]) / 1024;
}

/** What the service holds, as a process of its own: begun, and after every view was read over and over by several at once. */
export async function largeMemory({ url, token }: BenchShop, paths: readonly string[]): Promise<readonly Figure[]> {
  const service = fork(fileURLToPath(new URL('../support/serve-shop.ts', import.meta.url)), [url], {
    execArgv: ['--import', 'tsx'],
  });
  const left = new Promise<never>((_, reject) => {
    service.once('exit', (code) => reject(new Error(`the service left with exit code ${code}`)));
  });
  left.catch(() => undefined);
  try {
    const begun = new Promise<number>((resolve) => service.once('message', (port) => resolve(Number(port))));
    const port = await Promise.race([begun, left]);
    const read = async (path: string) => {
      const reply = await fetch(`http://127.0.0.1:${port}/api${path}`, {
        headers: { cookie: `${SESSION_COOKIE}=${token}` },
      });
      const text = await reply.text();
      if (!reply.ok) throw new Error(`${path} answered ${reply.status}: ${text}`);
    };
    await read('/floor');
    const pid = service.pid ?? 0;
    const first = residentMb(pid);
    let most = first;
    for (let round = 0; round < ROUNDS; round += 1) {
      for (const path of paths) await Promise.all(Array.from({ length: TERMINALS }, () => read(path)));
      most = Math.max(most, residentMb(pid));
    }
    return [
      { name: 'large-stores.memory.begun', value: first, unit: 'MB' },
      { name: 'large-stores.memory.most', value: most, unit: 'MB' },
      { name: 'large-stores.memory.growth', value: most - first, unit: 'MB' },
    ];
  } finally {
    service.removeAllListeners('exit');
    service.kill();
  }
}
