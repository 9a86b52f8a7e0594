import type { Sql } from '#platform/database/client.ts';
import type { ArrivalRow, BayRow, EngineRow, FindingRow, HandoverRow, PartsRow, ShopRow, WaitRow } from './rows.ts';

/**
 * The open jobs (index job_open; of one engine job_one_visit_at_a_time) and what they wait for. `offset 0` keeps
 * job_wait from being joined as a whole: it is asked for one job at a time, each branch by that job's own index.
 */
const openJobs = (sql: Sql, engineId?: string) => sql`
  open_job as materialized (
    select j.id, j.number, j.taken_in_at, j.engine_id, e.serial, f.name as family_name, f.id as family_id, f.code, f.cycle, f.cooling,
           f.bore_nm, f.stroke_nm, o.id as owner_id, o.name as owner_name
    from job j join engine e on e.id = j.engine_id join family f on f.id = e.family_id join owner o on o.id = e.owner_id
    where j.handed_back_at is null ${engineId === undefined ? sql`` : sql`and j.engine_id = ${engineId}`}
  ),
  wait as materialized (
    select j.engine_id, w.* from open_job j
    cross join lateral (select * from job_wait w where w.job_id = j.id offset 0) w
  )`;

/** Holder by custody_engine_now, opening by opening_one_at_a_time, promise and plan by their newest row. */
const engineRows = (sql: Sql) => sql`
  select j.engine_id as id, j.serial, j.id as "jobId", j.number, j.taken_in_at as "takenInAt",
         j.family_id as "familyId", j.code, j.family_name as family, j.cycle, j.cooling, j.bore_nm as bore, j.stroke_nm as stroke,
         j.owner_id as "ownerId", j.owner_name as owner,
         c.kind as "holderKind", c.holder_id as "holderId", coalesce(hp.name, hb.name, hv.name, ho.name) as holder, c.from_at as since,
         c.place_id as "placeId", pb.name as place, a.bay_id as "assignedId", ab.name as assigned,
         os.opening_id as "openingId", os.opened_at as "openedAt", os.depth, os.covered, os.covered_since as "coveredSince",
         p.ready_on as "readyOn", p.sure_of_5 as "sureOf5"
  from open_job j
  left join lateral (
    select case when c.person_id is not null then 'person' when c.rest_bay_id is not null then 'bay'
                when c.vendor_id is not null then 'vendor' else 'owner' end as kind,
           coalesce(c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id) as holder_id, c.*
    from custody c where c.engine_id = j.engine_id and c.until_at is null
  ) c on true
  left join person hp on hp.id = c.person_id
  left join bay hb on hb.id = c.rest_bay_id
  left join vendor hv on hv.id = c.vendor_id
  left join owner ho on ho.id = c.owner_id
  left join bay pb on pb.id = c.place_id
  left join opening_standing os on os.engine_id = j.engine_id
  left join lateral (
    select a.bay_id from bay_assignment a where a.job_id = j.id order by a.assigned_at desc, a.id desc limit 1
  ) a on true
  left join bay ab on ab.id = a.bay_id
  left join lateral (
    select p.ready_on, p.sure_of_5 from promise p where p.job_id = j.id order by p.made_at desc, p.id desc limit 1
  ) p on true
  order by c.from_at, j.number`;

const waitRows = (sql: Sql) => sql`
  select w.engine_id as "engineId", w.waits_for as "waitsFor", w.since, w.due_on as "dueOn", w.words, w.cause, w.cause_id as "causeId",
         w.ends_kind as "endsKind", w.ends_id as "endsId", w.ends_name as "endsName"
  from wait w order by w.since, w.cause_id`;

const handoverRows = (sql: Sql) => sql`
  select j.engine_id as "engineId", h.id, h.offered_at as "offeredAt", h.offered_at + answer_time() as "answerDueAt", h.engine_id is not null as "ofTheEngine",
         g.id as "giverId", g.name as giver, r.id as "receiverId", r.name as receiver
  from open_job j join handover h on h.job_id = j.id and h.ended_at is null
  join person g on g.id = h.giver_id join person r on r.id = h.receiver_id
  order by h.offered_at, h.id`;

const partsRows = (sql: Sql) => sql`
  select w.engine_id as "engineId", w.job_id as "jobId", d.id as "demandLineId", p.id as "partId", p.number, p.name,
         case when d.short > 0 then d.short else d.not_asked end as short, d.wanted,
         w.since, w.due_on as "dueOn"
  from wait w join demand_line d on d.id = w.cause_id join part p on p.id = d.part_id
  where w.cause = 'demand' order by w.due_on nulls first, w.since, d.id`;

