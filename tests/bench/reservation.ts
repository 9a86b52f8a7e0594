import { createHash, randomUUID } from 'node:crypto';
import { actOn, newId } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { findActor } from '#platform/identity/sessions.ts';
import { lockEngine } from '../../server/features/custody/queries.ts';
import { findEngineOfJob, lockJob } from '../../server/features/intake/queries.ts';
import { lockLinesOfJob, recordStock } from '../../server/features/stores/ledger/queries.ts';
import { planFor, replyOf, standingAfter } from '../../server/features/stores/reservations/plan.ts';
import { lockLotsForJob } from '../../server/features/stores/reservations/queries.ts';
import type { BenchShop } from './bench-shop.ts';
import { type Figure, medians } from './figures.ts';

const RUNS = 500;
const LINES = 25;

/** A job that wants 25 parts of which there is plenty, none of it asked for yet. */
async function jobWithKit(
  sql: SqlPool,
  actorId: string,
): Promise<{ readonly jobId: string; readonly engineId: string }> {
  const [job] = await sql<{ jobId: string; engineId: string }[]>`
    select j.id as "jobId", j.engine_id as "engineId" from job j
    where j.handed_back_at is null and not exists (select from demand_line d where d.job_id = j.id) limit 1`;
  if (job === undefined) throw new Error('every job of the demo wants parts already');
  await sql`
    insert into demand_line (id, job_id, part_id, wanted, not_asked, added_by_id)
    select gen_random_uuid(), ${job.jobId}, p.part_id, 1, 1, ${actorId}
    from (select part_id from stock_lot group by part_id having sum(on_hand - reserved) >= 3 order by part_id limit ${LINES}) p`;
  return job;
}

/** Takes back what a run reserved, by the ledger, so that each run finds the same stock. Not timed. */
async function takeBack(sql: SqlPool, { jobId, actorId }: { jobId: string; actorId: string }): Promise<void> {
  await sql.begin(async (transaction) => {
    await transaction`
      insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, job_id, moved_by_id)
      select gen_random_uuid(), r.lot_id, 'release', 0, -r.quantity, ${jobId}, ${actorId}
      from reservation r join demand_line d on d.id = r.demand_line_id where d.job_id = ${jobId} and r.quantity > 0`;
    await transaction`
      update reservation r set quantity = 0 from demand_line d where d.id = r.demand_line_id and d.job_id = ${jobId} and r.quantity > 0`;
    await transaction`
      update demand_line set not_asked = not_asked + reserved + short, reserved = 0, short = 0, short_since = null where job_id = ${jobId}`;
  });
}

/** The statements of one asking, straight through the driver: session, key, locks, one write, event, key with its reply. */
export async function bareReservation(
  { sql, token, actor }: Pick<BenchShop, 'sql' | 'token' | 'actor'>,
  { jobId, engineId }: { jobId: string; engineId: string },
): Promise<void> {
  await findActor(sql, token);
  const key = randomUUID();
  const fingerprint = createHash('sha256').update(key).digest();
  await sql.begin(async (transaction) => {
    await transaction`
      select pg_try_advisory_xact_lock(hashtextextended(${key}, 0)) as free, k.fingerprint, k.status, k.reply, k.etag
      from (values (1)) one left join idempotency_key k on k.key = ${key}`;
    await findEngineOfJob(transaction, jobId);
    await lockEngine(transaction, engineId);
    await lockJob(transaction, jobId);
    const asking = { jobId, lineIds: undefined };
    const lots = await lockLotsForJob(transaction, asking);
    const lines = await lockLinesOfJob(transaction, asking);
    const plan = planFor(lines, lots, true);
    await recordStock(transaction, {
      moves: plan.reservations.map(({ lineId, lotId, count }) => ({
        act: 'reserve',
        lotId,
        reserved: count,
        demandLineId: lineId,
        jobId,
      })),
      holds: plan.reservations.map(({ lineId, lotId, count }) => ({ demandLineId: lineId, lotId, count })),
      standings: lines.map((line) => standingAfter(line, plan, { allOrNothing: true })),
      byId: actor.id,
      expiresAt: undefined,
    });
    const reply = replyOf(plan, lines);
    await actOn(transaction, actor).event('kit.reserved', {
      engineId,
      jobId,
      data: { reserved: reply.reserved.length },
    });
    await transaction`
      insert into idempotency_key (key, fingerprint, actor_id, status, reply, etag)
      values (${newId()}, ${fingerprint}, ${actor.id}, 200, ${transaction.json(reply as never)}, null)`;
  });
}

/** Reserving a 25-line kit over HTTP against the same transaction through the driver. */
export async function reservation(shop: BenchShop, suffix = ''): Promise<readonly Figure[]> {
  const { sql, actor, post, statements } = shop;
  const job = await jobWithKit(sql, actor.id);
  const ask = () => post(`/jobs/${job.jobId}/reservations`, { allOrNothing: true });
  const before = () => takeBack(sql, { jobId: job.jobId, actorId: actor.id });
  await statements();
  await ask();
  const count = await statements();
  const taken = await medians(RUNS, { http: ask, bare: () => bareReservation(shop, job) }, before);
  return [
    { name: `reservation${suffix}.http`, value: taken.http, unit: 'ms' },
    { name: `reservation${suffix}.bare`, value: taken.bare, unit: 'ms' },
    { name: `reservation${suffix}.statements`, value: count, unit: '' },
    { name: `reservation${suffix}.ratio`, value: taken.http / taken.bare, unit: '' },
  ];
}
