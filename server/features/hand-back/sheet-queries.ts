import type { Sql } from '#platform/database/client.ts';

export interface SheetHead {
  readonly figuresInvented: boolean;
  readonly number: number;
  readonly visit: number;
  readonly serial: string;
  readonly family: string;
  readonly cycle: 'four-stroke' | 'two-stroke';
  readonly cooling: 'water' | 'air';
  readonly owner: string;
  readonly minutes: number;
  readonly complaint: string;
  readonly wishes: string;
  readonly takenInAt: string;
  readonly handedBackAt: string | null;
  readonly handedBackById: string | null;
  readonly handedBackBy: string | null;
  readonly note: string;
  readonly revision: number;
  readonly promised: string | null;
  readonly agreedMinor: number | null;
  readonly currency: string;
}

/** The head of the sheet: one row of facts about the job. */
export async function findHead(sql: Sql, jobId: string): Promise<SheetHead | undefined> {
  const [head] = await sql<SheetHead[]>`
    select r.figures_invented as "figuresInvented", j.number,
           (select count(*)::int from job b where b.engine_id = j.engine_id and b.taken_in_at <= j.taken_in_at) as visit,
           e.serial, f.name as family, f.cycle, f.cooling, o.name as owner, j.running_minutes as minutes, j.complaint, j.wishes,
           j.taken_in_at as "takenInAt", j.handed_back_at as "handedBackAt", j.handed_back_by_id as "handedBackById",
           b.name as "handedBackBy", j.handed_back_note as note, r.number as revision, p.ready_on as promised,
           case when q.yes then q.sum_minor end as "agreedMinor", s.currency
    from job j cross join shop s
    join engine e on e.id = j.engine_id join family f on f.id = e.family_id join owner o on o.id = e.owner_id
    join spec_revision r on r.id = j.revision_id
    left join person b on b.id = j.handed_back_by_id
    left join job_promise p on p.job_id = j.id left join job_quote q on q.job_id = j.id
    where j.id = ${jobId}`;
  return head;
}

export interface SheetFinding {
  readonly dimension: string;
  readonly name: string;
  readonly round: string;
  readonly type: 'point' | 'interval' | 'span' | 'felt';
  readonly low: number;
  readonly high: number | null;
  readonly guard: number;
  readonly unit: string;
  readonly decimals: number;
  readonly verdict: string;
  readonly rule: string;
  readonly limits: { readonly standard?: Bounds; readonly service?: Bounds };
  readonly instruments: readonly string[];
  readonly byId: string;
  readonly by: string;
  readonly at: string;
  readonly revision: number;
  readonly crossChecks: readonly { readonly agrees: boolean; readonly words: string }[];
}
/** As the finding keeps them: an open end is null or left out. */
interface Bounds {
  readonly low?: number | null;
  readonly high?: number | null;
}

/** The standing findings in the order of the sheet; of one dimension every round, since the work shows between them. */
export async function findFindings(sql: Sql, jobId: string): Promise<readonly SheetFinding[]> {
  return sql<SheetFinding[]>`
    select f.dimension_code as dimension, f.dimension_name as name, f.round, f.value_type as type, f.value_low as low, f.value_high as high,
           f.guard, f.unit, f.decimals, f.verdict, f.rule, f.limits,
           array(select distinct i.code from finding_reading fr join reading r on r.id = fr.reading_id
                 join instrument i on i.id = r.instrument_id where fr.finding_id = f.id order by i.code) as instruments,
           p.id as "byId", p.name as by, f.judged_at as at, v.number as revision,
           f.cross_checks as "crossChecks"
    from finding_standing f join spec_revision v on v.id = f.revision_id join person p on p.id = f.judged_by_id
    left join spec_dimension d on d.revision_id = f.revision_id and d.code = f.dimension_code
    where f.job_id = ${jobId}
    order by d.ordinal nulls last, f.dimension_code,
             case f.round when 'as received' then 1 when 'after work' then 2 else 3 end`;
}

export async function findRevisionMoves(sql: Sql, jobId: string) {
  return sql<{ from: number; to: number; reason: string; by: string; at: string }[]>`
    select a.number as "from", b.number as "to", m.reason, p.name as by, m.moved_at as at
    from revision_move m join spec_revision a on a.id = m.from_revision_id join spec_revision b on b.id = m.to_revision_id
    join person p on p.id = m.moved_by_id
    where m.job_id = ${jobId} order by m.moved_at`;
}

export async function findDecisions(sql: Sql, jobId: string) {
  return sql<{ id: string; obligation: string; kind: string; reason: string; by: string; discharged: string }[]>`
    select o.id, o.words as obligation, coalesce(d.kind, '') as kind, coalesce(d.reason, '') as reason, coalesce(w.name, '') as by,
           coalesce((select case when a.finding_id is not null then 'measured again' else a.reason end
                     from obligation_act a where a.obligation_id = o.id and a.act = 'discharged' order by a.acted_at desc limit 1), 'open') as discharged
    from obligation o
    left join lateral (select a.disposition_id from obligation_act a where a.obligation_id = o.id and a.act = 'decided'
                       order by a.acted_at desc limit 1) a on true
    left join disposition d on d.id = a.disposition_id left join person w on w.id = d.decided_by_id
    where o.job_id = ${jobId} order by o.opened_at`;
}

