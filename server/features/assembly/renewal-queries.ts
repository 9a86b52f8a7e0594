import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface RenewalRow {
  readonly setCode: string;
  /** The one position that was turned past yield; null: the whole set was loosened. */
  readonly fastener: number | null;
  readonly words: string;
  readonly obligationId: string | null;
  readonly open: boolean;
}

/** What loosening a job's fasteners asked for: an obligation until it is discharged, a demand until it is issued. */
export async function findRenewals(sql: Sql, jobId: string): Promise<readonly RenewalRow[]> {
  return sql<RenewalRow[]>`
    select r.set_code as "setCode", r.fastener, r.obligation_id as "obligationId",
           coalesce(o.words, p.name || ' ' || p.number || ': ' || d.wanted || ' asked of stores, ' || d.issued || ' issued') as words,
           case when o.id is null then d.issued + d.cancelled < d.wanted else o.discharged_at is null end as open
    from fastener_renewal r
    left join obligation o on o.id = r.obligation_id
    left join demand_line d on d.id = r.demand_line_id left join part p on p.id = d.part_id
    where r.job_id = ${jobId} order by r.caused_at, r.id`;
}

/** True when a set was loosened in this job and nothing of it was pulled since: loosening it further asks for nothing new. */
export async function isLooseAlready(sql: Sql, of: { jobId: string; setCode: string }): Promise<boolean> {
  const rows = await sql`
    select from fastener_renewal r
    where r.job_id = ${of.jobId} and r.set_code = ${of.setCode} and r.fastener is null
      and not exists (
        select from torque_pull t
        where t.job_id = r.job_id and t.set_code = r.set_code and t.pulled_at > r.caused_at
          and not exists (select from torque_strike s where s.pull_id = t.id))`;
  return rows.length > 0;
}

/** Sets that strip steps done before loosen, of which some pieces were counted off: their bolts are out once more. */
export async function findSetsOfStepsDone(sql: Sql, of: { jobId: string; pieceIds: readonly string[] }) {
  const rows = await sql<{ code: string }[]>`
    select distinct s.fastener_set as code
    from piece i
    join step_piece sp on sp.id = i.step_piece_id
    join procedure_step s on s.id = sp.step_id and s.fastener_set is not null
    join procedure_version v on v.id = s.version_id
    join procedure p on p.id = v.procedure_id and p.kind = 'strip'
    join procedure_run r on r.version_id = v.id and r.job_id = ${of.jobId}
    where i.id = any(${[...of.pieceIds]}::uuid[])
      and exists (select from step_mark m where m.run_id = r.id and m.step_id = s.id and m.mark = 'done')
    order by code`;
  return rows.map(({ code }) => code);
}

/** The part that one fastener of a set is, by the family of the job's engine; undefined: stores knows none. */
export async function findFastenerPart(sql: Sql, of: { jobId: string; setCode: string }) {
  const [part] = await sql<{ id: string; number: string; name: string }[]>`
    select p.id, p.number, p.name
    from job j join engine e on e.id = j.engine_id
    join part p on p.family_id = e.family_id and p.fastener_set = ${of.setCode} and p.retired_at is null
    where j.id = ${of.jobId} order by p.number limit 1`;
  return part;
}

export interface NewRenewal {
  readonly jobId: string;
  readonly setCode: string;
  readonly fastener: number | null;
  readonly cause: { readonly demandLineId: string } | { readonly obligationId: string };
  readonly byId: string;
}

export async function insertRenewal(sql: Sql, of: NewRenewal): Promise<void> {
  const demandLineId = 'demandLineId' in of.cause ? of.cause.demandLineId : null;
  const obligationId = 'obligationId' in of.cause ? of.cause.obligationId : null;
  await sql`
    insert into fastener_renewal (id, job_id, set_code, fastener, demand_line_id, obligation_id, caused_by_id)
    values (${newId()}, ${of.jobId}, ${of.setCode}, ${of.fastener}, ${demandLineId}, ${obligationId}, ${of.byId})`;
}
