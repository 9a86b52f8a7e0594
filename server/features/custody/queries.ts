import type { Role } from '#contracts/rights.ts';
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

/** The offers, not answered yet, in which an engine or one of some trays stands. */
export async function findOffers(sql: Sql, of: { engineId: string | null; trayIds: readonly string[] }) {
  return sql<{ id: string; giver: string; receiver: string }[]>`
    select h.id, g.name as giver, r.name as receiver
    from handover h join person g on g.id = h.giver_id join person r on r.id = h.receiver_id
    where h.ended_at is null and (h.engine_id = ${of.engineId}
      or exists (select from handover_tray t where t.handover_id = h.id and t.tray_id = any(${[...of.trayIds]}::uuid[])))
    order by h.id`;
}

export async function findBayInUse(sql: Sql, id: string) {
  const [bay] = await sql<
    { id: string; name: string }[]
  >`select id, name from bay where id = ${id} and retired_at is null`;
  return bay;
}

/** The bay a terminal stands in. */
export async function findBayOfTerminal(sql: Sql, terminalId: string): Promise<string | undefined> {
  const [row] = await sql<{ bayId: string | null }[]>`select bay_id as "bayId" from terminal where id = ${terminalId}`;
  return row?.bayId ?? undefined;
}

export async function findPerson(sql: Sql, id: string) {
  const [person] = await sql<{ id: string; name: string; roles: Role[] }[]>`
    select p.id, p.name, (select coalesce(array_agg(r.role), '{}') from person_role r where r.person_id = p.id) as roles
    from person p where p.id = ${id} and p.left_at is null`;
  return person;
}

/** The engine's visit that is not handed back: its trays are the ones that move. */
export async function findJobInShop(sql: Sql, engineId: string) {
  const [job] = await sql<{ id: string; number: number }[]>`
    select id, number from job where engine_id = ${engineId} and handed_back_at is null`;
  return job;
}

/** What is said of somebody or some place, by its id. */
export async function findHolderName(sql: Sql, id: string): Promise<string> {
  const [row] = await sql<{ name: string }[]>`
    select name from person where id = ${id} union all select name from bay where id = ${id}
    union all select name from vendor where id = ${id} union all select name from owner where id = ${id}`;
  return row?.name ?? 'somebody';
}

/** How far open the engine stands, or undefined when it is closed. */
export async function findStanding(sql: Sql, engineId: string) {
  const [standing] = await sql<{ depth: 'cover' | 'head' | 'cylinder' | 'case'; covered: boolean }[]>`
    select depth, covered from opening_standing where engine_id = ${engineId}`;
  return standing;
}