/** Of each dimension the newest round's standing finding (index finding_job), unless its part is out or a reading was struck. */
const findingRows = (sql: Sql) => sql`
  select f.*, o.id as "obligationId", o.decided_at is not null as decided, o.discharged_at is not null as settled
  from (
    select distinct on (f.job_id, f.dimension_code)
           j.engine_id as "engineId", f.job_id as "jobId", f.id as "findingId", f.dimension_code as dimension, f.dimension_name as name,
           f.round, f.verdict, f.value_type as "valueType", f.value_low as low, f.value_high as high, f.unit, f.decimals, f.guard,
           f.nearest_side as side, f.nearest_limit as "limit", f.margin, f.p_past_low as "pLow", f.p_past_high as "pHigh",
           f.judged_at as "judgedAt", f.fitted_part_id as "partId"
    from open_job j join finding f on f.job_id = j.id
    where not exists (select from finding n where n.supersedes_id = f.id)
    order by f.job_id, f.dimension_code, array_position(array['as received', 'after work', 'as built'], f.round) desc, f.judged_at desc, f.id desc
  ) f
  left join fitted_part fp on fp.id = f."partId"
  left join obligation o on o.finding_id = f."findingId"
  where f.verdict in ('past the limit', 'undecided') and fp.removed_at is null
    and not exists (select from finding_reading fr join reading_strike s on s.reading_id = fr.reading_id where fr.finding_id = f."findingId")
  order by (o.discharged_at is not null), f.verdict, f."judgedAt", f."findingId"`;

/** Deliveries (index purchase_line_coming) and work due back (outside_work_away), the next few of each. */
const arrivalRows = (sql: Sql) => sql`
  (select 'delivery' as kind, pl.promised_on as "on", j.id as "jobId", j.engine_id as "engineId", j.family_name as family, j.serial,
          v.id as "vendorId", v.name as vendor, p.name as words, pl.quantity - pl.received as quantity
   from purchase_line pl join vendor v on v.id = pl.vendor_id join part p on p.id = pl.part_id left join open_job j on j.id = pl.job_id
   where pl.received < pl.quantity and pl.promised_on is not null order by pl.promised_on, pl.id limit 6)
  union all
  (select 'return', w.due_on, j.id, j.engine_id, j.family_name, j.serial, v.id, v.name, w.work, null
   from open_job j join outside_work w on w.job_id = j.id and w.back_at is null join vendor v on v.id = w.vendor_id
   where w.due_on is not null order by w.due_on, w.id limit 6)`;

const rowsOf = (sql: Sql, rows: ReturnType<typeof waitRows>) =>
  sql`(select coalesce(json_agg(r), '[]') from (${rows}) r)`;

export interface FloorRows {
  readonly shop: ShopRow;
  readonly bays: readonly BayRow[];
  readonly engines: readonly EngineRow[];
  readonly waits: readonly WaitRow[];
  readonly handovers: readonly HandoverRow[];
  readonly parts: readonly PartsRow[];
  readonly findings: readonly FindingRow[];
  readonly arrivals: readonly ArrivalRow[];
  readonly unheldTrays: number;
}

/** The whole floor in one statement, so that everything on it is of one instant. */
export async function findFloor(sql: Sql): Promise<FloorRows | undefined> {
  const shop = sql`
    select name, zone, open_limit_minutes as "openLimitMinutes", figures_invented as "figuresInvented", statement_timestamp() as "asOf",
           (statement_timestamp() at time zone zone)::date as today from shop`;
  const bays = sql`
    select id, name, kind, capacity, grid_column as "column", grid_row as "row", grid_width as width, grid_height as height
    from bay where retired_at is null order by grid_row, grid_column, name`;
  const [floor] = await sql<FloorRows[]>`
    with ${openJobs(sql)}
    select (select to_json(s) from (${shop}) s) as shop, ${rowsOf(sql, bays)} as bays, ${rowsOf(sql, engineRows(sql))} as engines,
           ${rowsOf(sql, waitRows(sql))} as waits, ${rowsOf(sql, handoverRows(sql))} as handovers,
           ${rowsOf(sql, partsRows(sql))} as parts, ${rowsOf(sql, findingRows(sql))} as findings,
           ${rowsOf(sql, arrivalRows(sql))} as arrivals,
           (select count(*)::int from open_job j join tray t on t.job_id = j.id and t.emptied_at is null
            where not exists (select from custody c where c.tray_id = t.id and c.until_at is null)) as "unheldTrays"`;
  return floor;
}

export type StandingRows = Pick<FloorRows, 'engines' | 'waits' | 'handovers'>;

/** Where one engine's open job stands, by the same statement. */
export async function findStanding(sql: Sql, engineId: string): Promise<StandingRows | undefined> {
  const [standing] = await sql<StandingRows[]>`
    with ${openJobs(sql, engineId)}
    select ${rowsOf(sql, engineRows(sql))} as engines, ${rowsOf(sql, waitRows(sql))} as waits, ${rowsOf(sql, handoverRows(sql))} as handovers`;
  return standing;
}
