import type { CrossCheck } from '#contracts/findings.ts';
import type { BudgetLine, Verdict, Warning } from '#domain/metrology/finding.ts';
import type { Round } from '#domain/obligations/disposition.ts';

import type { Sql } from '#platform/database/client.ts';

/** A reading that stands, with the zero error of the check it was taken under. */
export interface ReadingRow {
  readonly id: string;
  readonly dimension: string;
  readonly position: string;
  readonly repeat: number;
  readonly round: Round;
  readonly text: string;
  readonly unit: string;
  readonly kind: string;
  readonly observation: 'value' | 'interval' | 'felt';
  readonly low: number;
  readonly high: number | null;
  readonly goStack: readonly number[];
  readonly noGoStack: readonly number[];
  readonly rounded: boolean;
  readonly instrumentId: string | null;
  readonly instrumentCode: string | null;
  readonly checkId: string | null;
  readonly zeroError: number;
  readonly masterU: number;
  readonly partMk: number | null;
  readonly instrumentMk: number | null;
  readonly temperatureUMk: number | null;
  readonly confirmReason: string;
  readonly fittedPartId: string | null;
  readonly readById: string;
  readonly readByName: string;
  readonly readAt: string;
  /** The day in the shop's zone. */
  readonly readOn: string;
}

/** Stacks come as text, since the driver hands int8 arrays over as they are. */
type Stacked = Omit<ReadingRow, 'goStack' | 'noGoStack'> & { readonly goText: string; readonly noGoText: string };

const stackOf = (text: string): readonly number[] => (text === '' ? [] : text.split(',').map(Number));

const standingOfJob = (sql: Sql, jobId: string) =>
  sql`r.job_id = ${jobId} and not exists (select from reading_strike s where s.reading_id = r.id)`;

/** Every reading of a job that was not struck, oldest first. */
export const findReadings = (sql: Sql, jobId: string): Promise<readonly ReadingRow[]> =>
  readingsWhere(sql, standingOfJob(sql, jobId));

/** The readings a finding rests on, those struck since too, oldest first. */
export const findReadingsOfFinding = (sql: Sql, findingId: string): Promise<readonly ReadingRow[]> =>
  readingsWhere(sql, sql`r.id in (select reading_id from finding_reading where finding_id = ${findingId})`);

async function readingsWhere(sql: Sql, condition: ReturnType<typeof standingOfJob>): Promise<readonly ReadingRow[]> {
  const rows = await sql<Stacked[]>`
    select r.id, r.dimension_code as dimension, r.position_code as position, r.repeat, r.round, r.keyed_text as text,
           r.keyed_unit as unit, r.kind, r.observation, r.value_low as low, r.value_high as high,
           array_to_string(r.go_stack, ',') as "goText", array_to_string(r.no_go_stack, ',') as "noGoText", r.rounded,
           r.instrument_id as "instrumentId", i.code as "instrumentCode", r.check_id as "checkId",
           coalesce(c.zero_error, 0) as "zeroError", coalesce(c.master_u, 0) as "masterU", r.part_mk as "partMk",
           r.instrument_mk as "instrumentMk", r.temperature_u_mk as "temperatureUMk", r.confirm_reason as "confirmReason",
           r.fitted_part_id as "fittedPartId", r.read_by_id as "readById", p.name as "readByName", r.read_at as "readAt",
           (r.read_at at time zone (select zone from shop))::date as "readOn"
    from reading r
    join person p on p.id = r.read_by_id
    left join instrument i on i.id = r.instrument_id
    left join instrument_check c on c.id = r.check_id
    where ${condition}
    order by r.recorded_at, r.id`;
  return rows.map(({ goText, noGoText, ...row }) => ({
    ...row,
    goStack: stackOf(goText),
    noGoStack: stackOf(noGoText),
  }));
}

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
  readonly repeatabilityDof: number | null;
  readonly localU: number | null;
  readonly alphaPpb: number;
  readonly alphaUPpb: number;
  readonly calibrationDueOn: string | null;
  readonly retired: boolean;
  readonly checkId: string | null;
  readonly zeroError: number | null;
  readonly master: string | null;
  readonly masterU: number | null;
  readonly checkedAt: string | null;
  readonly checkedToday: boolean;
  readonly outOfCalibration: boolean;
  readonly blades: readonly { readonly thickness: number; readonly tolerance: number }[];
}

