import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export type Kind = 'strip' | 'assemble' | 'prove';
export type Mark = 'done' | 'skipped' | 'second person';

/** Procedures that have a published version, by code. */
export async function findProcedures(
  sql: Sql,
  of: { familyId: string | undefined; kind: Kind | undefined; after: string | undefined; limit: number },
) {
  return sql<
    {
      id: string;
      code: string;
      name: string;
      kind: Kind;
      familyId: string;
      versionId: string;
      version: number;
      steps: number;
    }[]
  >`
    select p.id, p.code, p.name, p.kind, p.family_id as "familyId", v.id as "versionId", v.number as version,
           (select count(*) from procedure_step s where s.version_id = v.id)::int as steps
    from procedure p
    join lateral (select id, number from procedure_version
                  where procedure_id = p.id and published_at is not null order by number desc limit 1) v on true
    where (${of.familyId ?? null}::uuid is null or p.family_id = ${of.familyId ?? null})
      and (${of.kind ?? null}::text is null or p.kind = ${of.kind ?? null})
      and (${of.after ?? null}::text is null or p.code > ${of.after ?? null})
    order by p.code limit ${of.limit}`;
}

export interface VersionRow {
  readonly id: string;
  readonly number: number;
  readonly note: string;
  readonly publishedAt: string | null;
  readonly edit: number;
  readonly document: unknown;
  readonly procedureId: string;
  readonly code: string;
  readonly name: string;
  readonly kind: Kind;
  readonly familyId: string;
  readonly family: string;
}

const versionColumns = (sql: Sql) => sql`
  v.id, v.number, v.note, v.published_at as "publishedAt", v.edit, v.document, p.id as "procedureId", p.code, p.name, p.kind,
  f.id as "familyId", f.code as family`;

export async function findVersion(sql: Sql, id: string): Promise<VersionRow | undefined> {
  const [version] = await sql<VersionRow[]>`
    select ${versionColumns(sql)}
    from procedure_version v join procedure p on p.id = v.procedure_id join family f on f.id = p.family_id where v.id = ${id}`;
  return version;
}

/** The same, with the version locked until the transaction ends. */
export async function lockVersion(sql: Sql, id: string): Promise<VersionRow | undefined> {
  const [version] = await sql<VersionRow[]>`
    select ${versionColumns(sql)}
    from procedure_version v join procedure p on p.id = v.procedure_id join family f on f.id = p.family_id
    where v.id = ${id} for update of v`;
  return version;
}

/** A version as a run needs to know it. */
export async function findVersionToRun(sql: Sql, of: { versionId: string; engineId: string }) {
  const [version] = await sql<{ id: string; name: string; number: number; published: boolean; fits: boolean }[]>`
    select v.id, p.name, v.number, v.published_at is not null as published, p.family_id = e.family_id as fits
    from procedure_version v join procedure p on p.id = v.procedure_id cross join engine e
    where v.id = ${of.versionId} and e.id = ${of.engineId}`;
  return version;
}

export async function findRunOf(sql: Sql, of: { jobId: string; versionId: string }): Promise<string | undefined> {
  const [run] = await sql<{ id: string }[]>`
    select id from procedure_run where job_id = ${of.jobId} and version_id = ${of.versionId}`;
  return run?.id;
}

export async function insertRun(sql: Sql, of: { jobId: string; versionId: string; byId: string }): Promise<string> {
  const id = newId();
  await sql`
    insert into procedure_run (id, job_id, version_id, started_by_id) values (${id}, ${of.jobId}, ${of.versionId}, ${of.byId})`;
  return id;
}

/** Steps of open jobs that are done and wait for another person's mark, the longest waiting first. */
export async function findStopPoints(sql: Sql) {
  return sql<
    {
      runId: string;
      stepId: string;
      ordinal: number;
      title: string;
      procedure: string;
      jobId: string;
      number: number;
      engineId: string;
      serial: string;
      doneById: string;
      doneBy: string;
      doneAt: string;
    }[]
  >`
    select m.run_id as "runId", s.id as "stepId", s.ordinal, s.title, p.name as procedure, j.id as "jobId", j.number, e.id as "engineId",
           e.serial, b.id as "doneById", b.name as "doneBy", m.marked_at as "doneAt"
    from step_mark_now m
    join procedure_step s on s.id = m.step_id and s.second_person
    join procedure_run r on r.id = m.run_id
    join procedure_version v on v.id = r.version_id
    join procedure p on p.id = v.procedure_id
    join job j on j.id = r.job_id and j.handed_back_at is null
    join engine e on e.id = j.engine_id
    join person b on b.id = m.marked_by_id
    where m.mark = 'done' and not step_left_out(m.run_id, m.step_id)
      and not exists (select from step_mark_now other where other.run_id = m.run_id and other.step_id = m.step_id and other.mark = 'second person')
    order by m.marked_at, m.id`;
}
