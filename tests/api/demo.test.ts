import { createHash } from 'node:crypto';
import { verify } from '@node-rs/argon2';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { auditStock } from '#features/stores/audit/service.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { latestAnchor } from '../../prisma/demo/clock.ts';
import { beginEmptyShopIfNew, loadDemoIfEmpty } from '../../prisma/demo/load.ts';
import { demoPeople } from '../../prisma/demo/people.ts';
import { cloneDatabase, demoAnchor, type TestDatabase } from '../support/database.ts';

let shop: TestDatabase;
let sql: SqlPool;
let told: readonly string[] | undefined;

beforeAll(async () => {
  shop = await cloneDatabase();
  sql = shop.db.sql;
  told = await loadDemoIfEmpty(shop.db, { anchor: demoAnchor, loopback: true });
}, 240_000);
afterAll(() => shop.drop());

async function count(query: string): Promise<number> {
  const [row] = await sql.unsafe<{ count: number }[]>(`select count(*)::int as count from ${query}`);
  return row?.count ?? -1;
}

async function texts(query: string): Promise<readonly string[]> {
  const rows = await sql.unsafe<{ text: string }[]>(query);
  return rows.map(({ text }) => text);
}

/** Every row of every table, less what PostgreSQL itself numbers the writing transaction by. */
async function digest(of: SqlPool): Promise<ReadonlyMap<string, string>> {
  const tables = await of<{ name: string }[]>`
    select tablename as name from pg_tables where schemaname = 'public' and tablename <> '_prisma_migrations' order by 1`;
  const digests = new Map<string, string>();
  for (const { name } of tables) {
    const rows = await of.unsafe<{ row: string }[]>(
      `select (to_jsonb(t) - 'horizon')::text as row from "${name}" t order by 1`,
    );
    digests.set(
      name,
      createHash('sha256')
        .update(rows.map(({ row }) => row).join('\n'))
        .digest('hex'),
    );
  }
  return digests;
}

describe('what the demo shop holds', () => {
  it('has at least twelve engines in the shop, in every bay, on the rack and outside', async () => {
    expect(await count('job where handed_back_at is null')).toBeGreaterThanOrEqual(12);
    const held = await texts(`
      select distinct coalesce(b.kind, 'outside') as text from job j
      join custody c on c.engine_id = j.engine_id and c.until_at is null left join bay b on b.id = c.place_id
      where j.handed_back_at is null order by 1`);
    expect(held).toEqual(['assembly', 'head bench', 'measuring', 'outside', 'rack', 'run-up', 'strip', 'wash']);
  });

  it('stocks 150 parts in 400 lots and has two years of visits behind it', async () => {
    expect(await count('part')).toBeGreaterThanOrEqual(150);
    expect(await count('stock_lot')).toBeGreaterThanOrEqual(400);
    expect(await count('job where handed_back_at is not null')).toBeGreaterThanOrEqual(40);
    expect(await count(`job where taken_in_at < date '${demoAnchor}' - 690`)).toBeGreaterThan(0);
  });

  it('has counted bins for half a year, missed a piece twice, waits for a recount, and has bins that nobody ever counted', async () => {
    expect(await count(`count_settlement where how = 'right'`)).toBeGreaterThanOrEqual(20);
    expect(await count(`count_settlement where how = 'decided' and difference = -1 and value_minor < 0`)).toBe(2);
    expect(await count('count_sheet_bin where ended_at is null')).toBe(1);
    expect(await count('bin b where not exists (select from count_sheet_bin c where c.bin_id = b.id)')).toBeGreaterThan(
      5,
    );
  });

  it('shows every verdict among the findings that stand of engines in the shop', async () => {
    const verdicts = await texts(`
      select distinct f.verdict as text from finding_standing f join job j on j.id = f.job_id
      where j.handed_back_at is null order by 1`);
    expect(verdicts).toEqual(['past the limit', 'undecided', 'within service limit', 'within standard']);
  });

  it('shows every kind of wait, and none of a job that was handed back', async () => {
    expect(await texts('select distinct waits_for as text from job_wait order by 1')).toEqual([
      'bay',
      'decision',
      'outside',
      'parts',
      'person',
      'yes',
    ]);
    expect(await count('job_wait w join job j on j.id = w.job_id where j.handed_back_at is not null')).toBe(0);
  });

  it('cannot tell whether the bore of H355-0417 is past its limit', async () => {
    const [finding] = await sql<{ verdict: string; value: number; limit: number }[]>`
      select f.verdict, f.value_high / 1e6 as value, f.nearest_limit / 1e6 as limit from finding_standing f
      join job j on j.id = f.job_id join engine e on e.id = f.engine_id
      where e.serial = 'H355-0417' and j.handed_back_at is null and f.dimension_code = 'bore'`;
    expect(finding?.verdict).toBe('undecided');
    expect(finding?.value).toBeCloseTo(88.048, 2);
    expect(finding?.limit).toBeCloseTo(88.05, 6);
  });

  it('has several engines with three bore readings and more on one cylinder, so that wear can be told', async () => {
    expect(
      await count(`(
        select f.fitted_part_id from finding_standing f where f.dimension_code = 'bore' and f.round = 'as received'
        group by 1 having count(distinct f.running_minutes) >= 3) as lines`),
    ).toBeGreaterThanOrEqual(4);
  });

  it('has a bottom end half together: pieces back, sets pulled, readings taken, a step skipped with its reason, interrupted', async () => {
    const [run] = await sql<Record<string, number | string>[]>`
      select e.serial,
             (select count(*)::int from step_mark_now m where m.run_id = r.id and m.mark = 'done') as done,
             (select count(*)::int from step_mark_now m where m.run_id = r.id and m.mark = 'second person') as seconds,
             (select m.reason from step_mark_now m where m.run_id = r.id and m.mark = 'skipped') as skipped,
             (select count(distinct t.set_code)::int from torque_pull t where t.job_id = j.id) as sets,
             (select count(*)::int from reading d where d.job_id = j.id and d.round = 'as built') > 4 as measured,
             (select count(*)::int from piece_movement m join piece p on p.id = m.piece_id join opening o on o.id = p.opening_id
              where o.job_id = j.id and m.act in ('fitted', 'renewed')) as back,
             (select s.title from run_interruption i join procedure_step s on s.id = i.step_id where i.run_id = r.id) as stands
      from procedure_run r join job j on j.id = r.job_id and j.handed_back_at is null join engine e on e.id = j.engine_id
      join procedure_version n on n.id = r.version_id join procedure p on p.id = n.procedure_id and p.code like '%-BOTTOM'`;
    expect(run).toMatchObject({
      serial: 'H355-0310',
      skipped: expect.stringMatching(/Hetty/),
      measured: true,
      sets: 4,
      stands: 'Oil pump on, primed',
    });
    expect(Number(run?.done)).toBeGreaterThan(12);
    expect(Number(run?.seconds)).toBeGreaterThanOrEqual(3);
    expect(Number(run?.back)).toBeGreaterThan(20);
  });

  it('marks every sheet as invented, and every one is published', async () => {
    expect(await count('spec_revision where not figures_invented or published_at is null')).toBe(0);
    expect(await count('shop where figures_invented')).toBe(1);
  });
});

