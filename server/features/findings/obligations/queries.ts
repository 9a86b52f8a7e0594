import type { Verdict } from '#domain/metrology/finding.ts';
import type { DispositionKind, Round } from '#domain/obligations/disposition.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface ActRow {
  readonly act: 'decided' | 'discharged' | 'reopened';
  readonly dispositionId: string | null;
  readonly kind: DispositionKind | null;
  readonly sizeClass: string | null;
  readonly reason: string;
  readonly decisionReason: string | null;
  readonly findingId: string | null;
  readonly byId: string;
  readonly byName: string;
  readonly at: string;
}

export interface ObligationRow {
  readonly id: string;
  readonly jobId: string;
  readonly engineId: string;
  readonly words: string;
  readonly inside: boolean;
  readonly findingId: string | null;
  readonly handoverLineId: string | null;
  readonly pieceId: string | null;
  readonly raisedById: string | null;
  readonly openedAt: string;
  readonly decidedAt: string | null;
  readonly dischargedAt: string | null;
  readonly dimension: string | null;
  readonly name: string | null;
  readonly round: Round | null;
  readonly verdict: Verdict | null;
  readonly fittedPartId: string | null;
  readonly standingId: string | null;
  readonly standingVerdict: Verdict | null;
  readonly acts: readonly ActRow[];
}

/** Obligations of a job, oldest first, each with its finding and everything done about it. */
export async function findObligations(sql: Sql, jobId: string): Promise<readonly ObligationRow[]> {
  return sql<ObligationRow[]>`
    select o.id, o.job_id as "jobId", o.engine_id as "engineId", o.words, o.inside, o.finding_id as "findingId",
           o.handover_line_id as "handoverLineId", o.piece_id as "pieceId", o.raised_by_id as "raisedById",
           o.opened_at as "openedAt", o.decided_at as "decidedAt", o.discharged_at as "dischargedAt",
           f.dimension_code as dimension, f.dimension_name as name, f.round, f.verdict, f.fitted_part_id as "fittedPartId",
           s.id as "standingId", s.verdict as "standingVerdict",
           coalesce(a.acts, '[]') as acts
    from obligation o
    left join finding f on f.id = o.finding_id
    left join lateral (
      select n.id, n.verdict from finding_standing n
      where n.job_id = f.job_id and n.dimension_code = f.dimension_code and n.round = f.round
        and n.fitted_part_id is not distinct from f.fitted_part_id
      order by n.judged_at desc limit 1
    ) s on true
    left join lateral (
      select json_agg(json_build_object('act', k.act, 'dispositionId', k.disposition_id, 'kind', d.kind,
               'sizeClass', d.size_class, 'reason', k.reason, 'decisionReason', d.reason, 'findingId', k.finding_id,
               'byId', k.acted_by_id, 'byName', p.name, 'at', k.acted_at) order by k.acted_at, k.id) as acts
      from obligation_act k join person p on p.id = k.acted_by_id left join disposition d on d.id = k.disposition_id
      where k.obligation_id = o.id
    ) a on true
    where o.job_id = ${jobId} order by o.opened_at, o.id`;
}

export async function findJobsOfObligations(
  sql: Sql,
  ids: readonly string[],
): Promise<readonly { id: string; jobId: string }[]> {
  return sql<{ id: string; jobId: string }[]>`
    select id, job_id as "jobId" from obligation where id = any (${[...ids]})`;
}

export async function insertDisposition(
  sql: Sql,
  of: { jobId: string; kind: DispositionKind; sizeClass: string | null; reason: string; byId: string },
): Promise<string> {
  const id = newId();
  await sql`
    insert into disposition (id, job_id, kind, size_class, reason, decided_by_id)
    values (${id}, ${of.jobId}, ${of.kind}, ${of.sizeClass}, ${of.reason}, ${of.byId})`;
  return id;
}

/** What findings a chain of one dimension, round and part holds. */
export interface Chain {
  readonly jobId: string;
  readonly dimension: string;
  readonly round: Round;
  readonly fittedPartId: string | null;
}

/** Obligations that stand discharged on a good finding of the chain: what they rest on when it no longer holds. */
export async function findProvenBy(sql: Sql, chain: Chain): Promise<readonly string[]> {
  const rows = await sql<{ id: string }[]>`
    select o.id
    from obligation o
    join lateral (select k.* from obligation_act k where k.obligation_id = o.id order by k.acted_at desc, k.id desc limit 1) a on true
    join finding f on f.id = a.finding_id
    where o.job_id = ${chain.jobId} and a.act = 'discharged' and f.verdict in ('within standard', 'within service limit')
      and f.dimension_code = ${chain.dimension} and f.round = ${chain.round}
      and f.fitted_part_id is not distinct from ${chain.fittedPartId}::uuid
    order by o.opened_at, o.id`;
  return rows.map(({ id }) => id);
}
