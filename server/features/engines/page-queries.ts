import type { EnginePage, ObligationFacts, TrayFacts } from '#contracts/engines.ts';
import type { Family } from '#contracts/floor.ts';
import { besideLabel } from '#domain/custody/counting.ts';
import type { Sql } from '#platform/database/client.ts';

type Job = NonNullable<EnginePage['job']>;
type Run = EnginePage['runs'][number];

/** The title block. Instants of these rows come out of JSON and end in +00:00. */
export interface TitleRow {
  readonly id: string;
  readonly serial: string;
  readonly note: string;
  readonly family: Omit<Family, 'bore' | 'stroke'> & { readonly bore: number; readonly stroke: number };
  readonly owner: EnginePage['owner'];
  readonly holder: EnginePage['holder'];
  readonly place: EnginePage['place'];
}

export type JobRow = Omit<Job, 'hours' | 'visit' | 'promise'> & {
  readonly minutes: number;
  readonly promise: Job['promise'];
};

export interface VisitRow {
  readonly jobId: string;
  readonly number: number;
  readonly minutes: number;
  readonly complaint: string;
  readonly takenInAt: string;
  readonly handedBackAt: string | null;
}

export interface PartRow {
  readonly id: string;
  readonly place: string;
  readonly name: string;
  readonly sizeClass: string;
  readonly grade: string;
  readonly mark: string;
  readonly fittedAt: string;
  readonly fittedMinutes: number;
  readonly fittedJobNumber: number | null;
}

export interface PageRows {
  readonly title: TitleRow;
  readonly job: JobRow | null;
  readonly visits: readonly VisitRow[];
  readonly parts: readonly PartRow[];
  readonly trays: readonly TrayFacts[];
  readonly obligations: readonly ObligationFacts[];
  readonly runs: readonly Run[];
}

const named = (sql: Sql, alias: string) =>
  sql`case when ${sql(alias)}.id is not null then json_build_object('id', ${sql(alias)}.id, 'name', ${sql(alias)}.name) end`;

/** Who holds a subject and where, of the custody row `c`. */
const holder = (sql: Sql) => sql`
  (select case when c.id is null then null else json_build_object(
     'kind', case when c.person_id is not null then 'person' when c.rest_bay_id is not null then 'bay'
                  when c.vendor_id is not null then 'vendor' else 'owner' end,
     'id', coalesce(c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id), 'since', c.from_at,
     'name', coalesce((select name from person where id = c.person_id), (select name from bay where id = c.rest_bay_id),
                      (select name from vendor where id = c.vendor_id), (select name from owner where id = c.owner_id))) end)`;

const title = (sql: Sql) => sql`
  select e.id, e.serial, e.note,
         json_build_object('id', f.id, 'code', f.code, 'name', f.name, 'cycle', f.cycle, 'cooling', f.cooling,
                           'bore', f.bore_nm, 'stroke', f.stroke_nm) as family,
         ${named(sql, 'o')} as owner, ${holder(sql)} as holder,
         case when b.id is not null then json_build_object('id', b.id, 'name', b.name, 'kind', b.kind) end as place
  from e join family f on f.id = e.family_id join owner o on o.id = e.owner_id
  left join custody c on c.engine_id = e.id and c.until_at is null
  left join bay b on b.id = c.place_id`;

const job = (sql: Sql) => sql`
  select j.id, j.number, j.version, j.running_minutes as minutes, j.complaint, j.wishes, j.taken_in_at as "takenInAt",
         ${named(sql, 't')} as "takenInBy", j.handed_back_at as "handedBackAt", ${named(sql, 'h')} as "handedBackBy",
         (select json_build_object('id', r.id, 'number', r.number, 'figuresInvented', r.figures_invented, 'newest',
                   (select max(n.number) from spec_revision n where n.family_id = r.family_id and n.published_at is not null))
          from spec_revision r where r.id = j.revision_id) as revision,
         (select json_build_object('readyOn', p.ready_on, 'sureOf5', p.sure_of_5, 'note', p.note, 'madeAt', p.made_at, 'madeBy', ${named(sql, 'm')})
          from promise p join person m on m.id = p.made_by_id where p.job_id = j.id order by p.made_at desc, p.id desc limit 1) as promise
  from j join person t on t.id = j.taken_in_by_id left join person h on h.id = j.handed_back_by_id`;

const visits = (sql: Sql) => sql`
  select v.id as "jobId", v.number, v.running_minutes as minutes, v.complaint, v.taken_in_at as "takenInAt", v.handed_back_at as "handedBackAt"
  from e join job v on v.engine_id = e.id order by v.taken_in_at desc, v.number desc`;

const parts = (sql: Sql) => sql`
  select p.id, p.place_code as place, p.name, p.size_class as "sizeClass", p.grade, p.mark, p.fitted_at as "fittedAt",
         p.fitted_minutes as "fittedMinutes", fj.number as "fittedJobNumber"
  from e join fitted_part p on p.engine_id = e.id and p.removed_at is null
  left join job fj on fj.id = p.fitted_job_id
  left join j on true
  left join spec_place sp on sp.revision_id = j.revision_id and sp.code = p.place_code
  order by sp.ordinal nulls last, p.place_code`;