describe('the rules hold in the demo', () => {
  it('a bore’s nominal lies in its standard range, and its largest oversize is still possible', async () => {
    const rows = await sql<{ nominal: number; span: number; low: number; high: number; largest: number }[]>`
      select d.nominal, d.plausible_span as span, s.standard_low as low, s.standard_high as high,
             (select max(l.standard_high) from spec_limit l where l.dimension_id = d.id) as largest
      from spec_dimension d join spec_limit s on s.dimension_id = d.id and s.size_class = 'standard' where d.code = 'bore'`;
    expect(rows.length).toBeGreaterThan(2);
    for (const { nominal, span, low, high, largest } of rows) {
      expect(low <= nominal && nominal <= high).toBe(true);
      expect(nominal + span).toBeGreaterThan(largest);
    }
  });

  it('has balances that the ledger made', async () => {
    expect((await auditStock(sql)).differences).toEqual([]);
  });

  it('never has less than nothing in a lot, at any time', async () => {
    const below = await count(`(
      select sum(on_hand_change) over w as on_hand, sum(reserved_change) over w as reserved from stock_movement
      window w as (partition by lot_id order by moved_at, id)) as run where on_hand < 0 or reserved < 0 or reserved > on_hand`);
    expect(below).toBe(0);
  });

  it('leaves no gap in custody, and nothing unheld', async () => {
    const gaps = await count(`custody c where until_at is not null
      and not exists (select from custody n where n.from_at = c.until_at and (n.engine_id = c.engine_id or n.tray_id = c.tray_id))
      and not exists (select from tray t where t.id = c.tray_id and t.emptied_at = c.until_at)`);
    expect(gaps).toBe(0);
    const unheld = await count(`engine e where exists (select from job j where j.engine_id = e.id)
      and not exists (select from custody c where c.engine_id = e.id and c.until_at is null)`);
    expect(unheld).toBe(0);
  });

  it('never had more engines in a bay than it takes', async () => {
    const crowded = await count(`(
      select c.id from custody c join bay b on b.id = c.place_id
      join custody o on o.place_id = c.place_id and o.engine_id is not null and tstzrange(o.from_at, o.until_at) @> c.from_at
      where c.engine_id is not null group by c.id, b.capacity having count(*) > b.capacity) as crowded`);
    expect(crowded).toBe(0);
  });

  it('handed nothing back with an obligation open, an opening open or a proof unsigned', async () => {
    const past = 'job j on j.id = x.job_id and j.handed_back_at is not null';
    expect(await count(`obligation x join ${past} where x.discharged_at is null`)).toBe(0);
    expect(await count(`opening x join ${past} where x.closed_at is null`)).toBe(0);
    expect(await count(`proof x join ${past} where not exists (select from sign_off s where s.proof_id = x.id)`)).toBe(
      0,
    );
    expect(
      await count(
        `piece p join opening x on x.id = p.opening_id join ${past} where p.off <> p.fitted + p.renewed + p.accounted`,
      ),
    ).toBe(0);
  });

  it('numbers the events of each engine without a hole, and knows nothing of the future', async () => {
    const holes = await count(`engine e where e.event_count <> (select count(*) from event v where v.engine_id = e.id)
      or e.event_count <> (select coalesce(max(engine_number), 0) from event v where v.engine_id = e.id)`);
    expect(holes).toBe(0);
    const columns = await sql<{ table: string; column: string }[]>`
      select c.table_name as table, c.column_name as column from information_schema.columns c join pg_tables t on t.tablename = c.table_name
      where c.table_schema = 'public' and c.data_type = 'timestamp with time zone' and c.table_name <> '_prisma_migrations'
        and c.column_name not in ('expires_at')`;
    const late: string[] = [];
    for (const { table, column } of columns) {
      if ((await count(`"${table}" where "${column}" > timestamptz '${demoAnchor} 10:42 Europe/Amsterdam'`)) > 0)
        late.push(`${table}.${column}`);
    }
    expect(late).toEqual([]);
  });
});

