import type { Sql } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';

const mostTries = 5;

/**
 * Locks, and where what was to be locked became another meanwhile (undefined), lets go of it all and locks anew: a lock
 * that was forgotten is never taken after the others, out of order.
 */
export async function lockUntilItStands<Locked>(
  sql: Sql,
  busy: string,
  lock: () => Promise<Locked | undefined>,
): Promise<Locked> {
  for (let tries = 1; ; tries += 1) {
    await sql`savepoint locking`;
    const locked = await lock();
    if (locked !== undefined) {
      await sql`release savepoint locking`;
      return locked;
    }
    if (tries === mostTries) throw new ProblemError('conflict', busy);
    await sql`rollback to savepoint locking`;
  }
}