/** The whole register, each instrument with its latest check. A shop has dozens, not thousands. */
export async function findInstruments(sql: Sql): Promise<readonly InstrumentRow[]> {
  return sql<InstrumentRow[]>`
    select i.id, i.code, i.name, i.instrument_kind as "instrumentKind", i.kind, i.unit, i.decimals,
           i.range_low as "rangeLow", i.range_high as "rangeHigh", i.resolution, i.mpe, i.repeatability,
           i.repeatability_dof as "repeatabilityDof", i.local_u as "localU", i.alpha_ppb as "alphaPpb",
           i.alpha_u_ppb as "alphaUPpb", i.calibration_due_on as "calibrationDueOn", i.retired_at is not null as retired,
           c.id as "checkId", c.zero_error as "zeroError", c.master, c.master_u as "masterU", c.checked_at as "checkedAt",
           coalesce((c.checked_at at time zone s.zone)::date = (clock_timestamp() at time zone s.zone)::date, false) as "checkedToday",
           coalesce(i.calibration_due_on < (clock_timestamp() at time zone s.zone)::date, false) as "outOfCalibration",
           coalesce((select json_agg(json_build_object('thickness', b.thickness_nm, 'tolerance', b.tolerance_nm) order by b.thickness_nm)
                     from instrument_blade b where b.instrument_id = i.id), '[]') as blades
    from instrument i
    cross join shop s
    left join lateral (
      select k.* from instrument_check k where k.instrument_id = i.id order by k.checked_at desc, k.id desc limit 1
    ) c on true
    order by i.code`;
}

export interface FittedPartRow {
  readonly id: string;
  readonly placeCode: string;
  readonly name: string;
  readonly sizeClass: string;
  readonly grade: string;
  readonly mark: string;
  readonly fittedAt: string;
  readonly fittedMinutes: number;
  readonly removed: boolean;
}

/** Everything ever fitted in an engine, newest first. */
export async function findFittedParts(sql: Sql, engineId: string): Promise<readonly FittedPartRow[]> {
  return sql<FittedPartRow[]>`
    select id, place_code as "placeCode", name, size_class as "sizeClass", grade, mark, fitted_at as "fittedAt",
           fitted_minutes as "fittedMinutes", removed_at is not null as removed
    from fitted_part where engine_id = ${engineId} order by fitted_at desc, id desc`;
}

/** Limits as they are kept with a finding: base units, null for no bound. */
export interface KeptLimits {
  readonly sizeClass: string;
  readonly standard: { readonly low: number | null; readonly high: number | null };
  readonly service: { readonly low: number | null; readonly high: number | null };
}

export type KeptWarning = Warning & { readonly words: string };

/** What an instrument was, in so far as the finding rests on it. */
export interface KeptInstrument {
  readonly code: string;
  readonly name: string;
  /** What it reads; findings of long ago were kept without it. */
  readonly kind?: string;
  readonly resolution: number;
  readonly mpe: number;
  readonly zeroError: number;
  readonly masterUncertainty: number;
  readonly repeatability: number | null;
  readonly calibrationDue: string | null;
  /** What drawing it by chance needs besides; findings of long ago were kept without. */
  readonly drawing?: Pick<InstrumentRow, 'repeatabilityDof' | 'localU' | 'alphaPpb' | 'alphaUPpb' | 'blades'>;
}

/** A finding as it is kept; figures in base units. */
export interface FindingRecord {
  readonly id: string;
  readonly jobId: string;
  readonly engineId: string;
  readonly fittedPartId: string | null;
  readonly revisionId: string;
  readonly dimension: string;
  readonly name: string;
  readonly round: Round;
  readonly kind: string;
  readonly unit: string;
  readonly decimals: number;
  readonly valueType: 'point' | 'interval' | 'span' | 'felt';
  readonly low: number;
  readonly high: number | null;
  readonly u: number;
  readonly dof: number | null;
  readonly guard: number;
  readonly rule: string;
  readonly verdict: Verdict;
  readonly pPastLow: number;
  readonly pPastHigh: number;
  readonly margin: number | null;
  readonly nearestSide: 'lower' | 'upper' | null;
  readonly nearestLimit: number | null;
  readonly inside: boolean;
  readonly limits: KeptLimits;
  readonly budget: readonly BudgetLine[];
  readonly warnings: readonly KeptWarning[];
  readonly instruments: readonly KeptInstrument[];
  readonly crossChecks: readonly CrossCheck[];
  readonly runningMinutes: number;
  readonly partMinutes: number | null;
  readonly formulaVersion: number;
  readonly supersedesId: string | null;
  readonly judgedById: string;
}

export interface FindingRow extends FindingRecord {
  readonly judgedByName: string;
  readonly judgedAt: string;
  readonly jobNumber: number;
  readonly readingIds: readonly string[];
  /** One of its readings was struck. */
  readonly withdrawn: boolean;
  /** A later finding has taken its place. */
  readonly superseded: boolean;
}