describe('loading it', () => {
  it('tells the PINs, and they open the door', async () => {
    const rows = await sql<{ name: string; pinHash: string }[]>`select name, pin_hash as "pinHash" from person`;
    expect(rows).toHaveLength(7);
    for (const { name, pin } of demoPeople) {
      expect(told?.some((line) => line.includes(name) && line.includes(pin))).toBe(true);
      expect(await verify(rows.find((row) => row.name === name)?.pinHash ?? '', pin)).toBe(true);
    }
  });

  it('loads only into an empty database', async () => {
    const before = await digest(sql);
    await loadDemoIfEmpty(shop.db, { anchor: '2026-11-26', loopback: true });
    expect(await beginEmptyShopIfNew(shop.db)).toBeUndefined();
    expect(await digest(sql)).toEqual(before);
  });

  it('makes the same rows of the same anchor, byte for byte, and other days of another', async () => {
    const [again, later] = await Promise.all([cloneDatabase(), cloneDatabase()]);
    try {
      await loadDemoIfEmpty(again.db, { anchor: demoAnchor, loopback: true });
      const first = await digest(sql);
      expect(await digest(again.db.sql)).toEqual(first);
      await loadDemoIfEmpty(later.db, { anchor: '2026-12-02', loopback: true });
      const shifted = await digest(later.db.sql);
      expect(
        [...first.keys()].filter((table) => shifted.get(table) === first.get(table) && table !== 'idempotency_key'),
      ).not.toContain('event');
      const [then] = await later.db.sql<{ day: string }[]>`select max(happened_at)::date as day from event`;
      expect(then?.day).toBe('2026-12-02');
    } finally {
      await Promise.all([again.drop(), later.drop()]);
    }
  }, 240_000);

  it('makes up new PINs where others can reach the service', async () => {
    const open = await cloneDatabase();
    try {
      const lines = await loadDemoIfEmpty(open.db, { anchor: demoAnchor, loopback: false });
      const pins = (lines ?? []).flatMap((line) => /\b\d{6}\b/.exec(line)?.[0] ?? []);
      expect(new Set(pins).size).toBe(7);
      const [nadia] = await open.db.sql<
        { pinHash: string }[]
      >`select pin_hash as "pinHash" from person where name = 'Nadia Quill'`;
      expect(await verify(nadia?.pinHash ?? '', demoPeople.find(({ key }) => key === 'nadia')?.pin ?? '')).toBe(false);
    } finally {
      await open.drop();
    }
  }, 240_000);

  it('begins an empty shop with one lead when no demo is wanted', async () => {
    const empty = await cloneDatabase();
    try {
      const [line] = (await beginEmptyShopIfNew(empty.db)) ?? [];
      const pin = /PIN (\d+)/.exec(line ?? '')?.[1] ?? '';
      const people = await empty.db.sql<{ pinHash: string; role: string }[]>`
        select p.pin_hash as "pinHash", r.role from person p join person_role r on r.person_id = p.id`;
      expect(people.map(({ role }) => role)).toEqual(['lead']);
      expect(await verify(people[0]?.pinHash ?? '', pin)).toBe(true);
      expect(await loadDemoIfEmpty(empty.db, { anchor: demoAnchor, loopback: true })).toBeUndefined();
    } finally {
      await empty.drop();
    }
  });

  it('takes the latest day whose last demo minute is past', () => {
    expect(latestAnchor(new Date('2026-11-25T09:41:00Z'))).toBe('2026-11-24');
    expect(latestAnchor(new Date('2026-11-25T09:43:00Z'))).toBe('2026-11-25');
    expect(latestAnchor(new Date('2026-07-01T08:43:00Z'))).toBe('2026-07-01');
  });
});
