import { type OwnAct, ownActOn } from '#platform/act.ts';
import { isRetryable } from '#platform/constraint-problem.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { ProblemError } from '#platform/problem.ts';

/**
 * Does one thing of the service's own in a transaction. Where it no longer may (the job was handed back meanwhile) or a
 * deadlock was broken here nothing is done: the next round looks again.
 */
export async function inOwnAct(sql: SqlPool, work: (act: OwnAct) => Promise<void>): Promise<void> {
  try {
    await sql.begin((own) => work(ownActOn(own)));
  } catch (error) {
    if (!(error instanceof ProblemError) && !isRetryable(error)) throw error;
  }
}
