import { tmpdir } from 'node:os';
import path from 'node:path';

/** Where the service of one test database keeps its files; two services on one database share it. */
export const filesOf = (databaseUrl: string): string =>
  path.join(tmpdir(), `crosshatch-files-${new URL(databaseUrl).pathname.slice(1)}`);

/** What a service of a test is configured with. */
export const testConfig = (databaseUrl: string) => ({
  port: 0,
  host: '127.0.0.1',
  loopback: true,
  databaseUrl,
  dataFolder: '',
  filesFolder: filesOf(databaseUrl),
  demo: false,
  anchor: undefined,
  logLevel: 'silent' as const,
  publicOrigin: undefined,
  projectFolder: import.meta.dirname,
});
