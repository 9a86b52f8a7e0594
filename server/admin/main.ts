import process from 'node:process';
import { readConfig } from '../platform/config.ts';
import { openSql } from '../platform/database/client.ts';
import { joinDatabaseServer } from '../platform/database/server.ts';
import { projectFolder } from '../platform/project-folder.ts';
import { StartupFailure } from '../platform/startup-failure.ts';
import { audit } from './audit.ts';
import type { Command } from './command.ts';
import { files } from './files.ts';

/** What `npm run admin -- …` knows: one line a command. */
const commands: Readonly<Record<string, Command>> = { audit, files };

const usage = (): string =>
  [
    'npm run admin -- COMMAND',
    ...Object.entries(commands).map(([name, { summary }]) => `  ${name.padEnd(10)} ${summary}`),
  ].join('\n');

const say = (line: string): void => {
  process.stdout.write(`${line}\n`);
};

/** Exit codes: 0 done and well, 1 done and something is wrong, 2 not done. */
async function main(): Promise<number> {
  const [name = '', ...rest] = process.argv.slice(2);
  const command = commands[name];
  if (name === 'help' || name === '--help') {
    say(usage());
    return 0;
  }
  if (command === undefined || rest.length > 0) {
    const fault = command === undefined ? `There is no command "${name}".` : `${name} takes no ${rest.join(' ')}.`;
    process.stderr.write(`${fault}\n${usage()}\n`);
    return 2;
  }
  const read = readConfig(process.env, projectFolder);
  if (!read.ok) throw new StartupFailure(`The configuration has faults: ${read.faults.join('; ')}.`);
  const server = await joinDatabaseServer(read.config);
  const sql = openSql(server.url, { max: 2 });
  try {
    return await command.run({ sql, config: read.config, say });
  } finally {
    await sql.end({ timeout: 5 });
    await server.stop();
  }
}

try {
  process.exitCode = await main();
} catch (error) {
  process.stderr.write(`${error instanceof StartupFailure ? error.message : String(error)}\n`);
  process.exitCode = 2;
}
