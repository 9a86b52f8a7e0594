import { expect } from 'vitest';
import type { Sql, SqlPool } from '#platform/database/client.ts';
import { expectBooksToAgree } from '../../support/stores.ts';
import type { Stage } from './world.ts';

/** Pieces free in lots that a line `d` takes of, by its own rule `lr`. */
const freeFor = (sql: Sql) => sql`
  (select coalesce(sum(l.on_hand - l.reserved), 0)::int from stock_lot l join part p on p.id = l.part_id
   where l.part_id = any(parts_serving(d.part_id)) and not l.used
     and case lr.rule when 'grade' then lower(coalesce(nullif(l.grade, ''), p.grade)) = lower(lr.grade)
           when 'exact thickness' then coalesce(l.shim_nm, p.shim_nm) = any(lr.thickness_nm) else true end)`;

/** Lines of a history that wait for what lies free: nobody may, once the rounds had their time. */
export async function countWaitingInVain(sql: Sql, { parts }: Stage): Promise<number> {
  const [found] = await sql<{ lines: number }[]>`
    with line as (
      select d.id, d.job_id, d.short, d.not_asked, d.asked_whole, d.asked_until, parts_serving(d.part_id) as serving,
        ${freeFor(sql)} as free
      from demand_line d left join demand_lot_rule lr on lr.id = d.lot_rule_id where d.part_id = any(${parts}::uuid[])
    ), whole as (
      -- What is asked as one goes round where each line finds all that it and those beside it, of the same lots, still want.
      select w.job_id, w.asked_until, bool_and(w.free >= (
          select sum(o.short + o.not_asked) from line o
          where o.job_id = w.job_id and o.asked_whole and o.asked_until is not distinct from w.asked_until and o.serving && w.serving))
        or sum(w.short) = 0 as could
      from line w where w.asked_whole and w.short + w.not_asked > 0 group by w.job_id, w.asked_until
    )
    select ((select count(*) from line where not asked_whole and short > 0 and free > 0)
      + (select count(*) from whole where could)
      + (select count(*) from line where asked_until <= clock_timestamp() and short > 0)
      + (select count(*) from reservation r join line on line.id = r.demand_line_id
         where r.quantity > 0 and r.expires_at <= clock_timestamp()))::int as lines`;
  return found?.lines ?? 0;
}

/** How long those holds of a history still run that end in moments, in milliseconds; others last for days. */
export async function holdsRunFor(sql: Sql, { parts }: Stage): Promise<number> {
  const [found] = await sql<{ wait: number }[]>`
    select coalesce(greatest(0, ceil(1000 * extract(epoch from max(t.until) - clock_timestamp()))), 0)::int as wait from (
      select r.expires_at as until from reservation r join demand_line d on d.id = r.demand_line_id
      where r.quantity > 0 and d.part_id = any(${parts}::uuid[])
      union all select asked_until from demand_line where short + not_asked > 0 and part_id = any(${parts}::uuid[])) t
    where t.until < clock_timestamp() + interval '1 minute'`;
  return found?.wait ?? 0;
}

