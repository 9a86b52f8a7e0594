import { spawnSync } from 'node:child_process';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { type StartedService, startService } from '../support/started-service.ts';
import { copyTree, postmasterOf, type TreeCopy } from '../support/tree-copy.ts';

let tree: TreeCopy;
const running = new Set<StartedService>();

beforeAll(() => {
  tree = copyTree();
});
afterEach(async () => {
  for (const service of running) await end(service, 'SIGTERM');
  running.clear();
});
afterAll(() => tree.remove());

function start(data: string, settings: Readonly<Record<string, string>> = {}): StartedService {
  const service = startService({
    folder: tree.folder,
    settings: { CROSSHATCH_DATA: tree.dataFolder(data), ...settings },
  });
  running.add(service);
  return service;
}

async function end(service: StartedService, signal: NodeJS.Signals): Promise<number | null> {
  try {
    process.kill(service.pid, signal);
  } catch {
    // It has ended already.
  }
  running.delete(service);
  return service.exit;
}

/** A process that has ended but whose parent has not asked yet is not alive. */
function isAlive(pid: number | undefined): boolean {
  if (pid === undefined) return false;
  const { stdout } = spawnSync('ps', ['-o', 'stat=', '-p', String(pid)], { encoding: 'utf8' });
  return stdout.trim() !== '' && !stdout.startsWith('Z');
}

async function answers(address: string): Promise<boolean> {
  const reply = await fetch(`${address}/readyz`);
  return reply.ok;
}

test('the first start builds what is missing and serves; the second has nothing to do', async () => {
  const first = start('data');
  expect(await answers(await first.address)).toBe(true);
  for (const step of ['Generating the database client', 'Building the server', 'Building the web app']) {
    expect(first.output()).toMatch(new RegExp(`${step} … \\d+\\.\\d s\n`));
  }
  const page = await fetch(await first.address);
  expect(page.status).toBe(200);
  expect(await page.text()).toContain('<title>');
  expect(await end(first, 'SIGTERM')).toBe(0);

  const second = start('data');
  expect(await answers(await second.address)).toBe(true);
  expect(second.output()).not.toMatch(/Installing|Generating|Building|Migrations/);
  console.log(`first start ${first.seconds().toFixed(1)} s, second start ${second.seconds().toFixed(1)} s`);
});

test('Ctrl-C in a terminal, which reaches npm, the service and all their children, stops the database cleanly', async () => {
  const service = startService({
    folder: tree.folder,
    settings: { CROSSHATCH_DATA: tree.dataFolder('data') },
    command: ['npm', 'start'],
  });
  running.add(service);
  await service.address;
  const postgres = postmasterOf(tree.dataFolder('data'));
  expect(isAlive(postgres)).toBe(true);
  process.kill(-service.pid, 'SIGINT');
  // What npm itself ends with is npm's affair; the service has ended once nobody holds its output any more.
  await service.exit;
  expect(service.output()).toMatch(/Stopping …\n$/);
  expect(isAlive(postgres)).toBe(false);
  expect(postmasterOf(tree.dataFolder('data'))).toBeUndefined();
});

test('after a SIGKILL the next start takes over the database that was left running', async () => {
  const killed = start('data');
  await killed.address;
  const postgres = postmasterOf(tree.dataFolder('data'));
  await end(killed, 'SIGKILL');
  expect(isAlive(postgres)).toBe(true);
  const next = start('data');
  expect(await answers(await next.address)).toBe(true);
  expect(postmasterOf(tree.dataFolder('data'))).toBe(postgres);
  expect(await end(next, 'SIGINT')).toBe(0);
  expect(isAlive(postgres)).toBe(false);
});

test('after service and database were both killed the next start recovers', async () => {
  const killed = start('data');
  await killed.address;
  const postgres = postmasterOf(tree.dataFolder('data'));
  await end(killed, 'SIGKILL');
  process.kill(postgres ?? 0, 'SIGKILL');
  const next = start('data');
  expect(await answers(await next.address)).toBe(true);
});

test('Ctrl-C while it is still starting ends it, and the database with it', async () => {
  const service = start('data');
  const over = service.exit.then(() => true);
  const waiting = async (): Promise<boolean> => Promise.race([over, pause(10, false)]);
  while (postmasterOf(tree.dataFolder('data')) === undefined) expect(await waiting(), service.output()).toBe(false);
  const postgres = postmasterOf(tree.dataFolder('data'));
  expect(await end(service, 'SIGINT')).toBe(0);
  expect(isAlive(postgres)).toBe(false);
});

test('when PostgreSQL ends underneath, the service says so and ends with an error', async () => {
  const service = start('data');
  await service.address;
  process.kill(postmasterOf(tree.dataFolder('data')) ?? 0, 'SIGINT');
  expect(await service.exit).toBe(1);
  expect(service.output()).toContain('The embedded PostgreSQL has stopped while it was needed');
});

test.skipIf(process.getuid?.() !== 0)('an ordinary user starts it in a folder that nobody else can enter', async () => {
  // initdb wants a user that the system knows.
  const user = { uid: 65_534, gid: 65_534 };
  const own = copyTree(user);
  const service = startService({ folder: own.folder, settings: { HOME: own.folder }, user });
  try {
    expect(await answers(await service.address)).toBe(true);
    expect(await end(service, 'SIGTERM')).toBe(0);
  } finally {
    await end(service, 'SIGKILL');
    own.remove();
  }
});
