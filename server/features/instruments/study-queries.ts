import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface StudyRow {
  readonly id: string;
  readonly instrumentId: string;
  readonly instrument: string;
  readonly kind: string;
  readonly unit: string;
  readonly decimals: number;
  readonly name: string;
  readonly parts: number;
  readonly trials: number;
  readonly people: readonly { readonly id: string; readonly name: string }[];
  readonly tolerance: number | null;
  readonly startedById: string;
  readonly startedBy: string;
  readonly startedAt: string;
  readonly closedById: string | null;
  readonly closedBy: string | null;
  readonly closedAt: string | null;
  readonly adopted: boolean;
  readonly taken: number;
}

const MOST = 200;

/** Studies, newest first: one by its id, those of one instrument, or all. */
export async function findStudies(sql: Sql, of: { id?: string; instrumentId?: string }): Promise<readonly StudyRow[]> {
  return sql<StudyRow[]>`
    select s.id, i.id as "instrumentId", i.code as instrument, i.kind, i.unit, i.decimals, s.name, s.parts, s.trials,
           (select json_agg(json_build_object('id', p.id, 'name', p.name) order by m.ordinal)
            from gauge_study_person m join person p on p.id = m.person_id where m.study_id = s.id) as people,
           s.tolerance, a.id as "startedById", a.name as "startedBy", s.started_at as "startedAt", z.id as "closedById",
           z.name as "closedBy", s.closed_at as "closedAt",
           exists (select from gauge_study_adoption d where d.study_id = s.id) as adopted,
           (select count(*)::int from gauge_study_standing r where r.study_id = s.id) as taken
    from gauge_study s
    join instrument i on i.id = s.instrument_id
    join person a on a.id = s.started_by_id
    left join person z on z.id = s.closed_by_id
    where (${of.id ?? null}::uuid is null or s.id = ${of.id ?? null})
      and (${of.instrumentId ?? null}::uuid is null or i.id = ${of.instrumentId ?? null})
    order by s.started_at desc, s.id desc limit ${MOST}`;
}

/** Keeps others from changing it until the act is done. */
export async function lockStudy(sql: Sql, id: string): Promise<boolean> {
  const rows = await sql`select from gauge_study where id = ${id} for update`;
  return rows.length > 0;
}

export interface StandingReading {
  readonly id: string;
  readonly part: number;
  readonly personId: string;
  readonly trial: number;
  readonly value: number;
  readonly keyedText: string;
  readonly keyedUnit: string;
  readonly replaced: boolean;
}

/** The readings that stand, by part, person as they were named, and trial. */
export async function findStandingReadings(sql: Sql, studyId: string): Promise<readonly StandingReading[]> {
  return sql<StandingReading[]>`
    select r.id, r.part, r.person_id as "personId", r.trial, r.value, r.keyed_text as "keyedText",
           r.keyed_unit as "keyedUnit", r.replaces_id is not null as replaced
    from gauge_study_standing r join gauge_study_person m on m.id = r.study_person_id
    where r.study_id = ${studyId} order by r.part, m.ordinal, r.trial`;
}

export async function insertStudy(
  sql: Sql,
  of: {
    instrumentId: string;
    name: string;
    parts: number;
    trials: number;
    tolerance: number | null;
    startedById: string;
    personIds: readonly string[];
  },
): Promise<string> {
  const id = newId();
  await sql`
    insert into gauge_study (id, instrument_id, name, parts, trials, tolerance, started_by_id)
    values (${id}, ${of.instrumentId}, ${of.name}, ${of.parts}, ${of.trials}, ${of.tolerance}, ${of.startedById})`;
  const people = of.personIds.map((person_id, index) => ({ id: newId(), study_id: id, person_id, ordinal: index + 1 }));
  await sql`insert into gauge_study_person ${sql(people)}`;
  return id;
}

export interface NewStudyReading {
  readonly studyId: string;
  readonly personId: string;
  readonly part: number;
  readonly trial: number;
  readonly value: number;
  readonly keyedText: string;
  readonly keyedUnit: string;
  readonly replacesId: string | null;
  readonly reason: string;
  readonly keyedById: string;
}

export async function insertStudyReadings(sql: Sql, readings: readonly NewStudyReading[]): Promise<void> {
  const rows = readings.map((of) => ({
    id: newId(),
    ...of,
  }));
  await sql`
    insert into gauge_study_reading (id, study_person_id, part, trial, value, keyed_text, keyed_unit, replaces_id, reason, keyed_by_id)
    select r.id, m.id, r.part, r.trial, r.value, r."keyedText", r."keyedUnit", r."replacesId", r.reason, r."keyedById"
    from jsonb_to_recordset(${sql.json(rows as never)}) as r (id uuid, "studyId" uuid, "personId" uuid, part integer,
      trial integer, value bigint, "keyedText" text, "keyedUnit" text, "replacesId" uuid, reason text, "keyedById" uuid)
    join gauge_study_person m on m.study_id = r."studyId" and m.person_id = r."personId"`;
}

export async function updateStudyClosed(sql: Sql, of: { id: string; closedById: string }): Promise<void> {
  await sql`update gauge_study set closed_at = clock_timestamp(), closed_by_id = ${of.closedById} where id = ${of.id}`;
}

export async function insertAdoption(
  sql: Sql,
  of: { studyId: string; repeatability: number; degreesOfFreedom: number; adoptedById: string },
): Promise<void> {
  await sql`
    insert into gauge_study_adoption (study_id, repeatability, degrees_of_freedom, adopted_by_id)
    values (${of.studyId}, ${of.repeatability}, ${of.degreesOfFreedom}, ${of.adoptedById})`;
}

/** Of some people, the ids of those who work here. */
export async function findWorking(sql: Sql, ids: readonly string[]): Promise<ReadonlySet<string>> {
  const rows = await sql<{ id: string }[]>`select id from person where id in ${sql(ids)} and left_at is null`;
  return new Set(rows.map(({ id }) => id));
}
