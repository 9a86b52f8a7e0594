import { inject } from 'vitest';
import { type Database, openDatabase, openSql, type SqlPool } from '#platform/database/client.ts';
import { loadDemoIfEmpty } from '../../prisma/demo/load.ts';

export interface TestDatabase {
  readonly url: string;
  readonly db: Database;
  /** Closes the clients and removes the database; for afterAll or afterEach. */
  readonly drop: () => Promise<void>;
}

/** The day that is "today" in every test on the demo shop. */
export const demoAnchor = '2026-11-25';

/** Two processes that both need the demo's template wait for each other. */
const demoTemplateLock = 5_200_389;

/** A database of one's own with the whole schema and no rows beyond it. */
export async function cloneDatabase(): Promise<TestDatabase> {
  return cloneOf(`${inject('databasePrefix')}_template`);
}

/** A database of one's own with the demo shop as of demoAnchor, loaded once a run and cloned after that. */
export async function cloneDemoDatabase(): Promise<TestDatabase> {
  const name = `${inject('databasePrefix')}_demo`;
  await onServer(async (sql) => {
    await sql`select pg_advisory_lock(${demoTemplateLock})`;
    const found = await sql`select from pg_database where datname = ${name}`;
    if (found.length > 0) return;
    const unfinished = `${name}_unfinished`;
    await sql`drop database if exists ${sql(unfinished)}`;
    await sql`create database ${sql(unfinished)} template ${sql(`${inject('databasePrefix')}_template`)}`;
    const db = openDatabase(urlOf(unfinished), { max: 4 });
    await loadDemoIfEmpty(db, { anchor: demoAnchor, loopback: true });
    await db.close();
    await sql`alter database ${sql(unfinished)} rename to ${sql(name)}`;
  });
  return cloneOf(name);
}

/** An empty database without even the schema. */
export async function createEmptyDatabase(): Promise<TestDatabase> {
  return cloneOf('template1');
}

async function cloneOf(template: string): Promise<TestDatabase> {
  const name = `${inject('databasePrefix')}_${crypto.randomUUID().slice(0, 8)}`;
  await onServer((sql) => sql`create database ${sql(name)} template ${sql(template)}`);
  const url = urlOf(name);
  const db = openDatabase(url);
  return {
    url,
    db,
    drop: async () => {
      await db.close();
      await onServer((sql) => sql`drop database if exists ${sql(name)} with (force)`);
    },
  };
}

async function onServer(work: (sql: SqlPool) => Promise<unknown>): Promise<void> {
  const sql = openSql(inject('serverUrl'), { max: 1 });
  try {
    await work(sql);
  } finally {
    await sql.end();
  }
}

function urlOf(database: string): string {
  const url = new URL(inject('serverUrl'));
  url.pathname = `/${database}`;
  return url.href;
}
