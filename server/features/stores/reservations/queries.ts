import type { Nanometres } from '#domain/units/quantity.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { lotMarks, servedBy } from '../ledger/queries.ts';

export interface LotToPromise {
  readonly id: string;
  readonly partId: string;
  readonly receivedAt: string;
  readonly onHand: number;
  readonly reserved: number;
  readonly thickness: Nanometres | null;
  readonly grade: string;
  /** Some of it is promised to a reservation that has run out. */
  readonly expired: boolean;
}

/**
 * The lots that can still promise something of what the job has open, locked by id (stock_lot_part): those of the parts
 * it wants and of what replaced them. One that somebody
 * emptied while we waited for its lock falls out, since its row is looked at again then. Used pieces are nobody's by
 * rule: they are taken by hand, by who has read what was measured on them.
 */
export async function lockLotsForJob(
  sql: Sql,
  of: { readonly jobId: string; readonly lineIds: readonly string[] | undefined },
): Promise<readonly LotToPromise[]> {
  return sql<LotToPromise[]>`
    select l.id, l.part_id as "partId", l.received_at as "receivedAt", l.on_hand as "onHand", l.reserved,
           ${lotMarks(sql)},
           exists (select from reservation r where r.lot_id = l.id and r.quantity > 0 and r.expires_at <= clock_timestamp()) as expired
    from stock_lot l join part p on p.id = l.part_id
    where l.part_id in (
        select s.part_id from demand_line d join part p on p.id = d.part_id cross join unnest(${servedBy(sql)}) s (part_id)
        where d.job_id = ${of.jobId} and d.not_asked + d.short > 0
          and (${of.lineIds ?? null}::uuid[] is null or d.id = any(${of.lineIds ?? null}::uuid[])))
      and l.on_hand > 0 and not l.used
      and (l.on_hand > l.reserved
           or exists (select from reservation r where r.lot_id = l.id and r.quantity > 0 and r.expires_at <= clock_timestamp()))
    order by l.id for no key update of l`;
}

/** These lots, locked by id, with the number of their part. */
export async function lockLots(
  sql: Sql,
  lotIds: readonly string[],
): Promise<
  readonly { readonly id: string; readonly number: string; readonly onHand: number; readonly reserved: number }[]
> {
  return sql<{ id: string; number: string; onHand: number; reserved: number }[]>`
    select l.id, p.number, l.on_hand as "onHand", l.reserved
    from stock_lot l join part p on p.id = l.part_id
    where l.id = any(${lotIds}::uuid[]) order by l.id for no key update of l`;
}

/** What these lines hold already lasts as long as the newest asking says; what was firm stays firm. */
export async function prolongHolds(sql: Sql, lineIds: readonly string[], expiresAt: string | undefined): Promise<void> {
  await sql`
    update reservation set expires_at = ${expiresAt ?? null}::timestamptz
    where demand_line_id = any(${lineIds}::uuid[]) and quantity > 0 and expires_at is not null`;
}

export interface ChosenLot {
  readonly id: string;
  readonly partId: string;
  readonly number: string;
  readonly name: string;
  readonly code: string;
  readonly used: boolean;
  readonly condition: string;
  readonly onHand: number;
  readonly reserved: number;
  readonly thickness: number | null;
  readonly grade: string;
}

/** A lot that somebody chose by hand, locked already with those of the line. */
export async function lockChosenLot(sql: Sql, lotId: string): Promise<ChosenLot | undefined> {
  const [lot] = await sql<ChosenLot[]>`
    select l.id, l.part_id as "partId", p.number, p.name, l.code, l.used, l.condition, l.on_hand as "onHand", l.reserved,
      ${lotMarks(sql)}
    from stock_lot l join part p on p.id = l.part_id where l.id = ${lotId} for no key update of l`;
  return lot;
}

/** Somebody took, of a lot that does not meet the line's rule in force, so many, and said why. */
export async function insertAgainstRule(
  sql: Sql,
  taken: {
    readonly demandLineId: string;
    readonly lotId: string;
    readonly quantity: number;
    readonly reason: string;
    readonly byId: string;
  },
): Promise<void> {
  await sql`
    insert into lot_against_rule (id, demand_line_id, lot_id, rule_id, quantity, reason, taken_by_id)
    select ${newId()}, d.id, ${taken.lotId}, d.lot_rule_id, ${taken.quantity}, ${taken.reason}, ${taken.byId}
    from demand_line d where d.id = ${taken.demandLineId}`;
}

export interface LineToReassign {
  readonly id: string;
  readonly jobId: string;
  readonly jobNumber: number;
  readonly engineId: string;
  readonly number: string;
  readonly name: string;
}

/**
 * A line and, of another job, those that want the same part, or may be served by what is reserved for it: the same part
 * first.
 */
export async function findReassigned(
  sql: Sql,
  of: { readonly lineId: string; readonly toJobId: string },
): Promise<readonly LineToReassign[]> {
  return sql<LineToReassign[]>`
    select d.id, d.job_id as "jobId", j.number as "jobNumber", j.engine_id as "engineId", p.number, p.name
    from demand_line g join demand_line d on d.id = g.id or d.job_id = ${of.toJobId}
      join job j on j.id = d.job_id join part p on p.id = d.part_id
    where g.id = ${of.lineId} and (d.part_id = g.part_id or exists (
      select from reservation r join stock_lot l on l.id = r.lot_id
      where r.demand_line_id = g.id and r.quantity > 0 and l.part_id = any(${servedBy(sql)})))
    order by d.part_id <> g.part_id, d.not_asked + d.short = 0, p.number`;
}

export async function insertReassignment(
  sql: Sql,
  of: {
    readonly from: string;
    readonly to: string;
    readonly quantity: number;
    readonly reason: string;
    readonly byId: string;
  },
): Promise<void> {
  await sql`
    insert into reassignment (id, from_line_id, to_line_id, quantity, reason, decided_by_id)
    values (${newId()}, ${of.from}, ${of.to}, ${of.quantity}, ${of.reason}, ${of.byId})`;
}
