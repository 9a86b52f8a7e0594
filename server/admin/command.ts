import type { Config } from '../platform/config.ts';
import type { SqlPool } from '../platform/database/client.ts';

export interface CommandTools {
  readonly sql: SqlPool;
  readonly config: Config;
  readonly say: (line: string) => void;
}

/** One thing an operator may ask for; `run` answers the exit code. */
export interface Command {
  readonly summary: string;
  readonly run: (tools: CommandTools) => Promise<number>;
}
