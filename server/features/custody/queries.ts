import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** An engine, or a tray of it: what somebody holds. */
export type Subject = { readonly engineId: string } | { readonly trayId: string };

/** Who answers for a subject, and where it is: a vendor or the owner has it in none of our bays. */
export type Holder =
  | { readonly personId: string; readonly placeId: string }
  | { readonly restBayId: string }
  | { readonly vendorId: string }
  | { readonly ownerId: string };

export interface Holding {
  readonly id: string;
  readonly personId: string | null;
  readonly restBayId: string | null;
  readonly vendorId: string | null;
  readonly ownerId: string | null;
  readonly placeId: string | null;
  readonly fromAt: string;
}

/** Takes the engine's row lock, first in the lock order; every write about an engine begins here. */
export async function lockEngine(sql: Sql, engineId: string): Promise<boolean> {
  const rows = await sql`select id from engine where id = ${engineId} for update`;
  return rows.length === 1;
}

export async function lockTray(sql: Sql, trayId: string) {
  const [tray] = await sql<{ id: string; jobId: string; label: string; name: string; emptiedAt: string | null }[]>`
    select id, job_id as "jobId", label, name, emptied_at as "emptiedAt" from tray where id = ${trayId} for update`;
  return tray;
}

const ofSubject = (sql: Sql, subject: Subject) =>
  'engineId' in subject ? sql`engine_id = ${subject.engineId}` : sql`tray_id = ${subject.trayId}`;

export async function findHolding(sql: Sql, subject: Subject): Promise<Holding | undefined> {
  const [holding] = await sql<Holding[]>`
    select id, person_id as "personId", rest_bay_id as "restBayId", vendor_id as "vendorId", owner_id as "ownerId",
           place_id as "placeId", from_at as "fromAt"
    from custody where until_at is null and ${ofSubject(sql, subject)}`;
  return holding;
}

export interface NewHolding {
  readonly subject: Subject;
  readonly to: Holder;
  readonly movedById: string;
  readonly reason: string;
  readonly handoverId?: string;
}

/**
 * Ends the subject's present period and starts its successor at that very instant, taken after the subject is locked.
 * The first period of a subject just starts. One instant, one statement each; the database refuses gaps and overlaps.
 */
export async function insertHolding(
  sql: Sql,
  { subject, to, movedById, reason, handoverId }: NewHolding,
): Promise<string> {
  const [ended] = await sql<{ at: string }[]>`
    update custody set until_at = clock_timestamp() where until_at is null and ${ofSubject(sql, subject)} returning until_at as at`;
  const [begun] = await sql<{ fromAt: string }[]>`
    insert into custody (id, engine_id, tray_id, person_id, rest_bay_id, vendor_id, owner_id, place_id, from_at, handover_id, reason, moved_by_id)
    values (${newId()}, ${'engineId' in subject ? subject.engineId : null}, ${'trayId' in subject ? subject.trayId : null},
            ${'personId' in to ? to.personId : null}, ${'restBayId' in to ? to.restBayId : null},
            ${'vendorId' in to ? to.vendorId : null}, ${'ownerId' in to ? to.ownerId : null},
            ${'placeId' in to ? to.placeId : 'restBayId' in to ? to.restBayId : null},
            coalesce(${ended?.at ?? null}::timestamptz, clock_timestamp()), ${handoverId ?? null}, ${reason}, ${movedById})
    returning from_at as "fromAt"`;
  return begun?.fromAt ?? '';
}
