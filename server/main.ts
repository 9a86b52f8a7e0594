import process from 'node:process';
import { latestAnchor } from '../prisma/demo/clock.ts';
import { beginEmptyShopIfNew, loadDemoIfEmpty } from '../prisma/demo/load.ts';
import { signInAgain } from '../prisma/demo/sign-in.ts';
import { type Config, readConfig } from './platform/config.ts';
import { type Database, openDatabase } from './platform/database/client.ts';
import { migrate } from './platform/database/migrate.ts';
import { startDatabaseServer } from './platform/database/server.ts';
import { listen } from './platform/http/listen.ts';
import { projectFolder } from './platform/project-folder.ts';
import { Shutdown } from './platform/shutdown.ts';
import { StartupFailure } from './platform/startup-failure.ts';

const shutdown = new Shutdown();
await shutdown.start(async () => start(configuration()));

function configuration(): Config {
  const result = readConfig(process.env, projectFolder);
  if (result.ok) return result.config;
  throw new StartupFailure(`The configuration has faults: ${result.faults.join('; ')}.`);
}

async function start(config: Config): Promise<void> {
  // Loading the app's modules takes about as long as PostgreSQL takes to answer.
  const loading = import('./app.ts');
  loading.catch(() => undefined);
  const server = await startDatabaseServer(config, (failure) => void shutdown.because(failure));
  shutdown.atEnd('database server', server.stop);
  shutdown.signal.throwIfAborted();
  say(`Database: ${server.description}`);
  const applied = await migrate(server.url, `${config.projectFolder}/prisma/migrations`);
  if (applied.length > 0) say(`Migrations applied: ${applied.length}`);

  const db = openDatabase(server.url);
  shutdown.atEnd('database connections', db.close);
  const signIn = await loadDemo(config, db);
  shutdown.signal.throwIfAborted();

  const { buildApp } = await loading;
  const app = await buildApp({ config, db });
  shutdown.atEnd('requests', () => app.close());
  const { startStoresClock } = await import('./features/stores/reservations/clock.ts');
  const clock = await startStoresClock(db.sql, (error) => app.log.error(error));
  shutdown.atEnd('rounds of stores', clock.close);
  shutdown.signal.throwIfAborted();
  const address = await listen(app, config);
  say(`Crosshatch is at ${address}`);
  for (const line of signIn) say(line);
}

async function loadDemo(config: Config, db: Database): Promise<readonly string[]> {
  const asBefore = ['Sign in by name and PIN.'];
  if (!config.demo) return (await beginEmptyShopIfNew(db)) ?? (await signInAgain(db, config.loopback)) ?? asBefore;
  const anchor = config.anchor ?? latestAnchor(new Date());
  return (
    (await loadDemoIfEmpty(db, { anchor, loopback: config.loopback, filesFolder: config.filesFolder })) ?? asBefore
  );
}

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}
