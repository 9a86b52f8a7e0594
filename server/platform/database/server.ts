import pg from 'pg';
import type { Config } from '../config.ts';
import { StartupFailure } from '../startup-failure.ts';
import { embeddedUrlIfRunning, startEmbedded } from './embedded.ts';

export interface DatabaseServer {
  readonly url: string;
  /** What to tell the operator about it, without a secret. */
  readonly description: string;
  /** Ends what this process started; a server of the operator's own stays. */
  readonly stop: () => Promise<void>;
}

type ServerConfig = Pick<Config, 'databaseUrl' | 'dataFolder'>;

/** The oldest PostgreSQL that the schema's rules work on. */
const oldestVersion = 150_000;

/** Finds the database server: the one DATABASE_URL names, or the embedded one. */
export async function startDatabaseServer(
  config: ServerConfig,
  onLost: (failure: StartupFailure) => void,
): Promise<DatabaseServer> {
  if (config.databaseUrl === undefined) {
    const { url, folder, stop } = await startEmbedded({ dataFolder: config.dataFolder, onLost });
    return { url, description: `embedded PostgreSQL, data in ${folder}`, stop };
  }
  await checkReachable(config.databaseUrl);
  const { host, pathname } = new URL(config.databaseUrl);
  return { url: config.databaseUrl, description: `PostgreSQL at ${host}${pathname}`, stop: async () => undefined };
}

/** For a program beside the service: joins the embedded server while the service runs it, else starts it for as long. */
export async function joinDatabaseServer(config: ServerConfig): Promise<DatabaseServer> {
  const running = config.databaseUrl === undefined ? embeddedUrlIfRunning(config.dataFolder) : undefined;
  if (running === undefined) return startDatabaseServer(config, () => undefined);
  return {
    url: running,
    description: `embedded PostgreSQL, data in ${config.dataFolder}`,
    stop: async () => undefined,
  };
}

async function checkReachable(url: string): Promise<void> {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 5_000 });
  client.on('error', () => undefined);
  try {
    await client.connect();
    const { rows } = await client.query<{ number: string; name: string }>(
      "select current_setting('server_version_num') as number, current_setting('server_version') as name",
    );
    if (Number(rows[0]?.number) < oldestVersion) {
      throw new StartupFailure(
        `The PostgreSQL at ${new URL(url).host} is version ${rows[0]?.name}; 15 or later is needed.`,
      );
    }
  } catch (error) {
    throw error instanceof StartupFailure ? error : unreachable(url, error as NodeJS.ErrnoException);
  } finally {
    await client.end().catch(() => undefined);
  }
}

function unreachable(url: string, error: NodeJS.ErrnoException): StartupFailure {
  const { hostname, port, username, pathname } = new URL(url);
  const server = `PostgreSQL at ${hostname}, port ${port || '5432'}`;
  const user = decodeURIComponent(username);
  const database = decodeURIComponent(pathname.slice(1));
  switch (error.code) {
    case '28P01':
    case '28000':
      return new StartupFailure(`The ${server} refused user "${user}": check the name and password in DATABASE_URL.`);
    case '3D000':
      return new StartupFailure(`The ${server} has no database "${database}": create it, or correct DATABASE_URL.`);
    default:
      return new StartupFailure(
        `The ${server} can't be reached (${error.code ?? error.message}): check that it runs, that DATABASE_URL names the right host and port, and that a firewall lets this machine in.`,
      );
  }
}
