import type { SqlPool } from '#platform/database/client.ts';
import { holdByRule } from '../holds/service.ts';
import { letGoLapsed } from './lapsing.ts';
import { takeRound } from './round-queries.ts';
import { serveWaiting } from './waiting.ts';

const roundEvery = 5_000;
const soonAfterChange = 100;

export interface StoresClock {
  readonly close: () => Promise<void>;
}

/**
 * Keeps what is promised true without anybody asking: lets go what ran out, and serves who waits with what is free. A
 * round begins soon after any change in the shop and every few seconds; of several processes one at a time makes it, so
 * none waits for another, and one that ends in the middle loses nothing: the next round reads the stock anew.
 */
export async function startStoresClock(sql: SqlPool, failed: (error: unknown) => void): Promise<StoresClock> {
  let due: NodeJS.Timeout | undefined;
  let running: Promise<void> | undefined;
  let closed = false;
  const round = (): void => {
    due = undefined;
    running = makeRound(sql)
      .catch(failed)
      .finally(() => {
        running = undefined;
      });
  };
  const soon = (): void => {
    if (closed || due !== undefined) return;
    due = setTimeout(() => (running === undefined ? round() : void running.then(soonAgain)), soonAfterChange);
  };
  const soonAgain = (): void => {
    due = undefined;
    soon();
  };
  const changes = await sql.listen('crosshatch', soon, soon);
  const often = setInterval(soon, roundEvery);
  return {
    close: async () => {
      closed = true;
      clearInterval(often);
      clearTimeout(due);
      await running;
      await changes.unlisten();
    },
  };
}

/** One round, unless another process is at one. What it lets go is free for who waits, in the same round. */
export async function makeRound(sql: SqlPool): Promise<void> {
  await sql.begin(async (guard) => {
    if (!(await takeRound(guard))) return;
    await holdByRule(sql);
    await letGoLapsed(sql);
    await serveWaiting(sql);
  });
}
