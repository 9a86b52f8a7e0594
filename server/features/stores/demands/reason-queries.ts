import type { Sql } from '#platform/database/client.ts';

/** A reason for pieces of a line, and how many it still asks for. */
export interface Reason {
  readonly id: string;
  readonly lineId: string;
  readonly quantity: number;
}

/** So many pieces of each of these reasons are not wanted any more; one with none left is withdrawn. */
export async function withdraw(sql: Sql, reasons: readonly Reason[]): Promise<void> {
  await sql`
    update demand_reason r set
      gone = r.gone + w.count,
      withdrawn_at = case when r.gone + w.count >= r.quantity then clock_timestamp() end
    from unnest(${reasons.map(({ id }) => id)}::uuid[], ${reasons.map(({ quantity }) => quantity)}::int[]) w (id, count)
    where r.id = w.id and r.withdrawn_at is null and w.count > 0`;
}

/** Reasons ask for no more than what is still wanted of these lines: the newest go first. */
export async function trimReasons(sql: Sql, lineIds: readonly string[]): Promise<void> {
  const over = await sql<Reason[]>`
    select r.id, r.line as "lineId", r.there - greatest(0, least(r.there, r.wanted - (r.upto - r.there)))::int as quantity
    from (
      select r.id, r.demand_line_id as line, r.quantity - r.gone as there, d.wanted - d.cancelled as wanted,
        sum(r.quantity - r.gone) over (partition by r.demand_line_id order by r.added_at, r.id) as upto
      from demand_reason r join demand_line d on d.id = r.demand_line_id
      where r.demand_line_id = any(${lineIds}::uuid[]) and r.withdrawn_at is null) r
    where r.upto > r.wanted`;
  if (over.length > 0) await withdraw(sql, over);
}

/** Pieces that the reasons left standing ask for, by line. */
export async function findStillAsked(sql: Sql, lineIds: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const rows = await sql<{ lineId: string; quantity: number }[]>`
    select demand_line_id as "lineId", sum(quantity - gone)::int as quantity from demand_reason
    where demand_line_id = any(${lineIds}::uuid[]) and withdrawn_at is null group by 1`;
  return new Map(rows.map(({ lineId, quantity }) => [lineId, quantity]));
}

/** Obligations of a job about which something is decided now, or that are discharged. */
export interface Unbound {
  readonly jobId: string;
  readonly obligationIds: readonly string[];
  /** What is decided now; undefined: nothing, they are discharged. */
  readonly anew?: { readonly kind: string; readonly sizeClass: string | null };
}

/**
 * Reasons that rest on an earlier decision about these obligations alone, other than one that says the same again: what was
 * decided together about another obligation that still stands on it is wanted for that one. The newest first.
 */
export async function findReasonsGone(sql: Sql, { jobId, obligationIds, anew }: Unbound): Promise<readonly Reason[]> {
  return sql<Reason[]>`
    with other as (
      select distinct d.id from obligation_act a join disposition d on d.id = a.disposition_id
      where a.act = 'decided' and a.obligation_id = any(${obligationIds}::uuid[])
        and (${anew === undefined} or (d.kind, d.size_class) is distinct from (${anew?.kind ?? null}::text, ${anew?.sizeClass ?? null}::text))
    ), gone as (
      select other.id from other where not exists (
        select from obligation o cross join lateral (
          select a.disposition_id from obligation_act a
          where a.obligation_id = o.id and a.act = 'decided' order by a.acted_at desc, a.id desc limit 1) last
        where last.disposition_id = other.id and o.discharged_at is null and o.id <> all(${obligationIds}::uuid[]))
    )
    select r.id, r.demand_line_id as "lineId", r.quantity - r.gone as quantity
    from demand_reason r join demand_line d on d.id = r.demand_line_id and d.job_id = ${jobId}
    where r.withdrawn_at is null and r.obligation_id in (
      select a.obligation_id from obligation_act a where a.act = 'decided' and a.disposition_id in (select id from gone))
    order by r.added_at desc, r.id desc`;
}

export interface CompanionReason extends Reason {
  /** How many go with one of the part that brings them; null: they go with it no more. */
  readonly perPiece: number | null;
}

/** Why a job wants what goes with a part, the newest first. */
export async function findCompanionReasons(
  sql: Sql,
  of: { readonly jobId: string; readonly partId: string },
): Promise<readonly CompanionReason[]> {
  return sql<CompanionReason[]>`
    select r.id, r.demand_line_id as "lineId", r.quantity - r.gone as quantity, c.quantity as "perPiece"
    from demand_line d join demand_reason r on r.demand_line_id = d.id
      left join part_companion c on c.part_id = r.parent_part_id and c.companion_id = d.part_id
    where d.job_id = ${of.jobId} and r.parent_part_id = ${of.partId} and r.withdrawn_at is null
    order by r.added_at desc, r.id desc`;
}

/** Pieces of the parts of these lines that were bought for their job and have come in. */
export async function findBought(sql: Sql, lineIds: readonly string[]): Promise<ReadonlyMap<string, number>> {
  const rows = await sql<{ lineId: string; quantity: number }[]>`
    select d.id as "lineId", sum(pl.received)::int as quantity
    from demand_line d join purchase_line pl on pl.job_id = d.job_id and pl.part_id = any(parts_serving(d.part_id))
    where d.id = any(${lineIds}::uuid[]) group by d.id`;
  return new Map(rows.map(({ lineId, quantity }) => [lineId, quantity]));
}