/** Rules of the stores that are broken somewhere in a history, each with how often: added up here anew, not by the service. */
async function broken(sql: Sql, { parts }: Stage) {
  return sql<{ rule: string; times: number }[]>`
    with lot as (
      select l.*, (select coalesce(sum(m.on_hand_change), 0) from stock_movement m where m.lot_id = l.id) as moved,
        (select coalesce(sum(m.reserved_change), 0) from stock_movement m where m.lot_id = l.id) as promised,
        (select coalesce(sum(r.quantity), 0) from reservation r where r.lot_id = l.id) as held
      from stock_lot l where l.part_id = any(${parts}::uuid[])
    ), line as (
      select d.*, (select coalesce(sum(r.quantity), 0) from reservation r where r.demand_line_id = d.id) as held,
        (select -coalesce(sum(m.on_hand_change), 0) from stock_movement m where m.demand_line_id = d.id) as gone,
        (select coalesce(sum(m.reserved_change), 0) from stock_movement m where m.demand_line_id = d.id) as promised,
        (select -coalesce(sum(m.value_change), 0) from stock_movement m where m.demand_line_id = d.id) as worth
      from demand_line d where d.part_id = any(${parts}::uuid[])
    ), hold as (
      select r.*, l.part_id, coalesce(l.shim_nm, p.shim_nm) as nm, coalesce(nullif(l.grade, ''), p.grade) as grade, lr.id as rule_id, lr.rule,
        lr.grade as wanted_grade, lr.thickness_nm
      from reservation r join stock_lot l on l.id = r.lot_id join part p on p.id = l.part_id
        join demand_line d on d.id = r.demand_line_id left join demand_lot_rule lr on lr.id = d.lot_rule_id
      where r.quantity > 0 and l.part_id = any(${parts}::uuid[])
    ), serial as (
      select part_id, serial, sum(on_hand) as lying, sum(reserved) as reserved,
        (select -sum(m.on_hand_change) from stock_movement m join stock_lot o on o.id = m.lot_id
         where o.part_id = lot.part_id and o.serial = lot.serial and m.act in ('issue', 'return')) as gone
      from lot where serial is not null group by part_id, serial
    )
    select rule, times::int from (values
      ('a lot holds what its movements come to', (select count(*) from lot where on_hand <> moved)),
      ('a lot has reserved what its movements come to', (select count(*) from lot where reserved <> promised)),
      ('a lot has reserved what its reservations come to', (select count(*) from lot where reserved <> held)),
      ('no lot is promised beyond what lies in it', (select count(*) from lot where held > on_hand or on_hand < 0)),
      ('a line has reserved what its reservations come to', (select count(*) from line where reserved <> held)),
      ('a line has reserved what its movements come to', (select count(*) from line where reserved <> promised)),
      ('a line has out what its movements come to', (select count(*) from line where issued <> gone)),
      ('a line is the sum of where its pieces stand',
        (select count(*) from line where wanted <> reserved + short + issued + cancelled + not_asked)),
      ('nothing is held for a cancelled line', (select count(*) from line where wanted = cancelled and held > 0)),
      ('a line that gave all back cost nothing', (select count(*) from line where issued = 0 and worth <> 0)),
      ('a line waits since a day, or for nothing', (select count(*) from line where (short > 0) <> (short_since is not null))),
      ('a line that waits for nothing has no asking',
        (select count(*) from line where short + not_asked = 0 and (asked_whole or asked_until is not null))),
      ('a job that has no yes to its quotes holds and waits for nothing without an end', (select count(*) from line
        where exists (select from quote q where q.job_id = line.job_id)
          and not exists (select from quote q join quote_answer a on a.quote_id = q.id where q.job_id = line.job_id and a.yes)
          and ((asked_until is null and (short > 0 or (asked_whole and not_asked > 0)))
            or exists (select from reservation r where r.demand_line_id = line.id and r.quantity > 0 and r.expires_at is null)))),
      ('nothing is promised against a rule', (select count(*) from hold h
        where not exists (select from lot_against_rule t where t.demand_line_id = h.demand_line_id and t.lot_id = h.lot_id and t.rule_id = h.rule_id)
          and case h.rule when 'grade' then lower(h.grade) <> lower(h.wanted_grade)
                when 'exact thickness' then h.nm <> all(h.thickness_nm) else false end)),
      ('a part is worth what its movements come to', (select count(*) from part_value v where v.part_id = any(${parts}::uuid[])
        and (v.value_minor, v.on_hand) is distinct from ((select coalesce(sum(m.value_change), 0) from stock_movement m where m.part_id = v.part_id)::bigint,
          (select coalesce(sum(l.on_hand), 0) from stock_lot l where l.part_id = v.part_id)::int))),
      ('what is carried to another bin changes neither pieces nor worth',
        (select count(*) from (select part_id from stock_movement where part_id = any(${parts}::uuid[]) and act like 'transfer %'
         group by part_id having sum(on_hand_change) <> 0 or sum(value_change) <> 0) t)),
      ('a serial lies in one place', (select count(*) from serial where lying > 1 or reserved > lying or lying + gone > 1))
    ) r (rule, times) where times > 0`;
}

/** What the movements of a history come to, by what was done. */
async function ledgerOf(sql: Sql, { parts }: Stage) {
  const [sums] = await sql<Record<'came' | 'cost' | 'issued' | 'returned' | 'scrapped' | 'sentBack', number>[]>`
    select ${piecesOf(sql, 'receive')} as came, coalesce(sum(value_change) filter (where act = 'receive'), 0)::bigint as cost,
      ${piecesOf(sql, 'issue')} as issued, ${piecesOf(sql, 'return')} as returned, ${piecesOf(sql, 'scrap')} as scrapped,
      ${piecesOf(sql, 'send back')} as "sentBack"
    from stock_movement where part_id = any(${parts}::uuid[])`;
  return sums;
}

