import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { SESSION_COOKIE } from '#platform/identity/sessions.ts';
import type { BenchShop } from './bench-shop.ts';
import { type Figure, median, timed } from './figures.ts';
import { bareReservation } from './reservation.ts';

const CLERKS = 8;
const KITS = 12;
const LINES = 25;
const TURNS = 25;

export interface ClientsOf {
  readonly address: string;
  readonly cookie: string;
}
export interface Asked {
  /** Of each clerk, the jobs whose kits to reserve, one after another. */
  readonly clerks: readonly (readonly string[])[];
}
interface Job {
  readonly jobId: string;
  readonly engineId: string;
}

/** Every clerk has parts of their own, so that nobody waits for a lot: what is measured is work, not queueing. */
async function jobsWithKits({ sql, actor }: BenchShop): Promise<readonly (readonly Job[])[]> {
  await sql.unsafe(`
    create temp table kit_parts as select clerk, gen_random_uuid() as part_id, gen_random_uuid() as lot_id, 'RATE-' || clerk || '-' || n as number
      from generate_series(1, ${CLERKS}) clerk, generate_series(1, ${LINES}) n;
    insert into part (id, number, name) select part_id, number, 'Part ' || number from kit_parts;
    insert into stock_lot (id, part_id, bin_id) select lot_id, part_id, (select id from bin where closed_at is null limit 1) from kit_parts;
    insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, value_change, moved_by_id)
      select gen_random_uuid(), lot_id, 'receive', 10000, 0, 5000000, '${actor.id}' from kit_parts;
    create temp table kit_jobs as select clerk, n, gen_random_uuid() as engine_id, gen_random_uuid() as job_id
      from generate_series(1, ${CLERKS}) clerk, generate_series(1, ${KITS}) n;
    insert into engine (id, serial, family_id, owner_id) select k.engine_id, 'RATE-' || k.clerk || '-' || k.n, e.family_id, e.owner_id
      from kit_jobs k, (select family_id, owner_id from engine limit 1) e;
    insert into job (id, number, engine_id, revision_id, running_minutes, complaint, taken_in_by_id)
      select k.job_id, 900000 + row_number() over (), k.engine_id, j.revision_id, 0, 'Bench', '${actor.id}'
      from kit_jobs k, (select revision_id from job limit 1) j;
    insert into demand_line (id, job_id, part_id, wanted, not_asked, added_by_id)
      select gen_random_uuid(), k.job_id, p.part_id, 1, 1, '${actor.id}' from kit_jobs k join kit_parts p on p.clerk = k.clerk;
    analyze;`);
  const rows = await sql<(Job & { clerk: number })[]>`
    select clerk, job_id as "jobId", engine_id as "engineId" from kit_jobs order by clerk, n`;
  return Array.from({ length: CLERKS }, (_, at) => rows.filter(({ clerk }) => clerk === at + 1));
}

/** Gives all of it back by the ledger, so that every turn finds the same shelves. Not timed. */
async function giveBack(sql: BenchShop['sql'], byId: string): Promise<void> {
  await sql.begin(async (transaction) => {
    await transaction`
      insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, job_id, moved_by_id)
      select gen_random_uuid(), r.lot_id, 'release', 0, -r.quantity, d.job_id, ${byId}
      from reservation r join demand_line d on d.id = r.demand_line_id join kit_jobs k on k.job_id = d.job_id where r.quantity > 0`;
    await transaction`
      delete from reservation r using demand_line d, kit_jobs k where d.id = r.demand_line_id and k.job_id = d.job_id`;
    await transaction`
      update demand_line d set not_asked = 1, reserved = 0 from kit_jobs k where k.job_id = d.job_id and d.reserved > 0`;
  });
  await sql`vacuum reservation, demand_line, stock_lot`;
}

/**
 * Kits a second: eight clerks over HTTP against the same statements driven directly by eight connections, in turns on the
 * same PostgreSQL; the ratio is the median of the ratios of the turns.
 */
export async function kitRate(shop: BenchShop, direct: BenchShop['sql']): Promise<readonly Figure[]> {
  const clerks = await jobsWithKits(shop);
  const of: ClientsOf = { address: shop.address, cookie: `${SESSION_COOKIE}=${shop.token}` };
  const clients = fork(fileURLToPath(new URL('./kit-rate-clients.ts', import.meta.url)), [JSON.stringify(of)]);
  const left = new Promise<never>((_, reject) => {
    clients.once('exit', (code) => reject(new Error(`the clerks left with exit code ${code}`)));
  });
  const overHttp = () => {
    const answer = new Promise<number>((resolve) => {
      clients.once('message', (milliseconds) => resolve(Number(milliseconds)));
    });
    clients.send({ clerks: clerks.map((jobs) => jobs.map(({ jobId }) => jobId)) } satisfies Asked);
    return Promise.race([answer, left]);
  };
  const directly = () =>
    timed(() =>
      Promise.all(
        clerks.map(async (jobs) => {
          for (const job of jobs) await bareReservation({ ...shop, sql: direct }, job);
        }),
      ),
    );
  const turns: { http: number; bare: number }[] = [];
  try {
    for (let turn = -3; turn < TURNS; turn += 1) {
      await giveBack(shop.sql, shop.actor.id);
      const http = await overHttp();
      await giveBack(shop.sql, shop.actor.id);
      const bare = await directly();
      if (turn >= 0) turns.push({ http, bare });
    }
  } finally {
    clients.removeAllListeners('exit');
    clients.kill();
  }
  const rate = (milliseconds: readonly number[]) => (CLERKS * KITS * 1000) / median(milliseconds);
  return [
    { name: 'kit-reservation.rate.http', value: rate(turns.map(({ http }) => http)), unit: '/s' },
    { name: 'kit-reservation.rate.bare', value: rate(turns.map(({ bare }) => bare)), unit: '/s' },
    { name: 'kit-reservation.rate.ratio', value: median(turns.map(({ http, bare }) => bare / http)), unit: '' },
  ];
}
