import type { Sql } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';

const mostTries = 5;

interface Locking {
  /** Of its savepoint, another than that of one around it. */
  readonly name: string;
  /** What is said when it never stands. */
  readonly busy: string;
}

/**
 * Locks, and where what was to be locked became another meanwhile (undefined), lets go of it all and locks anew: a lock
 * that was forgotten is never taken after the others, out of order. The savepoint is not released: whoever waits for a row
 * would then wait for the whole transaction, also after another around it let go of the row, and that one for them.
 */
export async function lockUntilItStands<Locked>(
  sql: Sql,
  { name, busy }: Locking,
  lock: () => Promise<Locked | undefined>,
): Promise<Locked> {
  for (let tries = 1; ; tries += 1) {
    await sql`savepoint ${sql(name)}`;
    const locked = await lock();
    if (locked !== undefined) return locked;
    if (tries === mostTries) throw new ProblemError('conflict', busy);
    await sql`rollback to savepoint ${sql(name)}`;
  }
}