const piecesOf = (sql: Sql, act: string) => sql`coalesce(sum(abs(on_hand_change)) filter (where act = ${act}), 0)::int`;

/** Pieces and money are those that the answers told, and none came from nowhere or got lost. */
async function expectWhatWasTold(sql: Sql, stage: Stage): Promise<void> {
  const { out, ...told } = stage.told;
  expect(await ledgerOf(sql, stage)).toEqual(told);
  const [shelf] = await sql<{ lying: number; counted: number }[]>`
    select (select coalesce(sum(on_hand), 0)::int from stock_lot where part_id = any(${stage.parts}::uuid[])) as lying,
      coalesce(sum(on_hand_change), 0)::int as counted
    from stock_movement where act = 'adjust' and part_id = any(${stage.parts}::uuid[])`;
  const { came, issued, returned, scrapped, sentBack } = told;
  expect(shelf?.lying).toBe(came - issued + returned - scrapped - sentBack + (shelf?.counted ?? 0));
  const lines = await sql<{ id: string; issued: number }[]>`
    select id, issued from demand_line where part_id = any(${stage.parts}::uuid[]) and issued > 0`;
  expect(new Map(lines.map(({ id, issued }) => [id, issued]))).toEqual(
    new Map([...out].filter(([, count]) => count > 0)),
  );
}

/** Rules of bins, counts and days that are broken in the shop, each with how often. */
async function brokenAround(sql: Sql, { bins, parts }: Stage) {
  return sql<{ rule: string; times: number }[]>`
    with since as (
      -- What moved in a bin since it was closed; what came back from a job may be carried on in the same act.
      select l.id, coalesce(sum(m.on_hand_change) filter (where m.on_hand_change > 0 and m.act not in ('return')), 0) as came,
        coalesce(sum(m.on_hand_change) filter (where m.act in ('return', 'transfer out')), 0) as back
      from bin b join stock_lot l on l.bin_id = b.id join stock_movement m on m.lot_id = l.id and m.moved_at > b.closed_at
      where b.id = any(${bins}::uuid[]) and b.closed_at is not null group by l.id
    ), counted as (
      select c.part_id, sum(s.difference) as off from count_settlement s join count_line c on c.id = s.line_id
      where c.part_id = any(${parts}::uuid[]) group by c.part_id
    ), adjusted as (
      select part_id, sum(on_hand_change) as off from stock_movement
      where part_id = any(${parts}::uuid[]) and act = 'adjust' and reason in ('counted', 'decided') group by part_id
    ), told as (
      select distinct on (purchase_line_id) purchase_line_id, promised_on from purchase_promise order by purchase_line_id, id desc
    )
    select rule, times::int from (values
      ('nothing comes into a closed bin', (select count(*) from since where came > 0 or back > 0)),
      ('a closed bin is on no sheet', (select count(*) from bin b join count_sheet_bin o on o.bin_id = b.id and o.ended_at is null
        where b.closed_at is not null)),
      ('a bin is on one sheet', (select count(*) from (select from count_sheet_bin where ended_at is null group by bin_id having count(*) > 1) t)),
      ('counts settled what the ledger was put right by',
        (select count(*) from counted full join adjusted using (part_id) where coalesce(counted.off, 0) <> coalesce(adjusted.off, 0))),
      ('a bin whose lines are all settled is let go', (select count(*) from count_sheet_bin b where b.ended_at is null
        and exists (select from count_line l where l.sheet_id = b.sheet_id and l.bin_id = b.bin_id)
        and not exists (select from count_line l where l.sheet_id = b.sheet_id and l.bin_id = b.bin_id
          and not exists (select from count_settlement s where s.line_id = l.id)))),
      ('a line comes on the day that was told last',
        (select count(*) from told t join purchase_line l on l.id = t.purchase_line_id where l.promised_on is distinct from t.promised_on)),
      ('each day that was told has its event', (select abs((select count(*) from purchase_promise) - (select count(*) from event where kind = 'purchase.dated'))))
    ) r (rule, times) where times > 0`;
}

/** What must hold at any moment at which nobody is in the middle of something. */
export async function expectInvariants(sql: SqlPool, stage: Stage): Promise<void> {
  await expectBooksToAgree(sql);
  expect([...(await broken(sql, stage)), ...(await brokenAround(sql, stage))]).toEqual([]);
  await expectWhatWasTold(sql, stage);
}