const findingColumns = (sql: Sql) => sql`
  f.id, f.job_id as "jobId", f.engine_id as "engineId", f.fitted_part_id as "fittedPartId",
  f.revision_id as "revisionId", f.dimension_code as dimension, f.dimension_name as name, f.round, f.kind, f.unit,
  f.decimals, f.value_type as "valueType", f.value_low as low, f.value_high as high, f.u, f.dof, f.guard, f.rule, f.verdict,
  f.p_past_low as "pPastLow", f.p_past_high as "pPastHigh", f.margin, f.nearest_side as "nearestSide",
  f.nearest_limit as "nearestLimit", f.inside, f.limits, f.budget, f.warnings, f.instruments,
  f.cross_checks as "crossChecks",
  f.running_minutes as "runningMinutes", f.part_minutes as "partMinutes", f.formula_version as "formulaVersion",
  f.supersedes_id as "supersedesId", f.judged_by_id as "judgedById", p.name as "judgedByName", f.judged_at as "judgedAt",
  j.number as "jobNumber",
  array(select fr.reading_id::text from finding_reading fr where fr.finding_id = f.id order by fr.reading_id) as "readingIds",
  exists (select from finding_reading fr join reading_strike s on s.reading_id = fr.reading_id where fr.finding_id = f.id) as withdrawn,
  exists (select from finding n where n.supersedes_id = f.id) as superseded`;

/** Every finding of a job, in the order in which they were judged. */
export async function findFindings(sql: Sql, jobId: string): Promise<readonly FindingRow[]> {
  return sql<FindingRow[]>`
    select ${findingColumns(sql)}
    from finding f join person p on p.id = f.judged_by_id join job j on j.id = f.job_id
    where f.job_id = ${jobId} order by f.judged_at, f.id`;
}

/** Findings of an engine that stand, of every job, oldest first. */
export async function findFindingsOfEngine(sql: Sql, engineId: string): Promise<readonly FindingRow[]> {
  return sql<FindingRow[]>`
    select ${findingColumns(sql)}
    from finding_standing f join person p on p.id = f.judged_by_id join job j on j.id = f.job_id
    where f.engine_id = ${engineId} order by f.running_minutes, f.judged_at, f.id`;
}

export async function findFinding(sql: Sql, id: string): Promise<FindingRow | undefined> {
  const [row] = await sql<FindingRow[]>`
    select ${findingColumns(sql)}
    from finding f join person p on p.id = f.judged_by_id join job j on j.id = f.job_id where f.id = ${id}`;
  return row;
}

export async function insertFinding(sql: Sql, finding: FindingRecord, readingIds: readonly string[]): Promise<string> {
  const json = (value: unknown) => sql.json(value as never);
  const [row] = await sql<{ judgedAt: string }[]>`
    insert into finding (id, job_id, engine_id, fitted_part_id, revision_id, dimension_code, dimension_name, round, kind, unit,
      decimals, value_type, value_low, value_high, u, dof, guard, rule, verdict, p_past_low, p_past_high, margin,
      nearest_side, nearest_limit, inside, limits, budget, warnings, instruments, cross_checks, running_minutes, part_minutes,
      formula_version, supersedes_id, judged_by_id)
    values (${finding.id}, ${finding.jobId}, ${finding.engineId}, ${finding.fittedPartId}, ${finding.revisionId},
      ${finding.dimension}, ${finding.name}, ${finding.round}, ${finding.kind}, ${finding.unit}, ${finding.decimals},
      ${finding.valueType}, ${finding.low}, ${finding.high}, ${finding.u}, ${finding.dof}, ${finding.guard}, ${finding.rule},
      ${finding.verdict}, ${finding.pPastLow}, ${finding.pPastHigh}, ${finding.margin}, ${finding.nearestSide},
      ${finding.nearestLimit}, ${finding.inside}, ${json(finding.limits)}, ${json(finding.budget)}, ${json(finding.warnings)},
      ${json(finding.instruments)}, ${json(finding.crossChecks)}, ${finding.runningMinutes}, ${finding.partMinutes}, ${finding.formulaVersion},
      ${finding.supersedesId}, ${finding.judgedById})
    returning judged_at as "judgedAt"`;
  if (readingIds.length > 0) {
    await sql`insert into finding_reading ${sql(readingIds.map((readingId) => ({ finding_id: finding.id, reading_id: readingId })))}`;
  }
  return row?.judgedAt ?? '';
}

/** The job as a finding quotes it. */
export async function findJobFacts(sql: Sql, jobId: string) {
  const [job] = await sql<
    {
      id: string;
      number: number;
      engineId: string;
      serial: string;
      revisionId: string;
      runningMinutes: number;
      handedBack: boolean;
    }[]
  >`
    select j.id, j.number, j.engine_id as "engineId", e.serial, j.revision_id as "revisionId",
           j.running_minutes as "runningMinutes", j.handed_back_at is not null as "handedBack"
    from job j join engine e on e.id = j.engine_id where j.id = ${jobId}`;
  return job;
}
export type JobFacts = NonNullable<Awaited<ReturnType<typeof findJobFacts>>>;
