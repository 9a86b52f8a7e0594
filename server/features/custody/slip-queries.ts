import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface OutsideCount {
  /** Null: the thing itself. */
  readonly pieceId: string | null;
  readonly name: string;
  readonly expected: number;
  readonly counted: number;
}

/** Keeps what was counted as something left for a vendor, or came back. */
export async function insertOutsideCounts(
  sql: Sql,
  of: { outsideWorkId: string; direction: 'out' | 'back'; lines: readonly OutsideCount[]; byId: string },
): Promise<void> {
  for (const { pieceId, name, expected, counted } of of.lines) {
    await sql`
      insert into outside_count (id, outside_work_id, direction, piece_id, name, expected, counted, counted_by_id)
      values (${newId()}, ${of.outsideWorkId}, ${of.direction}, ${pieceId}, ${name}, ${expected}, ${counted}, ${of.byId})`;
  }
}

export interface SlipRow {
  readonly id: string;
  readonly jobId: string;
  readonly number: string;
  readonly jobNumber: number;
  readonly vendorId: string;
  readonly vendor: string;
  readonly trade: string;
  readonly contact: string;
  readonly engineId: string;
  readonly serial: string;
  readonly family: string;
  readonly cycle: 'four-stroke' | 'two-stroke';
  readonly cooling: 'water' | 'air';
  readonly trayId: string | null;
  readonly subjectName: string;
  readonly subjectWords: string;
  readonly layer: 'cover' | 'head' | 'cylinder' | 'case' | null;
  readonly work: string;
  readonly dueOn: string | null;
  readonly sentAt: string;
  readonly sentById: string;
  readonly sentBy: string;
  readonly backAt: string | null;
  readonly backById: string | null;
  readonly backBy: string | null;
  readonly daysLate: number;
}

const slips = (sql: Sql) => sql`
  select w.id, w.job_id as "jobId", j.number as "jobNumber",
         j.number || '/' || (select count(*) from outside_work o where o.job_id = w.job_id and (o.sent_at, o.id) <= (w.sent_at, w.id)) as number,
         v.id as "vendorId", v.name as vendor, v.trade, v.contact, e.id as "engineId", e.serial, f.name as family, f.cycle, f.cooling,
         w.tray_id as "trayId", coalesce(t.label, e.serial) as "subjectName", coalesce(t.name, 'The engine') as "subjectWords", t.layer,
         w.work, w.due_on as "dueOn", w.sent_at as "sentAt", s.id as "sentById", s.name as "sentBy",
         w.back_at as "backAt", b.id as "backById", b.name as "backBy",
         greatest(0, coalesce((coalesce(w.back_at, clock_timestamp()) at time zone shop.zone)::date - w.due_on, 0)) as "daysLate"
  from outside_work w
  join job j on j.id = w.job_id join engine e on e.id = j.engine_id join family f on f.id = e.family_id
  join vendor v on v.id = w.vendor_id join person s on s.id = w.sent_by_id
  left join person b on b.id = w.back_by_id left join tray t on t.id = w.tray_id
  cross join shop`;

export async function findSlip(sql: Sql, id: string): Promise<SlipRow | undefined> {
  const [row] = await sql<SlipRow[]>`${slips(sql)} where w.id = ${id}`;
  return row;
}

/** What is away now, the latest first (index outside_work_away). */
export async function findSlipsAway(sql: Sql): Promise<readonly SlipRow[]> {
  return sql<SlipRow[]>`${slips(sql)} where w.back_at is null order by w.due_on nulls last, w.sent_at, w.id limit 500`;
}

/** What was counted of each piece, out and back. */
export async function findSlipLines(sql: Sql, id: string) {
  return sql<{ pieceId: string | null; name: string; out: number | null; back: number | null }[]>`
    select piece_id as "pieceId", name, max(counted) filter (where direction = 'out') as out, max(counted) filter (where direction = 'back') as back
    from outside_count where outside_work_id = ${id} group by piece_id, name order by min(counted_at), min(id::text)`;
}
