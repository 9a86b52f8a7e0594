import type { Nanometres } from '#domain/units/quantity.ts';
import type { Sql } from '#platform/database/client.ts';

export interface LotToPromise {
  readonly id: string;
  readonly partId: string;
  readonly receivedAt: string;
  readonly onHand: number;
  readonly reserved: number;
  readonly thickness: Nanometres | null;
  /** Some of it is promised to a reservation that has run out. */
  readonly expired: boolean;
}

/**
 * The lots that can still promise something of what the job has open, locked by id (stock_lot_part). One that somebody
 * emptied while we waited for its lock falls out, since its row is looked at again then.
 */
export async function lockLotsForJob(
  sql: Sql,
  of: { readonly jobId: string; readonly lineIds: readonly string[] | undefined },
): Promise<readonly LotToPromise[]> {
  return sql<LotToPromise[]>`
    select l.id, l.part_id as "partId", l.received_at as "receivedAt", l.on_hand as "onHand", l.reserved,
           coalesce(l.shim_nm, p.shim_nm) as thickness,
           exists (select from reservation r where r.lot_id = l.id and r.quantity > 0 and r.expires_at <= clock_timestamp()) as expired
    from stock_lot l join part p on p.id = l.part_id
    where l.part_id in (
        select d.part_id from demand_line d
        where d.job_id = ${of.jobId} and d.not_asked + d.short > 0
          and (${of.lineIds ?? null}::uuid[] is null or d.id = any(${of.lineIds ?? null}::uuid[])))
      and l.on_hand > 0
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

export interface ExpiredHold {
  readonly lotId: string;
  readonly demandLineId: string;
  readonly count: number;
}

/** Reservations that have run out on these locked lots. */
export async function findExpired(sql: Sql, lotIds: readonly string[]): Promise<readonly ExpiredHold[]> {
  return sql<ExpiredHold[]>`
    select r.lot_id as "lotId", r.demand_line_id as "demandLineId", r.quantity as count from reservation r
    where r.lot_id = any(${lotIds}::uuid[]) and r.quantity > 0 and r.expires_at <= clock_timestamp()`;
}

/** What these lines hold already lasts as long as the newest asking says; what was firm stays firm. */
export async function prolongHolds(sql: Sql, lineIds: readonly string[], expiresAt: string | undefined): Promise<void> {
  await sql`
    update reservation set expires_at = ${expiresAt ?? null}::timestamptz
    where demand_line_id = any(${lineIds}::uuid[]) and quantity > 0 and expires_at is not null`;
}
