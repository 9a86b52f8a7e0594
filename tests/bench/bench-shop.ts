import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Actor } from '#platform/act.ts';
import { type Database, openDatabase, openSql, type SqlPool } from '#platform/database/client.ts';
import { startEmbedded } from '#platform/database/embedded.ts';
import { readCredentials } from '#platform/database/embedded-cluster.ts';
import { embeddedPlace } from '#platform/database/embedded-place.ts';
import { migrate } from '#platform/database/migrate.ts';
import { findActor, SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { projectFolder } from '#platform/project-folder.ts';
import { loadDemoIfEmpty } from '../../prisma/demo/load.ts';
import { buildApp } from '../../server/app.ts';
import { filesOf, testConfig } from '../support/test-config.ts';

/** The demo shop served over a real socket, by one connection or so many, and a bare connection to the same PostgreSQL. */
export interface BenchShop {
  readonly sql: SqlPool;
  readonly url: string;
  /** The same database as PostgreSQL's superuser. */
  readonly superuser: string;
  readonly address: string;
  readonly token: string;
  readonly actor: Actor;
  readonly get: (path: string) => Promise<void>;
  readonly post: (path: string, body: object) => Promise<void>;
  /** Statements that PostgreSQL has run since the last call, without this question itself. */
  readonly statements: () => Promise<number>;
  readonly close: () => Promise<void>;
}

/** A server as an operator runs it: durable, only with statement counting added. */
const settings = ['shared_preload_libraries=pg_stat_statements', 'pg_stat_statements.track=top'];

export async function openBenchShop(connections = 1): Promise<BenchShop> {
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'crosshatch-bench-'));
  chmodSync(dataFolder, 0o755);
  const onLost = (failure: Error): never => {
    throw failure;
  };
  const server = await startEmbedded({ dataFolder, settings, onLost });
  await migrate(server.url, path.join(projectFolder, 'prisma/migrations'));
  const db: Database = openDatabase(server.url, { max: connections });
  await loadDemoIfEmpty(db, { anchor: '2026-11-25', loopback: true, filesFolder: filesOf(server.url) });
  const sql = openSql(server.url, { max: 1 });
  const app = await buildApp({ config: benchConfig(server.url), db });
  const address = await app.listen({ port: 0, host: '127.0.0.1' });
  const [lead] = await sql<{ id: string }[]>`select person_id as id from person_role where role = 'lead' limit 1`;
  const { token } = await startSession(sql, { personId: lead?.id ?? '', terminalId: undefined });
  const actor = await findActor(sql, token);
  if (actor === undefined) throw new Error('the bench could not sign in');
  const ask = async (where: string, init: RequestInit) => {
    const reply = await fetch(`${address}/api${where}`, init);
    const text = await reply.text();
    if (!reply.ok) throw new Error(`${where} answered ${reply.status}: ${text}`);
  };
  const cookie = `${SESSION_COOKIE}=${token}`;
  return {
    sql,
    url: server.url,
    superuser: superuserUrl(server.url, dataFolder),
    address,
    token,
    actor,
    get: (where) => ask(where, { headers: { cookie } }),
    post: (where, body) =>
      ask(where, {
        method: 'POST',
        headers: { cookie, 'content-type': 'application/json', 'idempotency-key': crypto.randomUUID() },
        body: JSON.stringify(body),
      }),
    statements: statementCounter(superuserUrl(server.url, dataFolder)),
    close: async () => {
      await app.close();
      await db.close();
      await sql.end();
      await server.stop();
      rmSync(dataFolder, { recursive: true, force: true });
    },
  };
}

/** Counting statements is the superuser's; its password lies in the data folder. */
function superuserUrl(url: string, dataFolder: string): string {
  const superuser = new URL(url);
  superuser.username = 'postgres';
  superuser.password = readCredentials(embeddedPlace(dataFolder)).postgres;
  return superuser.href;
}

function statementCounter(url: string): () => Promise<number> {
  let ready = false;
  return async () => {
    const sql = openSql(url, { max: 1 });
    try {
      if (!ready) await sql`create extension if not exists pg_stat_statements`;
      ready = true;
      const [row] = await sql<{ calls: number }[]>`
        select coalesce(sum(calls), 0)::int as calls from pg_stat_statements
        where query not ilike '%pg_stat_statements%' and query not ilike '%pg_catalog.pg_type%'`;
      await sql`select pg_stat_statements_reset()`;
      return row?.calls ?? 0;
    } finally {
      await sql.end();
    }
  };
}

const benchConfig = (databaseUrl: string) => ({ ...testConfig(databaseUrl), demo: true, projectFolder });
