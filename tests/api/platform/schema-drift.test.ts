import path from 'node:path';
import { afterEach, expect, test } from 'vitest';
import { projectFolder } from '#platform/project-folder.ts';
import { cloneDatabase, type TestDatabase } from '../../support/database.ts';
import { schemaDrift } from '../../support/schema-engine.ts';

const schemaFile = path.join(projectFolder, 'prisma/schema.prisma');
let database: TestDatabase | undefined;
afterEach(() => database?.drop());

test('the migrations make exactly the database that schema.prisma describes', async () => {
  database = await cloneDatabase();
  expect(await schemaDrift(database.url, schemaFile)).toBeUndefined();
});

test('a column that the schema does not know is noticed', async () => {
  database = await cloneDatabase();
  await database.db.sql`alter table bay add column shoe_size int`;
  expect(await schemaDrift(database.url, schemaFile)).toContain('shoe_size');
});
