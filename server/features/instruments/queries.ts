import type { InstrumentFacts } from '#contracts/instruments.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/** An instrument with its latest check; quantities in base units of its kind. */
export interface InstrumentRow {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly instrumentKind: string;
  readonly kind: string;
  readonly unit: string;
  readonly decimals: number;
  readonly rangeLow: number;
  readonly rangeHigh: number;
  readonly resolution: number;
  readonly mpe: number;
  readonly repeatability: number | null;
  readonly repeatabilityStudyId: string | null;
  readonly blades: readonly { readonly thickness: number; readonly tolerance: number }[];
  readonly calibratedOn: string | null;
  readonly calibrationDueOn: string | null;
  readonly calibration: InstrumentFacts['calibration'];
  readonly checkId: string | null;
  readonly zeroError: number | null;
  readonly master: string | null;
  readonly masterU: number | null;
  readonly checkedById: string | null;
  readonly checkedBy: string | null;
  readonly checkedAt: string | null;
  readonly checkedToday: boolean;
}

/** Instruments in use, by code; the latest check of each by index instrument_check_latest. */
export async function findInstruments(sql: Sql): Promise<readonly InstrumentRow[]> {
  return sql<InstrumentRow[]>`
    with day as (select zone, (clock_timestamp() at time zone zone)::date as today from shop)
    select i.id, i.code, i.name, i.instrument_kind as "instrumentKind", i.kind, i.unit, i.decimals, i.range_low as "rangeLow",
           i.range_high as "rangeHigh", i.resolution, i.mpe, i.repeatability, 
           (select a.study_id from gauge_study_adoption a join gauge_study s on s.id = a.study_id
            where s.instrument_id = i.id order by a.adopted_at desc limit 1) as "repeatabilityStudyId", i.calibrated_on as "calibratedOn",
           i.calibration_due_on as "calibrationDueOn",
           case when i.calibration_due_on is null then 'no date' when i.calibration_due_on < d.today then 'overdue'
                when i.calibration_due_on <= d.today + 30 then 'due soon' else 'in date' end as calibration,
           (select coalesce(json_agg(json_build_object('thickness', b.thickness_nm, 'tolerance', b.tolerance_nm) order by b.thickness_nm), '[]')
            from instrument_blade b where b.instrument_id = i.id) as blades,
           k.id as "checkId", k.zero_error as "zeroError", k.master, k.master_u as "masterU", p.id as "checkedById", p.name as "checkedBy",
           k.checked_at as "checkedAt", coalesce((k.checked_at at time zone d.zone)::date = d.today, false) as "checkedToday"
    from instrument i
    cross join day d
    left join lateral (
      select * from instrument_check c where c.instrument_id = i.id order by c.checked_at desc, c.id desc limit 1
    ) k on true
    left join person p on p.id = k.checked_by_id
    where i.retired_at is null order by i.code`;
}

export interface LockedInstrument {
  readonly id: string;
  readonly code: string;
  readonly kind: string;
  readonly unit: string;
  readonly decimals: number;
  readonly span: number;
  readonly rangeLow: number;
  readonly rangeHigh: number;
  readonly mpe: number;
  readonly retired: boolean;
  /** The day it is in the shop's zone. */
  readonly today: string;
}

export async function lockInstrument(sql: Sql, id: string): Promise<LockedInstrument | undefined> {
  const [instrument] = await sql<LockedInstrument[]>`
    select id, code, kind, unit, decimals, range_high - range_low as span, range_low as "rangeLow", range_high as "rangeHigh", mpe, retired_at is not null as retired,
           (select (clock_timestamp() at time zone zone)::date from shop) as today
    from instrument where id = ${id} for update`;
  return instrument;
}

export async function insertCheck(
  sql: Sql,
  check: { instrumentId: string; zeroError: number; master: string; masterU: number; checkedById: string },
): Promise<{ id: string; checkedAt: string }> {
  const id = newId();
  const [row] = await sql<{ checkedAt: string }[]>`
    insert into instrument_check (id, instrument_id, zero_error, master, master_u, checked_by_id)
    values (${id}, ${check.instrumentId}, ${check.zeroError}, ${check.master}, ${check.masterU}, ${check.checkedById})
    returning checked_at as "checkedAt"`;
  return { id, checkedAt: row?.checkedAt ?? '' };
}
