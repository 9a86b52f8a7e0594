import type { LeftRun, UnfinishedRun, UnsignedStop } from '#domain/closing/closing-the-opening.ts';
import type { Sql } from '#platform/database/client.ts';

/** One job's opening and its beginning: what was pulled, placed or measured before the last closing counts no more. */
export interface Since {
  readonly openingId: string;
  readonly jobId: string;
  readonly revisionId: string;
  readonly since: string;
}

/** Steps of assembly procedures begun since then, and not skipped: what they ask for has to be done. */
export const assemblySteps = (sql: Sql, { jobId, since }: Since) => sql`
  select s.* from procedure_run r
  join procedure_version v on v.id = r.version_id
  join procedure p on p.id = v.procedure_id and p.kind = 'assemble'
  join procedure_step s on s.version_id = v.id
  where r.job_id = ${jobId}
    and (r.started_at >= ${since}::timestamptz
         or exists (select from step_mark m where m.run_id = r.id and m.marked_at >= ${since}::timestamptz))
    and not step_left_out(r.id, s.id)
    and not exists (select from step_mark_now m where m.run_id = r.id and m.step_id = s.id and m.mark = 'skipped')`;

/**
 * When the joint of an assembly step `s` was last taken apart in this opening: a piece that it names came off, or one at a
 * step that loosens the same fastener set.
 */
const apartAt = (sql: Sql, { openingId }: Since) => sql`
  select max(m.moved_at) from piece p
  join piece_movement m on m.piece_id = p.id and m.act = 'off' and m.count > 0
  left join step_piece off_piece on off_piece.id = p.step_piece_id
  left join procedure_step off_step on off_step.id = off_piece.step_id
  where p.opening_id = ${openingId}
    and (off_step.fastener_set = s.fastener_set
         or exists (select from step_piece back where back.step_id = s.id and lower(back.name) = lower(p.name)))`;

/**
 * Steps for two that only one has marked, steps for two of the assembly that nobody has, and those that were done before
 * their pieces came off once more: what two people looked at then is not what stands there now.
 */
export async function findUnsignedStops(sql: Sql, of: Since): Promise<readonly UnsignedStop[]> {
  return sql<UnsignedStop[]>`
    select id, what, apart from (
      select r.started_at, s.ordinal, s.id, s.title as what, done.at as done_at, signed.at as signed_at, apart.at as apart_at,
             coalesce(done.at <= apart.at, false) as apart,
             s.id in (select a.id from (${assemblySteps(sql, of)}) a) as asked
      from procedure_run r
      join procedure_version v on v.id = r.version_id
      join procedure p on p.id = v.procedure_id and p.kind in ('strip', 'assemble')
      join procedure_step s on s.version_id = v.id and s.second_person
      left join lateral (select max(m.marked_at) as at from step_mark_now m
                         where m.run_id = r.id and m.step_id = s.id and m.mark = 'done') done on true
      left join lateral (select max(m.marked_at) as at from step_mark_now m
                         where m.run_id = r.id and m.step_id = s.id and m.mark = 'second person') signed on true
      left join lateral (${apartAt(sql, of)}) apart(at) on p.kind = 'assemble' and not step_left_out(r.id, s.id)
      where r.job_id = ${of.jobId}) stop
    where apart or signed_at is null and (done_at is not null or apart_at is not null or asked)
    order by started_at, ordinal`;
}

/** Procedures of the job that somebody left in the middle and nobody has resumed, of whatever kind. */
export async function findLeftRuns(sql: Sql, { jobId }: Since): Promise<readonly LeftRun[]> {
  return sql<LeftRun[]>`
    select s.id as "stepId", p.name as procedure, s.ordinal as step, s.title, i.loose
    from procedure_run r
    join procedure_version v on v.id = r.version_id
    join procedure p on p.id = v.procedure_id
    join run_interruption i on i.run_id = r.id
    join procedure_step s on s.id = i.step_id
    where r.job_id = ${jobId} and not exists (select from run_resumption n where n.interruption_id = i.id)
    order by i.interrupted_at, i.id`;
}

/**
 * Assemblies begun since then with steps neither done nor skipped, and the first of these. A strip may end where it is
 * deep enough; what was begun to go together goes together, or somebody says step by step why not.
 */
export async function findUnfinishedRuns(sql: Sql, of: Since): Promise<readonly UnfinishedRun[]> {
  return sql<UnfinishedRun[]>`
    select (array_agg(s.id order by s.ordinal))[1] as "stepId", p.name as procedure, min(s.ordinal) as step,
           (array_agg(s.title order by s.ordinal))[1] as title, count(*)::int as open
    from (${assemblySteps(sql, of)}) s
    join procedure_run r on r.version_id = s.version_id and r.job_id = ${of.jobId}
    join procedure_version v on v.id = r.version_id
    join procedure p on p.id = v.procedure_id
    where not exists (select from step_mark_now m where m.run_id = r.id and m.step_id = s.id and m.mark = 'done')
    group by r.id, p.id order by r.started_at, r.id`;
}
