import type { LotRule } from '#domain/stock/lot-rule.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { lotRuleJson } from '../ledger/queries.ts';

/** A rule as it is put in force on a line, and what caused it. */
export interface NewLotRule {
  readonly lineId: string;
  readonly rule: LotRule;
  readonly cause: 'by hand' | 'shim choice' | 'grade asked';
  readonly reason: string;
}

/** Keeps each rule with who set it and why, and puts it in force on its line: one statement. */
export async function insertLotRules(sql: Sql, rules: readonly NewLotRule[], byId: string): Promise<void> {
  if (rules.length === 0) return;
  const exact = rules.map(({ rule }) =>
    rule.rule === 'exact thickness' ? rule : { thicknesses: [], othersAny: false },
  );
  await sql`
    with given as (
      insert into demand_lot_rule (id, demand_line_id, rule, thickness_nm, others_any, grade, cause, reason, set_by_id)
      select g.id, g.line, g.rule, array(select jsonb_array_elements_text(g.thicknesses::jsonb)::bigint), g.others, g.grade, g.cause,
        g.reason, ${byId}
      from unnest(
        ${rules.map(newId)}::uuid[], ${rules.map(({ lineId }) => lineId)}::uuid[], ${rules.map(({ rule }) => rule.rule)}::text[],
        ${exact.map(({ thicknesses }) => JSON.stringify(thicknesses))}::text[], ${exact.map(({ othersAny }) => String(othersAny))}::text[]::boolean[],
        ${rules.map(({ rule }) => (rule.rule === 'grade' ? rule.grade : ''))}::text[], ${rules.map(({ cause }) => cause)}::text[],
        ${rules.map(({ reason }) => reason)}::text[]
      ) g (id, line, rule, thicknesses, others, grade, cause, reason)
      returning id, demand_line_id
    )
    update demand_line d set lot_rule_id = given.id from given where d.id = given.demand_line_id`;
}

export interface ShimsChosen {
  readonly lineId: string;
  /** Measured thicknesses of the shims that are chosen now out of lots of the line's part, in the order of choosing. */
  readonly chosen: readonly number[];
  /** What the last choice of shims made of the line; null: none did. */
  readonly lastChosen: readonly number[] | null;
  /** That is the rule in force. */
  readonly inForce: boolean;
  readonly words: string;
}

/** A job's lines of shims, with what is chosen for its valves now and what the rule by the last choice was. */
export async function findShimsChosen(sql: Sql, jobId: string): Promise<readonly ShimsChosen[]> {
  return sql<ShimsChosen[]>`
    select d.id as "lineId", last.thickness_nm as "lastChosen", coalesce(last.id = d.lot_rule_id, false) as "inForce",
      (select coalesce(array_agg(coalesce(l.shim_nm, p.shim_nm) order by c.chosen_at, c.valve_code), '{}')
       from (select distinct on (sc.valve_code) sc.valve_code, sc.lot_id, sc.chosen_at from shim_choice sc
             where sc.job_id = d.job_id order by sc.valve_code, sc.chosen_at desc) c
         join stock_lot l on l.id = c.lot_id where l.part_id = d.part_id) as chosen,
      coalesce((select left(string_agg(distinct r.words, ', '), 300) from demand_reason r
                where r.demand_line_id = d.id and r.valve_code is not null and r.withdrawn_at is null), '') as words
    from demand_line d join part p on p.id = d.part_id
      left join lateral (select r.id, r.thickness_nm from demand_lot_rule r
                         where r.demand_line_id = d.id and r.cause = 'shim choice' order by r.set_at desc, r.id desc limit 1) last on true
    where d.job_id = ${jobId} and p.shim_nm is not null
    order by d.id`;
}

export interface LineToAskGrade {
  readonly id: string;
  readonly name: string;
  readonly number: string;
  readonly wanted: number;
  readonly open: number;
  readonly rule: LotRule;
}

/** Lines that a grade is asked for on: how many pieces still stand open on them, and by which rule. */
export async function findLinesToAskGrade(sql: Sql, lineIds: readonly string[]): Promise<readonly LineToAskGrade[]> {
  return sql<LineToAskGrade[]>`
    select d.id, p.name, p.number, d.wanted, d.reserved + d.short + d.not_asked as open, ${lotRuleJson(sql)} as rule
    from demand_line d join part p on p.id = d.part_id left join demand_lot_rule lr on lr.id = d.lot_rule_id
    where d.id = any(${lineIds}::uuid[])`;
}

/** True for a part that is a shim: one with a nominal thickness. */
export async function isShim(sql: Sql, partId: string): Promise<boolean> {
  return (await sql`select from part where id = ${partId} and shim_nm is not null`).length === 1;
}
