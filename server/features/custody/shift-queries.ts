import type { ShiftSnapshot } from '#contracts/custody-past.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

const engineOf = (sql: Sql) => sql`json_build_object('id', e.id, 'serial', e.serial, 'family', f.name)`;
const named = (sql: Sql, alias: string) => sql`json_build_object('id', ${sql(alias)}.id, 'name', ${sql(alias)}.name)`;
/** An instant in JSON as everywhere else on the wire. */
const instant = (sql: Sql, column: string) =>
  sql`to_char(${sql(column)} at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.US"Z"')`;

/** Engines and trays that are in the shop's care: of jobs not handed back, trays not emptied. */
const subjects = (sql: Sql) => sql`
  select 'engine' as kind, e.id, e.serial as name, e.id as engine_id from job j join engine e on e.id = j.engine_id
  where j.handed_back_at is null
  union all
  select 'tray', t.id, t.label, j.engine_id from job j join tray t on t.job_id = j.id
  where j.handed_back_at is null and t.emptied_at is null`;

/** How the shop stands, in one statement, so that all of it is of one instant. */
export async function findShiftEnd(sql: Sql): Promise<{ asOf: string; snapshot: ShiftSnapshot }> {
  const [row] = await sql<{ asOf: string; snapshot: ShiftSnapshot }[]>`
    with subject as materialized (${subjects(sql)}),
    held as (
      select s.*, c.id as custody_id, c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id, c.place_id, c.from_at
      from subject s
      left join custody c on c.until_at is null
        and case when s.kind = 'engine' then c.engine_id = s.id else c.tray_id = s.id end
    )
    select statement_timestamp() as "asOf", json_build_object(
      'items', (select coalesce(json_agg(json_build_object(
          'subject', json_build_object('kind', h.kind, 'id', h.id, 'name', h.name), 'engine', ${engineOf(sql)},
          'holder', json_build_object('kind', case when h.person_id is not null then 'person' when h.rest_bay_id is not null then 'bay'
                      when h.vendor_id is not null then 'vendor' else 'owner' end,
                    'id', coalesce(p.id, b.id, v.id, o.id), 'name', coalesce(p.name, b.name, v.name, o.name)),
          'place', case when s.id is null then null else ${named(sql, 's')} end, 'since', ${instant(sql, 'h.from_at')})
          order by p.name nulls last, e.serial, h.kind, h.name, h.id), '[]')
        from held h join engine e on e.id = h.engine_id join family f on f.id = e.family_id
        left join person p on p.id = h.person_id left join bay b on b.id = h.rest_bay_id left join vendor v on v.id = h.vendor_id
        left join owner o on o.id = h.owner_id left join bay s on s.id = h.place_id where h.custody_id is not null),
      'unheld', (select coalesce(json_agg(json_build_object(
          'subject', json_build_object('kind', h.kind, 'id', h.id, 'name', h.name), 'engine', ${engineOf(sql)}) order by e.serial, h.id), '[]')
        from held h join engine e on e.id = h.engine_id join family f on f.id = e.family_id where h.custody_id is null),
      'offers', (select coalesce(json_agg(json_build_object('id', h.id, 'engine', ${engineOf(sql)}, 'giver', ${named(sql, 'g')},
          'receiver', ${named(sql, 'r')}, 'offeredAt', ${instant(sql, 'h.offered_at')}, 'answerDueAt', ${instant(sql, 'h.due_at')},
          'overdue', h.due_at < statement_timestamp()) order by h.offered_at, h.id), '[]')
        from (select h.*, h.offered_at + answer_time() as due_at from handover h where h.ended_at is null) h
        join job j on j.id = h.job_id join engine e on e.id = j.engine_id join family f on f.id = e.family_id
        join person g on g.id = h.giver_id join person r on r.id = h.receiver_id),
      'uncovered', (select coalesce(json_agg(json_build_object('engine', ${engineOf(sql)}, 'depth', o.depth,
          'since', ${instant(sql, 'o.covered_since')}, 'place', case when s.id is null then null else ${named(sql, 's')} end)
          order by o.covered_since, e.id), '[]')
        from opening_standing o join engine e on e.id = o.engine_id join family f on f.id = e.family_id
        left join custody c on c.engine_id = e.id and c.until_at is null left join bay s on s.id = c.place_id where not o.covered)
    ) as snapshot`;
  return row ?? { asOf: '', snapshot: { items: [], unheld: [], offers: [], uncovered: [] } };
}

export interface ReportRow {
  readonly id: string;
  readonly asOf: string;
  readonly note: string;
  readonly signedById: string;
  readonly signedBy: string;
  readonly signedAt: string;
}

const reports = (sql: Sql) => sql`
  select s.id, s.as_of as "asOf", s.note, s.signed_by_id as "signedById", p.name as "signedBy", s.signed_at as "signedAt"`;

/** Reports signed, the latest first. */
export async function findReports(sql: Sql, limit: number): Promise<readonly ReportRow[]> {
  return sql<ReportRow[]>`
    ${reports(sql)} from shift_report s join person p on p.id = s.signed_by_id
    order by s.signed_at desc, s.id desc limit ${limit}`;
}

export async function findReport(sql: Sql, id: string): Promise<(ReportRow & { snapshot: ShiftSnapshot }) | undefined> {
  const [row] = await sql<(ReportRow & { snapshot: ShiftSnapshot })[]>`
    ${reports(sql)}, s.snapshot from shift_report s join person p on p.id = s.signed_by_id where s.id = ${id}`;
  return row;
}

export async function insertReport(
  sql: Sql,
  of: { asOf: string; snapshot: ShiftSnapshot; note: string; byId: string },
): Promise<string> {
  const id = newId();
  await sql`
    insert into shift_report (id, as_of, snapshot, note, signed_by_id)
    values (${id}, ${of.asOf}, ${sql.json(of.snapshot as never)}, ${of.note}, ${of.byId})`;
  return id;
}

export async function findAnswerMinutes(sql: Sql): Promise<number> {
  const [row] = await sql<{ minutes: number }[]>`select (extract(epoch from answer_time()) / 60)::int as minutes`;
  return row?.minutes ?? 0;
}

export async function insertRule(sql: Sql, of: { answerMinutes: number; byId: string }): Promise<void> {
  await sql`
    insert into custody_rule (id, answer_minutes, set_by_id) values (${newId()}, ${of.answerMinutes}, ${of.byId})`;
}