export async function findParts(sql: Sql, jobId: string) {
  return sql<{ number: string; name: string; quantity: number }[]>`
    select p.number, p.name, d.issued as quantity from demand_line d join part p on p.id = d.part_id
    where d.job_id = ${jobId} and d.issued > 0 order by p.name`;
}

export async function findOutside(sql: Sql, jobId: string) {
  return sql<{ vendor: string; work: string; sentAt: string; backAt: string | null }[]>`
    select v.name as vendor, w.work, w.sent_at as "sentAt", w.back_at as "backAt"
    from outside_work w join vendor v on v.id = w.vendor_id where w.job_id = ${jobId} order by w.sent_at`;
}

/** Each valve's last choice. */
export async function findShims(sql: Sql, jobId: string) {
  return sql<{ valve: string; chosen: number; from: string }[]>`
    select distinct on (c.valve_code) coalesce(v.name, c.valve_code) as valve, c.chosen_nm as chosen, c.from_words as "from"
    from shim_choice c join job j on j.id = c.job_id
    left join spec_valve v on v.revision_id = j.revision_id and v.code = c.valve_code
    where c.job_id = ${jobId} order by c.valve_code, c.chosen_at desc`;
}

export async function findProofsMade(sql: Sql, jobId: string) {
  return sql<{ name: string; passed: boolean; words: string; by: string; at: string; signedBy: string | null }[]>`
    select p.name, p.passed, p.words, w.name as by, p.proved_at as at, sw.name as "signedBy"
    from proof p join person w on w.id = p.proved_by_id left join sign_off s on s.proof_id = p.id left join person sw on sw.id = s.signed_by_id
    where p.job_id = ${jobId} order by p.proved_at`;
}

export async function findOpeningsMade(sql: Sql, jobId: string) {
  return sql<
    {
      openedAt: string;
      closedAt: string | null;
      closedBy: string | null;
      pieces: number;
      signedBy: string | null;
      overridden: boolean;
      leftInBoxes: boolean;
    }[]
  >`
    select o.opened_at as "openedAt", o.closed_at as "closedAt", c.name as "closedBy", sw.name as "signedBy",
           (select coalesce(sum(p.off), 0)::int from piece p where p.opening_id = o.id) as pieces,
           exists (select from override v where v.opening_id = o.id) as overridden,
           o.left_in_boxes as "leftInBoxes"
    from opening o left join person c on c.id = o.closed_by_id
    left join sign_off s on s.opening_id = o.id left join person sw on sw.id = s.signed_by_id
    where o.job_id = ${jobId} order by o.opened_at`;
}

export async function findHandovers(sql: Sql, jobId: string) {
  const [row] = await sql<{ accepted: number; withDifference: number }[]>`
    select count(*) filter (where outcome = 'accepted')::int as accepted,
           count(*) filter (where outcome = 'accepted with a difference')::int as "withDifference"
    from handover where job_id = ${jobId}`;
  return row ?? { accepted: 0, withDifference: 0 };
}

/** Searches that have ended, and how: what may have been inside is never left untold. */
export async function findEndedSearches(sql: Sql, jobId: string) {
  return sql<
    { what: string; outcome: 'found' | 'not inside'; by: string; at: string; reason: string; steps: number }[]
  >`
    select coalesce(piece_name(p), i.name || ', ' || i.where_words) as what,
           s.outcome, w.name as by, s.ended_at as at, s.ended_reason as reason,
           (select count(*)::int from search_tick t where t.search_id = s.id) as steps
    from inside_search s
    join person w on w.id = s.ended_by_id
    left join piece p on p.id = s.piece_id
    left join put_in i on i.id = s.put_in_id
    where s.job_id = ${jobId} order by s.ended_at, s.id`;
}

/** Steps done without the photo that they ask for, and why; one that was photographed all the same is none. */
export async function findUnphotographed(sql: Sql, jobId: string) {
  return sql<{ step: string; reason: string; by: string; at: string }[]>`
    select s.title as step, m.no_photo as reason, w.name as by, m.marked_at as at
    from step_mark_now m
    join procedure_run r on r.id = m.run_id
    join procedure_step s on s.id = m.step_id
    join person w on w.id = m.marked_by_id
    where r.job_id = ${jobId} and m.no_photo <> ''
      and not exists (select from step_photo p where p.run_id = m.run_id and p.step_id = m.step_id)
    order by m.marked_at, m.id`;
}

export async function findOverrides(sql: Sql, jobId: string) {
  return sql<{ gate: string; words: string; by: string; reasons: string[] }[]>`
    select o.gate, o.words, p.name as by, o.reasons from override o join person p on p.id = o.overridden_by_id
    where o.job_id = ${jobId} order by o.overridden_at`;
}

/** Everybody who did something on the job, in the order in which they first did. */
export async function findPeople(sql: Sql, jobId: string) {
  return sql<{ name: string; initials: string }[]>`
    select p.name, p.initials from event e join person p on p.id = e.actor_id
    where e.job_id = ${jobId} group by p.id, p.name, p.initials order by min(e.recorded_at)`;
}
