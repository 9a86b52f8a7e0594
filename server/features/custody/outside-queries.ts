import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export async function findVendor(sql: Sql, id: string) {
  const [vendor] = await sql<{ id: string; name: string }[]>`
    select id, name from vendor where id = ${id} and retired_at is null`;
  return vendor;
}

/** The day it is in the shop. */
export async function findToday(sql: Sql): Promise<string | undefined> {
  const [shop] = await sql<{ today: string }[]>`select shop_today() as today`;
  return shop?.today;
}

export interface NewOutsideWork {
  readonly jobId: string;
  readonly trayId: string | null;
  readonly engineId: string | null;
  readonly vendorId: string;
  readonly work: string;
  readonly dueOn: string;
  readonly sentById: string;
}

export async function insertOutsideWork(sql: Sql, of: NewOutsideWork): Promise<string> {
  const id = newId();
  await sql`
    insert into outside_work (id, job_id, tray_id, engine_id, vendor_id, work, due_on, sent_by_id)
    values (${id}, ${of.jobId}, ${of.trayId}, ${of.engineId}, ${of.vendorId}, ${of.work}, ${of.dueOn}, ${of.sentById})`;
  return id;
}

export interface OutsideWorkRow {
  readonly id: string;
  readonly jobId: string;
  readonly jobEngineId: string;
  readonly trayId: string | null;
  readonly engineId: string | null;
  readonly subjectName: string;
  readonly vendorId: string;
  readonly vendor: string;
  readonly work: string;
  readonly dueOn: string | null;
  readonly sentAt: string;
  readonly sentById: string;
  readonly sentBy: string;
  readonly backAt: string | null;
  readonly backById: string | null;
  readonly backBy: string | null;
}

const works = (sql: Sql) => sql`
  select w.id, w.job_id as "jobId", j.engine_id as "jobEngineId", w.tray_id as "trayId", w.engine_id as "engineId",
         coalesce(t.label, e.serial) as "subjectName", w.vendor_id as "vendorId", v.name as vendor, w.work, w.due_on as "dueOn",
         w.sent_at as "sentAt", w.sent_by_id as "sentById", s.name as "sentBy", w.back_at as "backAt",
         w.back_by_id as "backById", b.name as "backBy"
  from outside_work w
  join job j on j.id = w.job_id
  join vendor v on v.id = w.vendor_id
  join person s on s.id = w.sent_by_id
  left join person b on b.id = w.back_by_id
  left join tray t on t.id = w.tray_id
  left join engine e on e.id = w.engine_id`;

export async function findOutsideWorks(sql: Sql, jobId: string): Promise<readonly OutsideWorkRow[]> {
  return sql<OutsideWorkRow[]>`${works(sql)} where w.job_id = ${jobId} order by w.sent_at, w.id`;
}

export async function findOutsideWork(sql: Sql, id: string): Promise<OutsideWorkRow | undefined> {
  const [row] = await sql<OutsideWorkRow[]>`${works(sql)} where w.id = ${id}`;
  return row;
}

export async function endOutsideWork(sql: Sql, of: { id: string; byId: string }): Promise<void> {
  await sql`update outside_work set back_at = clock_timestamp(), back_by_id = ${of.byId} where id = ${of.id} and back_at is null`;
}
