import type { JobName } from '#contracts/parts.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { isLike, jobName } from '../ledger/queries.ts';

export interface LotToMove {
  readonly id: string;
  readonly partId: string;
  readonly number: string;
  readonly name: string;
  readonly binId: string;
  readonly bin: string;
  readonly binClosed: boolean;
  readonly code: string;
  readonly shimNm: number | null;
  /** Nominal thickness of its part, of shims. */
  readonly nominalNm: number | null;
  readonly grade: string;
  readonly partGrade: string;
  readonly serial: string | null;
  readonly used: boolean;
  readonly condition: string;
  readonly receivedAt: string;
  readonly onHand: number;
  readonly reserved: number;
}

const lotColumns = (sql: Sql) => sql`
  l.id, l.part_id as "partId", p.number, p.name, l.bin_id as "binId", b.code as bin, b.closed_at is not null as "binClosed",
  l.code, l.shim_nm as "shimNm", p.shim_nm as "nominalNm", l.grade, p.grade as "partGrade", l.serial, l.used, l.condition, l.received_at as "receivedAt", l.on_hand as "onHand", l.reserved`;

export async function lockLot(sql: Sql, id: string): Promise<LotToMove | undefined> {
  const [lot] = await sql<LotToMove[]>`
    select ${lotColumns(sql)} from stock_lot l join part p on p.id = l.part_id join bin b on b.id = l.bin_id
    where l.id = ${id} for no key update of l`;
  return lot;
}

/** Several lots, locked by id. */
export async function lockLots(sql: Sql, ids: readonly string[]): Promise<readonly LotToMove[]> {
  return sql<LotToMove[]>`
    select ${lotColumns(sql)} from stock_lot l join part p on p.id = l.part_id join bin b on b.id = l.bin_id
    where l.id = any(${ids}::uuid[]) order by l.id for no key update of l`;
}

/** Engines whose jobs have pieces of these lots promised, locked by id. */
export async function lockEnginesWithPromises(sql: Sql, lotIds: readonly string[]): Promise<readonly string[]> {
  const engines = await sql<{ id: string }[]>`
    select e.id from engine e where e.id in (
      select j.engine_id from reservation r join demand_line d on d.id = r.demand_line_id join job j on j.id = d.job_id
      where r.lot_id = any(${lotIds}::uuid[]) and r.quantity > 0)
    order by e.id for update`;
  return engines.map(({ id }) => id);
}

/** The sheet on which the lot's bin is being counted now. */
export async function findSheetOfLot(sql: Sql, lotId: string) {
  const [sheet] = await sql<{ number: number; counter: string }[]>`
    select s.number, p.name as counter
    from stock_lot l join count_sheet_bin b on b.bin_id = l.bin_id and b.ended_at is null join count_sheet s on s.id = b.sheet_id
      join count_round r on r.sheet_id = s.id join person p on p.id = r.counter_id
    where l.id = ${lotId} order by r.round desc limit 1`;
  return sheet;
}

/** Of a lot, its like in another bin. */
export async function findLike(sql: Sql, lotId: string, binId: string): Promise<string | undefined> {
  const [like] = await sql<{ id: string }[]>`
    select t.id from stock_lot s join stock_lot t on ${isLike(sql)} where s.id = ${lotId} and t.bin_id = ${binId} order by t.id limit 1`;
  return like?.id;
}

/** A bin that something is laid into: nobody closes it until that is done. */
export async function lockBin(sql: Sql, id: string) {
  const [bin] = await sql<{ id: string; code: string; closed: boolean }[]>`
    select id, code, closed_at is not null as closed from bin where id = ${id} for share`;
  return bin;
}

export interface NewLot {
  readonly partId: string;
  readonly binId: string;
  readonly code: string;
  readonly shimNm: number | null;
  /** Its own mark; empty: it is of its part's grade. */
  readonly grade?: string;
  readonly serial?: string | null;
  readonly used?: boolean;
  /** Of used pieces: what was measured on them. */
  readonly condition?: string;
  /** When its pieces came in; now, when left out. */
  readonly receivedAt?: string;
}

export async function insertLot(sql: Sql, lot: NewLot): Promise<string> {
  const id = newId();
  await sql`
    insert into stock_lot (id, part_id, bin_id, code, shim_nm, grade, serial, used, condition, received_at)
    values (${id}, ${lot.partId}, ${lot.binId}, ${lot.code}, ${lot.shimNm}, ${lot.grade ?? ''},
            ${lot.serial ?? null}, ${lot.used ?? false}, ${lot.condition ?? ''},
            coalesce(${lot.receivedAt ?? null}::timestamptz, clock_timestamp()))`;
  return id;
}

export async function insertMarkCorrection(
  sql: Sql,
  to: {
    readonly lot: LotToMove;
    readonly shimNm: number | null;
    readonly grade: string;
    readonly reason: string;
    readonly byId: string;
  },
): Promise<void> {
  const { lot } = to;
  await sql`
    insert into lot_mark_correction (id, lot_id, was_shim_nm, was_grade, shim_nm, grade, reason, corrected_by_id)
    values (${newId()}, ${lot.id}, ${lot.shimNm}, ${lot.grade}, ${to.shimNm}, ${to.grade}, ${to.reason}, ${to.byId})`;
}

export interface PromiseOfLot {
  readonly id: string;
  readonly demandLineId: string;
  readonly jobId: string;
  readonly count: number;
  readonly promised: string | null;
  /** Until when it is held for the owner's yes; null: firm. */
  readonly until: string | null;
  readonly job: JobName;
}

/** Who has pieces of a locked lot promised, and which day their job is promised for. */
export const findPromisesOfLot = (sql: Sql, lotId: string): Promise<readonly PromiseOfLot[]> =>
  findPromisesOfLots(sql, [lotId]);

export async function findPromisesOfLots(sql: Sql, lotIds: readonly string[]): Promise<readonly PromiseOfLot[]> {
  return sql<PromiseOfLot[]>`
    select r.id, r.demand_line_id as "demandLineId", d.job_id as "jobId", r.quantity as count, jp.ready_on as promised, r.expires_at as until,
           ${jobName(sql)} as job
    from reservation r join demand_line d on d.id = r.demand_line_id join job j on j.id = d.job_id
      left join job_promise jp on jp.job_id = d.job_id
    where r.lot_id = any(${lotIds}::uuid[]) and r.quantity > 0`;
}
