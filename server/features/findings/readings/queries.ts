import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface NewReading {
  readonly fittedPartId: string | null;
  readonly dimension: string;
  readonly position: string;
  readonly repeat: number;
  readonly round: string;
  readonly text: string;
  readonly unit: string;
  readonly kind: string;
  readonly observation: string;
  readonly low: number;
  readonly high: number | null;
  readonly goStack: readonly number[];
  readonly noGoStack: readonly number[];
  readonly rounded: boolean;
  readonly instrumentId: string | null;
  readonly checkId: string | null;
  readonly partMk: number | null;
  readonly instrumentMk: number | null;
  readonly temperatureUMk: number | null;
  readonly confirmReason: string;
}

/** One statement for any number of readings; returns their ids in the order given. */
export async function insertReadings(
  sql: Sql,
  of: { jobId: string; engineId: string; readById: string; readAt: string | undefined },
  readings: readonly NewReading[],
): Promise<readonly string[]> {
  const rows = readings.map((reading) => ({ id: newId(), ...reading }));
  await sql`
    insert into reading (id, job_id, engine_id, fitted_part_id, dimension_code, position_code, repeat, round, keyed_text,
      keyed_unit, kind, observation, value_low, value_high, go_stack, no_go_stack, rounded, instrument_id, check_id, part_mk,
      instrument_mk, temperature_u_mk, confirm_reason, read_by_id, read_at)
    select r.id, ${of.jobId}, ${of.engineId}, r."fittedPartId", r.dimension, r.position, r.repeat, r.round, r.text, r.unit,
      r.kind, r.observation, r.low, r.high, r."goStack", r."noGoStack", r.rounded, r."instrumentId", r."checkId",
      r."partMk", r."instrumentMk", r."temperatureUMk", r."confirmReason", ${of.readById},
      coalesce(${of.readAt ?? null}::timestamptz, clock_timestamp())
    from jsonb_to_recordset(${sql.json(rows as never)}) as r (id uuid, "fittedPartId" uuid, dimension text, position text,
      repeat int, round text, text text, unit text, kind text, observation text, low bigint, high bigint, "goStack" bigint[],
      "noGoStack" bigint[], rounded boolean, "instrumentId" uuid, "checkId" uuid, "partMk" int, "instrumentMk" int,
      "temperatureUMk" int, "confirmReason" text)`;
  return rows.map(({ id }) => id);
}

export async function findReading(sql: Sql, id: string) {
  const [reading] = await sql<
    {
      id: string;
      jobId: string;
      dimension: string;
      position: string;
      repeat: number;
      round: 'as received' | 'after work' | 'as built';
      text: string;
      unit: string;
      fittedPartId: string | null;
      struck: boolean;
    }[]
  >`
    select r.id, r.job_id as "jobId", r.dimension_code as dimension, r.position_code as position, r.repeat, r.round,
           r.keyed_text as text, r.keyed_unit as unit, r.fitted_part_id as "fittedPartId",
           exists (select from reading_strike s where s.reading_id = r.id) as struck
    from reading r where r.id = ${id}`;
  return reading;
}

export async function insertStrike(sql: Sql, of: { readingId: string; reason: string; byId: string }): Promise<void> {
  await sql`
    insert into reading_strike (reading_id, reason, struck_by_id) values (${of.readingId}, ${of.reason}, ${of.byId})`;
}

/** Today in the shop's zone. */
export async function findToday(sql: Sql, at: string | undefined): Promise<string> {
  const [row] = await sql<{ today: string }[]>`
    select (coalesce(${at ?? null}::timestamptz, clock_timestamp()) at time zone zone)::date as today from shop`;
  return row?.today ?? '0000-01-01';
}
