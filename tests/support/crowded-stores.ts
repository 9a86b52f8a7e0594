import type { SqlPool } from '#platform/database/client.ts';
import { withoutTriggers } from './without-triggers.ts';

/** How much jobs want of stores that `fillStores` has filled. */
export interface Crowd {
  /** Jobs that went, each with forty lines that hold nothing any more. */
  readonly gone: number;
  readonly open: number;
  /** Of each open job: lots with a piece reserved, and parts of which it is short. */
  readonly picks: number;
  readonly shorts: number;
  /** Parts that nobody has, which the open jobs are short of. */
  readonly missing: number;
}

/** The part that every open job is short of. */
export const missedMost = 'LM-000001';

/**
 * Jobs in large stores by set-based SQL, as copies of a job that is there; what they hold agrees with the ledger.
 */
export async function crowdStores(owner: SqlPool, crowd: Crowd): Promise<void> {
  await owner.begin(async (sql) => {
    // Labels are numbered by a trigger.
    await sql.unsafe(named(crowd));
    await withoutTriggers(sql, tables, async () => {
      await sql.unsafe(jobs);
      await sql.unsafe(wishes(crowd));
      await sql.unsafe(reserved);
    });
    await sql.unsafe('drop table crowd_job, crowd_missing, crowd_lot, crowd_line');
  });
  await owner.unsafe('analyze');
}

const tables = ['job', 'custody', 'purchase_line', 'demand_line', 'reservation', 'stock_movement', 'stock_lot'];

const named = ({ gone, open, missing }: Crowd) => `
  create temp table crowd_job as
    select n, n > ${gone} as open, gen_random_uuid() as job_id, gen_random_uuid() as engine_id, t.*
    from generate_series(1, ${gone + open}) n
      cross join (select j.revision_id, j.taken_in_by_id, e.family_id, e.owner_id from job j join engine e on e.id = j.engine_id order by j.number limit 1) t;
  insert into engine (id, serial, family_id, owner_id) select engine_id, 'CROWD-' || n, family_id, owner_id from crowd_job;
  create temp table crowd_missing as
    select n, gen_random_uuid() as part_id, 'LM-' || lpad(n::text, 6, '0') as number from generate_series(1, ${missing}) n;
  insert into part (id, number, name) select part_id, number, 'Missing ' || n from crowd_missing;
`;

const jobs = `
  insert into job (id, number, engine_id, revision_id, running_minutes, complaint, taken_in_by_id, handed_back_by_id, handed_back_at)
    select job_id, 500000 + n, engine_id, revision_id, 0, 'runs rough', taken_in_by_id, case when not open then taken_in_by_id end,
      case when not open then clock_timestamp() end from crowd_job;
  insert into custody (id, engine_id, owner_id, from_at, moved_by_id)
    select gen_random_uuid(), engine_id, owner_id, clock_timestamp(), taken_in_by_id from crowd_job;
  insert into purchase_line (id, vendor_id, part_id, quantity, received, promised_on, ordered_by_id)
    select gen_random_uuid(), (select id from vendor order by name limit 1), part_id, 3, 0, current_date + n % 30,
      (select id from person order by id limit 1) from crowd_missing where n % 3 = 2;
`;

const wishes = ({ picks, shorts, missing }: Crowd) => `
  create temp table crowd_lot as
    select l.id as lot_id, l.part_id, row_number() over (order by p.number) - 1 as at
    from stock_lot l join part p on p.id = l.part_id
    where p.number like 'LG-%' and l.on_hand - l.reserved > 0 and l.reserved = 0;
  create index on crowd_lot (at);
  create temp table crowd_line as
    select gen_random_uuid() as id, j.job_id, j.open, j.taken_in_by_id, l.part_id, l.lot_id, true as held
    from crowd_job j cross join lateral generate_series(0, case when j.open then ${picks} else 40 end - 1) k
      join crowd_lot l on l.at = ((j.n - 1) * ${picks}::bigint + k) % (select count(*) from crowd_lot)
    union all
    select gen_random_uuid(), j.job_id, true, j.taken_in_by_id, m.part_id, null, false
    from crowd_job j cross join generate_series(0, ${shorts - 1}) k
      join crowd_missing m on m.n = 1 + case when k = 0 then 0 else (j.n * 7 + k) % (${missing} - 1) + 1 end where j.open;
  insert into demand_line (id, job_id, part_id, wanted, reserved, short, cancelled, not_asked, short_since, added_by_id)
    select id, job_id, part_id, 1, (open and held)::int, (not held)::int, (not open)::int, 0, case when not held then clock_timestamp() end, taken_in_by_id
    from crowd_line;
`;

const reserved = `
  insert into reservation (id, demand_line_id, lot_id, quantity)
    select gen_random_uuid(), id, lot_id, open::int from crowd_line where held;
  insert into stock_movement (id, lot_id, part_id, act, on_hand_change, reserved_change, reason, moved_by_id, job_id, demand_line_id)
    select gen_random_uuid(), lot_id, part_id, 'reserve', 0, 1, '', taken_in_by_id, job_id, id from crowd_line where held and open;
  update stock_lot l set reserved = c.count from (select lot_id, count(*)::int as count from crowd_line where held and open group by lot_id) c
    where c.lot_id = l.id;
`;
