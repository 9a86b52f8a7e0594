import type { ValvePlace } from '#domain/tally/rack.ts';
import type { Sql } from '#platform/database/client.ts';
import type { Kind, Mark } from './queries.ts';
import { type Layer, type Round, type StepText, stepColumns } from './step-queries.ts';

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

export interface StepRow extends StepText {
  readonly runId: string;
  readonly photos: number;
  readonly fastenerSetName: string | null;
  readonly readings: readonly {
    readonly dimension: string;
    readonly round: Round;
    readonly name: string | null;
    readonly measured: boolean;
  }[];
}

/** Steps of runs; a required reading is measured once a finding of that round stands on the job. */
export async function findSteps(sql: Sql, runIds: readonly string[]): Promise<readonly StepRow[]> {
  return sql<StepRow[]>`
    select ${stepColumns(sql)}, r.id as "runId",
           (select f.name from spec_fastener_set f where f.revision_id = j.revision_id and f.code = s.fastener_set) as "fastenerSetName",
           (select count(*)::int from step_photo h where h.run_id = r.id and h.step_id = s.id) as photos,
           coalesce((select json_agg(json_build_object('dimension', g.dimension_code, 'round', g.round, 'name', d.name, 'measured',
                       exists (select from finding_standing f where f.job_id = j.id and f.dimension_code = g.dimension_code and f.round = g.round))
                       order by g.ordinal)
                     from step_reading g
                     left join spec_dimension d on d.revision_id = j.revision_id and d.code = g.dimension_code
                     where g.step_id = s.id), '[]') as readings
    from procedure_run r join job j on j.id = r.job_id join procedure_step s on s.version_id = r.version_id
    where r.id = any(${[...runIds]}::uuid[]) order by r.started_at, s.ordinal`;
}

interface Told {
  readonly runId: string;
  readonly stepId: string;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
}

export interface MarkRow extends Told {
  readonly mark: Mark;
  readonly round: number;
  readonly reason: string;
  readonly noPhoto: string;
}

export async function findMarks(sql: Sql, runIds: readonly string[]): Promise<readonly MarkRow[]> {
  return sql<MarkRow[]>`
    select m.run_id as "runId", m.step_id as "stepId", m.mark, m.round, m.reason, m.no_photo as "noPhoto", p.id as "byId", p.name as by, m.marked_at as at
    from step_mark m join person p on p.id = m.marked_by_id
    where m.run_id = any(${[...runIds]}::uuid[]) order by m.marked_at, m.id`;
}

export interface RedoRow extends Told {
  readonly round: number;
  readonly reason: string;
}

export async function findRedos(sql: Sql, runIds: readonly string[]): Promise<readonly RedoRow[]> {
  return sql<RedoRow[]>`
    select m.run_id as "runId", m.step_id as "stepId", m.round, m.reason, p.id as "byId", p.name as by, m.asked_at as at
    from step_redo m join person p on p.id = m.asked_by_id
    where m.run_id = any(${[...runIds]}::uuid[]) order by m.round`;
}

export interface AnswerRow extends Told {
  readonly id: string;
  readonly choice: string;
  readonly reason: string;
  /** No later answer has taken its place. */
  readonly stands: boolean;
}

export async function findAnswers(sql: Sql, runIds: readonly string[]): Promise<readonly AnswerRow[]> {
  return sql<AnswerRow[]>`
    select a.id, a.run_id as "runId", a.step_id as "stepId", a.choice, a.reason, p.id as "byId", p.name as by, a.answered_at as at,
           not exists (select from run_answer n where n.supersedes_id = a.id) as stands
    from run_answer a join person p on p.id = a.answered_by_id
    where a.run_id = any(${[...runIds]}::uuid[]) order by a.answered_at, a.id`;
}

export interface InterruptionRow extends Told {
  readonly id: string;
  readonly why: string;
  readonly loose: string;
  readonly resumedById: string | null;
  readonly resumedBy: string | null;
  readonly resumedAt: string | null;
}

export async function findInterruptions(sql: Sql, runIds: readonly string[]): Promise<readonly InterruptionRow[]> {
  return sql<InterruptionRow[]>`
    select i.id, i.run_id as "runId", i.step_id as "stepId", i.why, i.loose, p.id as "byId", p.name as by, i.interrupted_at as at,
           q.id as "resumedById", q.name as "resumedBy", r.resumed_at as "resumedAt"
    from run_interruption i join person p on p.id = i.interrupted_by_id
    left join run_resumption r on r.interruption_id = i.id left join person q on q.id = r.resumed_by_id
    where i.run_id = any(${[...runIds]}::uuid[]) order by i.interrupted_at, i.id`;
}

/** What is known of a job without asking anybody. */
export async function findFactsOfJob(sql: Sql, jobId: string): Promise<readonly { fact: string; value: string }[]> {
  return sql<
    { fact: string; value: string }[]
  >`select fact, value from job_fact where job_id = ${jobId} order by fact, value`;
}

/** The valves of the job's sheet: what is kept in order by valve has its places by them. */
export async function findValvesOfJob(sql: Sql, jobId: string): Promise<readonly ValvePlace[]> {
  return sql<ValvePlace[]>`
    select v.code, v.name, v.side from job j join spec_valve v on v.revision_id = j.revision_id
    where j.id = ${jobId} order by v.ordinal`;
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
  readonly trayIds: readonly string[];
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
           p.id as "pieceId", array(select counted_with from piece_counted_with i where i.piece_id = p.id) as "trayIds", p.id is not null as counted, coalesce(p.off, 0) as off,
           coalesce(p.inside, 0) as declared
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

/** Which version a step belongs to, when it is not one of the run at hand. */
export async function findVersionOfStep(sql: Sql, stepId: string) {
  const [step] = await sql<{ name: string; version: number; ordinal: number }[]>`
    select p.name, v.number as version, s.ordinal
    from procedure_step s join procedure_version v on v.id = s.version_id join procedure p on p.id = v.procedure_id
    where s.id = ${stepId}`;
  return step;
}
