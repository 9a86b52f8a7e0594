import { chmodSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { TestProject } from 'vitest/node';
import { openSql } from '#platform/database/client.ts';
import { startEmbedded } from '#platform/database/embedded.ts';
import { migrate } from '#platform/database/migrate.ts';
import { projectFolder } from '#platform/project-folder.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** A database of the test server that stays empty: from it others are made. */
    readonly serverUrl: string;
    /** What the names of this run's databases begin with; `<prefix>_template` has been migrated. */
    readonly databasePrefix: string;
  }
}

/** Nothing here has to outlive a power cut. */
const fast = ['fsync=off', 'synchronous_commit=off', 'full_page_writes=off', 'autovacuum=off', 'max_connections=300'];

/**
 * A real PostgreSQL for the suite, with a migrated database to clone: CROSSHATCH_TEST_SERVER names one (its role must be
 * allowed to make databases), otherwise an embedded one lives as long as the run.
 */
export default async function setUp(project: TestProject): Promise<() => Promise<void>> {
  const server = await testServer(process.env.CROSSHATCH_TEST_SERVER);
  const prefix = `crosshatch_test_${process.pid}_${project.name}`;
  const template = `${prefix}_template`;
  const sql = openSql(server.url, { max: 1 });
  const tearDown = async (): Promise<void> => {
    const left = await sql<{ name: string }[]>`
      select datname as name from pg_database where starts_with(datname, ${`${prefix}_`})`;
    for (const { name } of left) await sql`drop database ${sql(name)} with (force)`;
    await sql.end();
    await server.stop();
  };
  project.provide('serverUrl', server.url);
  project.provide('databasePrefix', prefix);
  try {
    await sql`create database ${sql(template)}`;
    const url = new URL(server.url);
    url.pathname = `/${template}`;
    await migrate(url.href, path.join(projectFolder, 'prisma/migrations'));
  } catch (error) {
    await tearDown();
    throw error;
  }
  return tearDown;
}

interface TestServer {
  readonly url: string;
  readonly stop: () => Promise<void>;
}

async function testServer(given: string | undefined): Promise<TestServer> {
  if (given) return { url: given, stop: async () => undefined };
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'crosshatch-test-'));
  // As root the server runs as another user, who has to reach the folder.
  chmodSync(dataFolder, 0o755);
  const onLost = (failure: Error): never => {
    throw failure;
  };
  const { url, folder, stop } = await startEmbedded({ dataFolder, settings: fast, onLost });
  process.once('exit', () => endLeftover(folder));
  return {
    url,
    stop: async () => {
      await stop();
      rmSync(dataFolder, { recursive: true, force: true });
    },
  };
}

/** A run that is broken off must leave no server behind; after a regular one there is none any more. */
function endLeftover(folder: string): void {
  try {
    process.kill(Number(readFileSync(path.join(folder, 'cluster/postmaster.pid'), 'utf8').split('\n')[0]), 'SIGINT');
  } catch {
    // It has ended already.
  }
}
