import { newId } from '#platform/act.ts';
import type { Models, Sql } from '#platform/database/client.ts';

export type Kind = 'strip' | 'assemble' | 'prove';
export type Mark = 'done' | 'skipped' | 'second person';
type Layer = 'cover' | 'head' | 'cylinder' | 'case';

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

export async function findVersion(db: Models, id: string) {
  return db.procedureVersion.findUnique({
    where: { id },
    include: {
      procedure: true,
      procedureSteps: { orderBy: { ordinal: 'asc' }, include: { stepPieces: { orderBy: { ordinal: 'asc' } } } },
    },
  });
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

export interface RunRow {
  readonly id: string;
  readonly jobId: string;
  readonly versionId: string;
  readonly version: number;
  readonly procedureId: string;
  readonly code: string;
  readonly name: string;
  readonly kind: Kind;
  readonly startedAt: string;
  readonly startedById: string;
  readonly startedBy: string;
}

/** Runs of one job, or the one run of an id. */
export async function findRuns(sql: Sql, of: { jobId: string } | { runId: string }): Promise<readonly RunRow[]> {
  return sql<RunRow[]>`
    select r.id, r.job_id as "jobId", v.id as "versionId", v.number as version, p.id as "procedureId", p.code, p.name, p.kind,
           r.started_at as "startedAt", r.started_by_id as "startedById", b.name as "startedBy"
    from procedure_run r
    join procedure_version v on v.id = r.version_id
    join procedure p on p.id = v.procedure_id
    join person b on b.id = r.started_by_id
    where ${'jobId' in of ? sql`r.job_id = ${of.jobId}` : sql`r.id = ${of.runId}`}
    order by r.started_at, r.id`;
}

export interface StepRow {
  readonly id: string;
  readonly runId: string;
  readonly ordinal: number;
  readonly title: string;
  readonly words: string;
  readonly caution: string;
  readonly secondPerson: boolean;
  readonly fastenerSet: string | null;
  readonly dimensionCode: string | null;
  readonly dimensionName: string | null;
}

export async function findSteps(sql: Sql, runIds: readonly string[]): Promise<readonly StepRow[]> {
  return sql<StepRow[]>`
    select s.id, r.id as "runId", s.ordinal, s.title, s.words, s.caution, s.second_person as "secondPerson",
           s.fastener_set as "fastenerSet", s.dimension_code as "dimensionCode", d.name as "dimensionName"
    from procedure_run r join job j on j.id = r.job_id join procedure_step s on s.version_id = r.version_id
    left join spec_dimension d on d.revision_id = j.revision_id and d.code = s.dimension_code
    where r.id = any(${[...runIds]}::uuid[]) order by r.started_at, s.ordinal`;
}

export interface MarkRow {
  readonly runId: string;
  readonly stepId: string;
  readonly mark: Mark;
  readonly reason: string;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
}

export async function findMarks(sql: Sql, runIds: readonly string[]): Promise<readonly MarkRow[]> {
  return sql<MarkRow[]>`
    select m.run_id as "runId", m.step_id as "stepId", m.mark, m.reason, p.id as "byId", p.name as by, m.marked_at as at
    from step_mark m join person p on p.id = m.marked_by_id
    where m.run_id = any(${[...runIds]}::uuid[]) order by m.marked_at, m.id`;
}

export interface PieceOfStep {
  readonly runId: string;
  readonly stepId: string;
  readonly id: string;
  readonly name: string;
  /** As the procedure says, less those found to have never been there. */
  readonly expected: number;
  readonly byProcedure: number;
  readonly fromWhere: string;
  readonly why: string;
  readonly layer: Layer | null;
  readonly oneTime: boolean;
  readonly matchedSet: string | null;
  readonly pieceId: string | null;
  readonly trayId: string | null;
  readonly counted: boolean;
  readonly off: number;
  /** Missing, and declared as possibly inside. */
  readonly declared: number;
}

/** What the steps ask for, and how it stands on the tally of the job's latest opening. */
export async function findPiecesOfSteps(sql: Sql, runIds: readonly string[]): Promise<readonly PieceOfStep[]> {
  return sql<PieceOfStep[]>`
    select r.id as "runId", sp.step_id as "stepId", sp.id, sp.name, coalesce(p.expected, sp.expected) as expected, sp.expected as "byProcedure",
           sp.from_where as "fromWhere", sp.why, sp.layer, sp.one_time as "oneTime", sp.matched_set as "matchedSet",
           p.id as "pieceId", p.tray_id as "trayId", p.id is not null as counted, coalesce(p.off, 0) as off,
           (select coalesce(sum(m.count), 0) from piece_movement m where m.piece_id = p.id and m.act = 'possibly inside')::int as declared
    from procedure_run r
    join procedure_step s on s.version_id = r.version_id
    join step_piece sp on sp.step_id = s.id
    left join lateral (select id from opening o where o.job_id = r.job_id
                       order by o.closed_at is null desc, o.opened_at desc limit 1) o on true
    left join piece p on p.opening_id = o.id and p.step_piece_id = sp.id
    where r.id = any(${[...runIds]}::uuid[]) order by s.ordinal, sp.ordinal`;
}

/** A run's job never changes, so it may be read before that job's engine is locked. */
export async function findJobOfRun(sql: Sql, runId: string): Promise<string | undefined> {
  const [run] = await sql<{ jobId: string }[]>`select job_id as "jobId" from procedure_run where id = ${runId}`;
  return run?.jobId;
}

export async function insertMark(
  sql: Sql,
  of: { runId: string; stepId: string; mark: Mark; reason: string; byId: string },
): Promise<void> {
  await sql`
    insert into step_mark (id, run_id, step_id, mark, reason, marked_by_id)
    values (${newId()}, ${of.runId}, ${of.stepId}, ${of.mark}, ${of.reason}, ${of.byId})`;
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
    from step_mark m
    join procedure_step s on s.id = m.step_id and s.second_person
    join procedure_run r on r.id = m.run_id
    join procedure_version v on v.id = r.version_id
    join procedure p on p.id = v.procedure_id
    join job j on j.id = r.job_id and j.handed_back_at is null
    join engine e on e.id = j.engine_id
    join person b on b.id = m.marked_by_id
    where m.mark = 'done'
      and not exists (select from step_mark other where other.run_id = m.run_id and other.step_id = m.step_id and other.mark = 'second person')
    order by m.marked_at, m.id`;
}
