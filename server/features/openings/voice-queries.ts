import { kindsWhere } from '#domain/custody/engine-events.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface RuleRow {
  readonly id: string;
  readonly uncoveredMinutes: number;
  readonly coveredMinutes: number;
  readonly note: string;
  readonly byId: string;
  readonly by: string;
  readonly at: string;
  readonly shiftEnds: readonly { readonly weekday: number; readonly endsAt: string }[];
}

/** The shop's limits on open engines, the newest (which holds) first. */
export async function findRules(sql: Sql, limit: number): Promise<readonly RuleRow[]> {
  return sql<RuleRow[]>`
    select r.id, r.uncovered_minutes as "uncoveredMinutes", r.covered_minutes as "coveredMinutes", r.note, p.id as "byId", p.name as by,
           r.set_at as at,
           (select coalesce(json_agg(json_build_object('weekday', s.weekday, 'endsAt', s.ends_at) order by s.weekday), '[]')
            from shift_end s where s.rule_id = r.id) as "shiftEnds"
    from opening_rule r join person p on p.id = r.set_by_id order by r.set_at desc, r.id desc limit ${limit}`;
}

export async function findShop(sql: Sql): Promise<{ zone: string; openLimitMinutes: number } | undefined> {
  const [row] = await sql<{ zone: string; openLimitMinutes: number }[]>`
    select zone, open_limit_minutes as "openLimitMinutes" from shop`;
  return row;
}

/** Two leads who set the limits at once wait for each other here. */
export async function lockShop(sql: Sql): Promise<void> {
  await sql`select from shop for update`;
}

export async function insertRule(
  sql: Sql,
  of: {
    uncoveredMinutes: number;
    coveredMinutes: number;
    note: string;
    byId: string;
    shiftEnds: readonly { weekday: number; endsAt: string }[];
  },
): Promise<void> {
  const id = newId();
  await sql`
    insert into opening_rule (id, uncovered_minutes, covered_minutes, note, set_by_id)
    values (${id}, ${of.uncoveredMinutes}, ${of.coveredMinutes}, ${of.note}, ${of.byId})`;
  for (const { weekday, endsAt } of of.shiftEnds) {
    await sql`insert into shift_end (rule_id, weekday, ends_at) values (${id}, ${weekday}, ${endsAt})`;
  }
}

export interface NowRow {
  readonly now: string;
  /** The latest end of a shift, in the shop's zone; null: none is kept. */
  readonly lastShiftEnd: string | null;
}

/** The database's clock, and the latest shift end of the rule that holds. */
export async function findNow(sql: Sql): Promise<NowRow> {
  const [row] = await sql<NowRow[]>`
    select clock_timestamp() as now,
      (select max(e.at) from shop,
         (select id from opening_rule order by set_at desc, id desc limit 1) r
         join shift_end s on s.rule_id = r.id
         cross join generate_series(0, 7) back
         cross join lateral (
           select (((clock_timestamp() at time zone (select zone from shop))::date - back) + s.ends_at::time)
                    at time zone (select zone from shop) as at,
                  extract(isodow from (clock_timestamp() at time zone (select zone from shop))::date - back) as isodow) e
       where e.isodow = s.weekday and e.at <= clock_timestamp()) as "lastShiftEnd"`;
  return row ?? { now: new Date(0).toISOString(), lastShiftEnd: null };
}

export interface OpenRow {
  readonly openingId: string;
  readonly engineId: string;
  readonly serial: string;
  readonly jobId: string;
  readonly number: number;
  readonly openedAt: string;
  readonly covered: boolean;
  readonly coveredSince: string;
  readonly insideSince: string | null;
  readonly inside: string | null;
  readonly seenById: string;
  readonly seenBy: string;
  readonly seenAt: string;
  readonly seenAs: string;
}

/**
 * Every open engine, or one opening: covered or not, what may be inside, and who did the last act at it (by the engine's
 * events since it was opened that were done standing at it, index event_engine_id_engine_number_key; else who opened it).
 */
export async function findOpenEngines(sql: Sql, openingId?: string): Promise<readonly OpenRow[]> {
  return sql<OpenRow[]>`
    select s.opening_id as "openingId", e.id as "engineId", e.serial, j.id as "jobId", j.number, s.opened_at as "openedAt", s.covered,
           s.covered_since as "coveredSince",
           (select min(x.opened_at) from inside_search x where x.opening_id = s.opening_id and x.ended_at is null) as "insideSince",
           (select string_agg(l.count || ' × ' || l.what, '; ') from turning_lock l where l.opening_id = s.opening_id) as inside,
           p.id as "seenById", p.name as "seenBy", coalesce(v.happened_at, s.opened_at) as "seenAt", coalesce(v.kind, 'opening.opened') as "seenAs"
    from opening_standing s
    join opening o on o.id = s.opening_id
    join engine e on e.id = s.engine_id
    join job j on j.id = s.job_id
    left join lateral (
      select v.actor_id, v.happened_at, v.kind from event v
      where v.engine_id = s.engine_id and v.happened_at >= s.opened_at and v.actor_id is not null
        and (v.kind = any(${kindsWhere('at the engine')}::text[])
             or (v.kind = any(${kindsWhere('where the engine went')}::text[])
                 and (v.data -> 'engine' = 'true' or v.data -> 'what' ? 'the engine' or v.data ->> 'what' = 'the engine')))
      order by v.engine_number desc limit 1
    ) v on true
    join person p on p.id = coalesce(v.actor_id, o.opened_by_id)
    where ${openingId === undefined ? sql`true` : sql`s.opening_id = ${openingId}`}
    order by s.opened_at, s.opening_id`;
}

export async function insertLook(
  sql: Sql,
  of: { openingId: string; covered: boolean; words: string; byId: string },
): Promise<void> {
  await sql`
    insert into opening_look (id, opening_id, covered, words, looked_by_id)
    values (${newId()}, ${of.openingId}, ${of.covered}, ${of.words}, ${of.byId})`;
}
