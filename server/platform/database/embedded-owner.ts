import pg from 'pg';

/** A session-level lock in the cluster's own database: PostgreSQL lets go of it when the owning process dies. */
const ownerLock = 5_200_388;

export type Claim =
  | { readonly outcome: 'owner'; readonly client: pg.Client }
  | { readonly outcome: 'held'; readonly by: string }
  | { readonly outcome: 'no answer'; readonly error: Error };

/** Tries once to become the one copy of the service that uses this cluster. */
export async function claimCluster(port: number, password: string): Promise<Claim> {
  const client = new pg.Client({
    ...{ host: '127.0.0.1', port, user: 'postgres', database: 'postgres', password },
    application_name: `crosshatch owner ${process.pid}`,
    connectionTimeoutMillis: 5_000,
    keepAlive: true,
  });
  // Without a listener the driver's report of a lost connection would end the process.
  client.on('error', () => undefined);
  try {
    await client.connect();
    const { rows } = await client.query<{ mine: boolean }>('select pg_try_advisory_lock($1) as mine', [ownerLock]);
    if (rows[0]?.mine) return { outcome: 'owner', client };
    const by = await holder(client);
    await client.end();
    return { outcome: 'held', by };
  } catch (error) {
    await client.end().catch(() => undefined);
    return { outcome: 'no answer', error: error instanceof Error ? error : new Error(String(error)) };
  }
}

async function holder(client: pg.Client): Promise<string> {
  const { rows } = await client.query<{ name: string }>(
    `select a.application_name as name from pg_locks l join pg_stat_activity a using (pid)
     where l.locktype = 'advisory' and l.objid = $1::bigint and l.granted`,
    [ownerLock],
  );
  return rows[0]?.name.replace('crosshatch owner', 'process') ?? 'another process';
}

/** Makes the service's role and database where they are missing. */
export async function createDatabase(owner: pg.Client, password: string): Promise<void> {
  const role = await owner.query("select from pg_roles where rolname = 'crosshatch'");
  if (role.rowCount === 0) {
    await owner.query(`create role crosshatch login createdb password ${owner.escapeLiteral(password)}`);
  }
  const database = await owner.query("select from pg_database where datname = 'crosshatch'");
  if (database.rowCount === 0) await owner.query('create database crosshatch owner crosshatch');
}
