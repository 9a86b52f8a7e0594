import { cp, mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { migrate, readMigrations } from '#platform/database/migrate.ts';
import { projectFolder } from '#platform/project-folder.ts';
import { createEmptyDatabase, type TestDatabase } from '../../support/database.ts';

let database: TestDatabase;
/** A copy of the project's migrations that a test may change. */
let folder: string;
let names: readonly string[];

beforeEach(async () => {
  database = await createEmptyDatabase();
  folder = await mkdtemp(path.join(tmpdir(), 'crosshatch-migrations-'));
  await cp(path.join(projectFolder, 'prisma/migrations'), folder, { recursive: true });
  names = (await readMigrations(folder)).map(({ name }) => name);
});
afterEach(async () => {
  await database.drop();
  await rm(folder, { recursive: true });
});

async function addMigration(name: string, sql: string): Promise<void> {
  await mkdir(path.join(folder, name), { recursive: true });
  await writeFile(path.join(folder, name, 'migration.sql'), sql);
}

async function recorded(): Promise<readonly string[]> {
  const rows = await database.db.sql<{ name: string }[]>`
    select migration_name as name from _prisma_migrations
    where finished_at is not null and applied_steps_count = 1 order by started_at, name`;
  return rows.map(({ name }) => name);
}

test('a new database gets every migration, in order; a second run changes nothing', async () => {
  expect(names.length).toBeGreaterThan(0);
  expect(await migrate(database.url, folder)).toEqual(names);
  expect(await migrate(database.url, folder)).toEqual([]);
  expect(await recorded()).toEqual(names);
});

test('three processes at once apply each migration once', async () => {
  const applied = await Promise.all([1, 2, 3].map(() => migrate(database.url, folder)));
  expect(applied.flat().sort()).toEqual(names);
  expect(await recorded()).toEqual(names);
});

test('an older database gets only what it lacks', async () => {
  await migrate(database.url, folder);
  await addMigration('99990101000000_later', 'create table later (id int primary key)');
  expect(await migrate(database.url, folder)).toEqual(['99990101000000_later']);
});

test('a migration edited after it was applied is refused', async () => {
  await migrate(database.url, folder);
  await addMigration(names[0] ?? '', 'select 1');
  await expect(migrate(database.url, folder)).rejects.toThrow(`Migration ${names[0]} was edited after it was applied`);
});

test('a database of a newer version is refused, in one sentence', async () => {
  await addMigration('99990101000000_later', 'create table later (id int primary key)');
  await migrate(database.url, folder);
  await rm(path.join(folder, '99990101000000_later'), { recursive: true });
  const refusal = /^The database was made by a newer version of Crosshatch \(it has 99990101000000_later.*\.$/;
  await expect(migrate(database.url, folder)).rejects.toThrow(refusal);
});

test('a migration that another program left unfinished is refused', async () => {
  await migrate(database.url, folder);
  await database.db.sql`update _prisma_migrations set finished_at = null where migration_name = ${names[0] ?? ''}`;
  await expect(migrate(database.url, folder)).rejects.toThrow('did not finish');
});

test('a migration that fails leaves nothing behind, and those before it stay', async () => {
  await addMigration('99990101000000_half', 'create table half (id int); select 1 / 0;');
  await expect(migrate(database.url, folder)).rejects.toThrow('99990101000000_half failed and was rolled back whole');
  const [row] = await database.db.sql`select to_regclass('half') as half`;
  expect(row?.half).toBeNull();
  expect(await recorded()).toEqual(names);
  await addMigration('99990101000000_half', 'create table half (id int)');
  expect(await migrate(database.url, folder)).toEqual(['99990101000000_half']);
});
