/**
 * `npm run schema`: applies the migrations to a scratch database and writes prisma/schema.prisma from what it reads
 * there. The scratch server is the embedded one, or the one that CROSSHATCH_TEST_SERVER names.
 */
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { openSql } from '#platform/database/client.ts';
import { startEmbedded } from '#platform/database/embedded.ts';
import { migrate } from '#platform/database/migrate.ts';
import { introspectedSchema } from '../tests/support/schema-engine.ts';
import { renameSchema } from './schema-names.ts';

const BASE = `generator client {
  provider        = "prisma-client"
  output          = "../server/platform/database/generated"
  previewFeatures = ["partialIndexes"]
}

datasource db {
  provider = "postgresql"
}
`;

async function scratchServer(): Promise<{ url: string; stop: () => Promise<void> }> {
  const given = process.env.CROSSHATCH_TEST_SERVER;
  if (given) return { url: given, stop: async () => undefined };
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'crosshatch-schema-'));
  chmodSync(dataFolder, 0o755);
  const onLost = (failure: Error): never => {
    throw failure;
  };
  const { url, stop } = await startEmbedded({ dataFolder, settings: ['fsync=off'], onLost });
  return {
    url,
    stop: async () => {
      await stop();
      rmSync(dataFolder, { recursive: true, force: true });
    },
  };
}

const server = await scratchServer();
const sql = openSql(server.url, { max: 1 });
const name = `crosshatch_schema_${process.pid}`;
try {
  await sql`create database ${sql(name)}`;
  const url = new URL(server.url);
  url.pathname = `/${name}`;
  await migrate(url.href, 'prisma/migrations');
  writeFileSync('prisma/schema.prisma', renameSchema(await introspectedSchema(url.href, BASE)));
  console.log('wrote prisma/schema.prisma; `npm run generate` makes the client from it');
} finally {
  await sql`drop database if exists ${sql(name)} with (force)`;
  await sql.end();
  await server.stop();
}
