import type { HoldRule } from '#contracts/hold-rule.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act, AnyAct } from '#platform/act.ts';
import type { Sql, SqlPool } from '#platform/database/client.ts';
import { lockLinesOfJob } from '../ledger/queries.ts';
import { inOwnAct } from '../reservations/own-act.ts';
import { endHolds, findHoldDays, findJobsWithoutEnd, type HeldPart, insertHoldRule } from './queries.ts';

/** How long what is reserved for a job without a yes is held. */
export const holdRule = async (sql: Sql): Promise<HoldRule> => ({ days: await findHoldDays(sql) });

/** Another number of days for holds that begin from now on; those that run keep their day. */
export async function setHoldRule(act: Act, { days }: HoldRule): Promise<HoldRule> {
  const was = await findHoldDays(act.sql);
  await insertHoldRule(act.sql, { days, byId: act.actor.id });
  await act.event('hold-rule.set', { data: { was, days } });
  return { days };
}

/**
 * A quote is out and there is no yes: what the job holds firmly is held until the day that the shop's rule says. The
 * caller holds the job (openJob) and tells of it.
 */
export async function holdUntilYes(act: AnyAct, jobId: string): Promise<{ readonly held: readonly HeldPart[] }> {
  await lockLinesOfJob(act.sql, { jobId, lineIds: undefined });
  return { held: await endHolds(act.sql, jobId) };
}

/** Holds that the rule did not reach yet, since it was set after them: each job in a transaction of its own. */
export async function holdByRule(sql: SqlPool): Promise<void> {
  for (const { jobId } of await findJobsWithoutEnd(sql)) {
    await inOwnAct(sql, async (act) => {
      const job = await openJob(act, jobId);
      const { held } = await holdUntilYes(act, job.id);
      if (held.length > 0) await act.event('hold.begun', { engineId: job.engineId, jobId: job.id, data: { held } });
    });
  }
}
