import type { AmendJob } from '#contracts/intake.ts';
import { newId } from '#platform/act.ts';
import type { Models, Sql } from '#platform/database/client.ts';

/** The job as the wire tells it, less its form. */
export async function findJob(db: Models, id: string) {
  return db.job.findUnique({ where: { id }, include: { takenInBy: true } });
}

export async function findNewestRevision(sql: Sql, familyId: string) {
  const [revision] = await sql<{ id: string }[]>`
    select id from spec_revision where family_id = ${familyId} and published_at is not null order by number desc limit 1`;
  return revision;
}

export async function insertOwner(sql: Sql, owner: { name: string; contact: string }): Promise<string> {
  const id = newId();
  await sql`insert into owner (id, name, contact) values (${id}, ${owner.name}, ${owner.contact})`;
  return id;
}

export async function insertEngine(
  sql: Sql,
  engine: { serial: string; familyId: string; ownerId: string },
): Promise<string> {
  const id = newId();
  await sql`insert into engine (id, serial, family_id, owner_id) values (${id}, ${engine.serial}, ${engine.familyId}, ${engine.ownerId})`;
  return id;
}

export async function findEngine(sql: Sql, id: string) {
  const [engine] = await sql<{ id: string; familyId: string; ownerId: string; minutes: number | null }[]>`
    select e.id, e.family_id as "familyId", e.owner_id as "ownerId",
           (select max(j.running_minutes) from job j where j.engine_id = e.id) as minutes
    from engine e where e.id = ${id}`;
  return engine;
}

export async function updateEngineOwner(sql: Sql, engineId: string, ownerId: string): Promise<void> {
  await sql`update engine set owner_id = ${ownerId} where id = ${engineId} and owner_id <> ${ownerId}`;
}

export interface NewJob {
  readonly engineId: string;
  readonly revisionId: string;
  readonly runningMinutes: number;
  readonly complaint: string;
  readonly wishes: string;
  readonly takenInById: string;
}

export async function insertJob(sql: Sql, job: NewJob) {
  const [row] = await sql<{ id: string; number: number; takenInAt: string }[]>`
    insert into job (id, engine_id, revision_id, running_minutes, complaint, wishes, taken_in_by_id)
    values (${newId()}, ${job.engineId}, ${job.revisionId}, ${job.runningMinutes}, ${job.complaint}, ${job.wishes}, ${job.takenInById})
    returning id, number, taken_in_at as "takenInAt"`;
  return row;
}

/** The places a spec sheet names, for an engine we have never had: what sits in it is taken as standard until measured. */
export async function insertFirstParts(sql: Sql, of: { engineId: string; revisionId: string }): Promise<void> {
  await sql`
    insert into fitted_part (id, engine_id, place_code, name, fitted_at)
    select gen_random_uuid(), ${of.engineId}, p.code, p.name, clock_timestamp()
    from spec_place p where p.revision_id = ${of.revisionId}
      and not exists (select from fitted_part f where f.engine_id = ${of.engineId} and f.place_code = p.code and f.removed_at is null)`;
}

/** A job's engine never changes, so it may be read before that engine is locked. */
export async function findEngineOfJob(sql: Sql, jobId: string): Promise<string | undefined> {
  const [row] = await sql<{ engineId: string }[]>`select engine_id as "engineId" from job where id = ${jobId}`;
  return row?.engineId;
}

export async function lockJob(sql: Sql, id: string) {
  const [job] = await sql<
    { id: string; engineId: string; number: number; version: number; handedBackAt: string | null; revisionId: string }[]
  >`
    select id, engine_id as "engineId", number, version, handed_back_at as "handedBackAt", revision_id as "revisionId"
    from job where id = ${id} for no key update`;
  return job;
}

/** A revision as a job could be bound to it, beside the one that it is bound to. */
export async function findRevisionFor(sql: Sql, of: { readonly revisionId: string; readonly boundTo: string }) {
  const [revision] = await sql<{ number: number; published: boolean; boundNumber: number; sameFamily: boolean }[]>`
    select r.number, r.published_at is not null as published, b.number as "boundNumber", r.family_id = b.family_id as "sameFamily"
    from spec_revision r, spec_revision b where r.id = ${of.revisionId} and b.id = ${of.boundTo}`;
  return revision;
}

/** PostgreSQL binds the job to it in the same statement. */
export async function insertRevisionMove(
  sql: Sql,
  move: {
    readonly jobId: string;
    readonly from: string;
    readonly to: string;
    readonly reason: string;
    readonly byId: string;
  },
): Promise<void> {
  await sql`
    insert into revision_move (id, job_id, from_revision_id, to_revision_id, reason, moved_by_id)
    values (${newId()}, ${move.jobId}, ${move.from}, ${move.to}, ${move.reason}, ${move.byId})`;
}

export async function updateJob(sql: Sql, id: string, change: AmendJob): Promise<void> {
  await sql`
    update job set complaint = coalesce(${change.complaint ?? null}, complaint), wishes = coalesce(${change.wishes ?? null}, wishes),
                   version = version + 1
    where id = ${id}`;
}

export async function insertAssignment(
  sql: Sql,
  of: { jobId: string; bayId: string | null; byId: string },
): Promise<void> {
  await sql`insert into bay_assignment (id, job_id, bay_id, assigned_by_id) values (${newId()}, ${of.jobId}, ${of.bayId}, ${of.byId})`;
}

export async function findBay(sql: Sql, id: string) {
  const [bay] = await sql<{ id: string; name: string; kind: string }[]>`
    select id, name, kind from bay where id = ${id} and retired_at is null`;
  return bay;
}