/** Counts are left out where somebody is to count them blind: the service knows which trays those are. */
const trays = (sql: Sql) => sql`
  select t.id, t.label, t.name, t.alone, t.layer, t.emptied_at as "emptiedAt", ${holder(sql)} as holder, ${named(sql, 'b')} as place,
         (select coalesce(json_agg(json_build_object('id', p.id, 'name', p.name, 'layer', p.layer, 'expected', p.expected, 'off', p.off,
                                                     'back', p.fitted + p.renewed + p.accounted, 'here', i.count) order by p.added_at, p.id), '[]')
          from piece_in_tray i join piece p on p.id = i.piece_id where i.tray_id = t.id) as pieces
  from j join tray t on t.job_id = j.id
  left join custody c on c.tray_id = t.id and c.until_at is null
  left join bay b on b.id = c.place_id
  order by t.made_at, t.id`;

const obligations = (sql: Sql) => sql`
  select o.id, o.words, o.inside, o.opened_at as "openedAt",
         case when f.id is not null then json_build_object('kind', 'finding', 'findingId', f.id, 'name', f.dimension_name, 'round', f.round, 'verdict', f.verdict)
              when l.id is not null then json_build_object('kind', 'handover', 'handoverId', l.handover_id, 'piece', l.name,
                                                           'tray', coalesce((select t.label from tray t where t.id = l.tray_id), ${besideLabel}::text))
              when p.id is not null then json_build_object('kind', 'count', 'pieceId', p.id, 'piece', p.name)
              else json_build_object('kind', 'lead', 'by', ${named(sql, 'r')}) end as cause,
         (select json_build_object('kind', d.kind, 'sizeClass', d.size_class, 'reason', d.reason, 'at', a.acted_at, 'by', ${named(sql, 'w')})
          from obligation_act a join disposition d on d.id = a.disposition_id join person w on w.id = a.acted_by_id
          where a.obligation_id = o.id and a.act = 'decided' and o.decided_at is not null order by a.acted_at desc, a.id desc limit 1) as decision,
         (select json_build_object('reason', a.reason, 'findingId', a.finding_id, 'at', a.acted_at, 'by', ${named(sql, 'w')})
          from obligation_act a join person w on w.id = a.acted_by_id
          where a.obligation_id = o.id and a.act = 'discharged' and o.discharged_at is not null order by a.acted_at desc, a.id desc limit 1) as discharge,
         (select coalesce(json_agg(json_build_object('lineId', d.id, 'part', pt.name, 'wanted', d.wanted, 'reserved', d.reserved, 'short', d.short,
                                                     'issued', d.issued) order by d.added_at, d.id), '[]')
          from demand_line d join part pt on pt.id = d.part_id
          where exists (select from demand_reason dr where dr.demand_line_id = d.id and dr.obligation_id = o.id and dr.withdrawn_at is null)) as demands
  from j join obligation o on o.job_id = j.id
  left join finding f on f.id = o.finding_id
  left join handover_line l on l.id = o.handover_line_id
  left join piece p on p.id = o.piece_id
  left join person r on r.id = o.raised_by_id
  order by o.discharged_at is not null, o.opened_at, o.id`;

const runs = (sql: Sql) => sql`
  select r.id, p.name, p.kind, v.number as version, ${named(sql, 's')} as "startedBy", r.started_at as "startedAt",
         (select count(*)::int from procedure_step st where st.version_id = v.id and not step_left_out(r.id, st.id)) as steps,
         (select count(distinct m.step_id)::int from step_mark_now m
          where m.run_id = r.id and m.mark in ('done', 'skipped') and not step_left_out(r.id, m.step_id)) as done
  from j join procedure_run r on r.job_id = j.id
  join procedure_version v on v.id = r.version_id join procedure p on p.id = v.procedure_id join person s on s.id = r.started_by_id
  order by r.started_at, r.id`;

const many = (sql: Sql, rows: ReturnType<typeof visits>) =>
  sql`(select coalesce(json_agg(to_json(r)), '[]') from (${rows}) r)`;
const one = (sql: Sql, row: ReturnType<typeof visits>) => sql`(select to_json(r) from (${row}) r)`;

/** All of an engine's page but what was measured, in one statement; its job is the open one, else the last. */
export async function findPage(sql: Sql, engineId: string): Promise<PageRows | undefined> {
  const [page] = await sql<(Omit<PageRows, 'title'> & { title: TitleRow | null })[]>`
    with e as (select * from engine where id = ${engineId}),
         j as (select v.* from e join job v on v.engine_id = e.id order by v.handed_back_at is not null, v.taken_in_at desc limit 1)
    select ${one(sql, title(sql))} as title, ${one(sql, job(sql))} as job, ${many(sql, visits(sql))} as visits,
           ${many(sql, parts(sql))} as parts, ${many(sql, trays(sql))} as trays, ${many(sql, obligations(sql))} as obligations,
           ${many(sql, runs(sql))} as runs`;
  return page === undefined || page.title === null ? undefined : { ...page, title: page.title };
}
