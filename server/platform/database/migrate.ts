import { createHash, randomUUID } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import type postgres from 'postgres';
import { StartupFailure } from '../startup-failure.ts';
import { openSql, type SqlPool } from './client.ts';

/** The lock that `prisma migrate deploy` takes, so that it and this service wait for each other. */
const migrateLock = 72_707_369;

export interface Migration {
  readonly name: string;
  readonly sql: string;
  readonly checksum: string;
}

/** Reads `<folder>/<time>_<name>/migration.sql`, in the order in which they apply. */
export async function readMigrations(folder: string): Promise<readonly Migration[]> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name);
  return Promise.all(
    names.sort().map(async (name) => {
      const sql = await readFile(path.join(folder, name, 'migration.sql'), 'utf8');
      return { name, sql, checksum: createHash('sha256').update(sql).digest('hex') };
    }),
  );
}

/**
 * Brings the database up to this version: each missing migration in a transaction of its own, recorded in the table that
 * Prisma's own command line reads and writes.
 * @returns the names of those applied now
 * @throws StartupFailure if the database is newer, an applied migration was edited, or one fails (it leaves nothing)
 */
export async function migrate(url: string, folder: string): Promise<readonly string[]> {
  const migrations = await readMigrations(folder);
  const sql = openSql(url, { max: 1 });
  try {
    await sql`select pg_advisory_lock(${migrateLock})`;
    const done = await appliedMigrations(sql);
    checkHistory(done, migrations);
    const missing = migrations.filter(({ name }) => !done.some((row) => row.name === name));
    for (const migration of missing) await apply(sql, migration);
    return missing.map(({ name }) => name);
  } finally {
    // The lock belongs to the session and goes with it.
    await sql.end();
  }
}

interface AppliedMigration {
  readonly name: string;
  readonly checksum: string;
  readonly finished: boolean;
}

async function appliedMigrations(sql: SqlPool): Promise<readonly AppliedMigration[]> {
  await sql`
    create table if not exists _prisma_migrations (
      id varchar(36) primary key not null, checksum varchar(64) not null, finished_at timestamptz,
      migration_name varchar(255) not null, logs text, rolled_back_at timestamptz,
      started_at timestamptz not null default now(), applied_steps_count integer not null default 0
    )`;
  return sql<AppliedMigration[]>`
    select migration_name as name, checksum, finished_at is not null as finished
    from _prisma_migrations where rolled_back_at is null`;
}

function checkHistory(done: readonly AppliedMigration[], migrations: readonly Migration[]): void {
  const known = new Map(migrations.map((migration) => [migration.name, migration.checksum]));
  const newer = done.filter(({ name }) => !known.has(name)).map(({ name }) => name);
  if (newer.length > 0) {
    throw new StartupFailure(
      `The database was made by a newer version of Crosshatch (it has ${newer.sort().join(', ')}, which this version does not know): start that version, or restore an older backup.`,
    );
  }
  for (const { name, checksum, finished } of done) {
    if (!finished) {
      throw new StartupFailure(
        `Migration ${name} was begun by another program and did not finish: repair the database and mark it in _prisma_migrations first.`,
      );
    }
    if (known.get(name) !== checksum) {
      throw new StartupFailure(
        `Migration ${name} was edited after it was applied to this database: put the original file back and make a new migration instead.`,
      );
    }
  }
}

async function apply(sql: SqlPool, { name, sql: text, checksum }: Migration): Promise<void> {
  try {
    await sql.begin(async (transaction) => {
      await transaction.unsafe(text);
      await transaction`
        insert into _prisma_migrations (id, checksum, started_at, migration_name, finished_at, applied_steps_count)
        values (${randomUUID()}, ${checksum}, now(), ${name}, clock_timestamp(), 1)`;
    });
  } catch (error) {
    const { message } = error as postgres.PostgresError;
    throw new StartupFailure(`Migration ${name} failed and was rolled back whole: ${message}`, { cause: error });
  }
}
