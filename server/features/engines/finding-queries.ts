import type { FindingFacts } from '#contracts/engines.ts';
import type { Sql } from '#platform/database/client.ts';

interface BoundsKept {
  readonly low?: number | null;
  readonly high?: number | null;
}

/** The limits a finding was judged by, as it keeps them, base units. */
export interface LimitsKept {
  readonly standard: BoundsKept;
  readonly service: BoundsKept;
}

/** A finding that stands; figures in base units, never rounded. */
export interface FindingRow {
  readonly id: string;
  readonly jobId: string;
  readonly jobNumber: number;
  readonly fittedPartId: string | null;
  readonly dimension: string;
  readonly name: string;
  readonly round: FindingFacts['round'];
  readonly unit: string;
  readonly decimals: number;
  readonly valueType: 'point' | 'interval' | 'span' | 'felt';
  readonly low: number;
  readonly high: number | null;
  readonly u: number;
  readonly guard: number;
  readonly rule: string;
  readonly verdict: FindingFacts['verdict'];
  readonly pLow: number;
  readonly pHigh: number;
  readonly margin: number | null;
  readonly side: 'lower' | 'upper' | null;
  readonly limit: number | null;
  readonly limits: LimitsKept;
  readonly warnings: FindingFacts['warnings'];
  readonly instruments: readonly { readonly code: string }[];
  readonly minutes: number;
  readonly partMinutes: number | null;
  readonly judgedById: string;
  readonly judgedBy: string;
  readonly judgedAt: string;
  readonly obligationId: string | null;
  readonly revision: number;
  readonly crossChecks: FindingFacts['crossChecks'];
}

/** Every finding of an engine that stands (index finding_engine), the oldest visit first, the newest round last. */
export async function findFindings(sql: Sql, engineId: string): Promise<readonly FindingRow[]> {
  return sql<FindingRow[]>`
    select f.id, f.job_id as "jobId", j.number as "jobNumber", f.fitted_part_id as "fittedPartId", f.dimension_code as dimension,
           f.dimension_name as name, f.round, f.unit, f.decimals, f.value_type as "valueType", f.value_low as low, f.value_high as high,
           f.u, f.guard, f.rule, f.verdict, f.p_past_low as "pLow", f.p_past_high as "pHigh", f.margin, f.nearest_side as side,
           f.nearest_limit as "limit", f.limits, f.warnings, f.instruments, f.running_minutes as minutes, f.part_minutes as "partMinutes",
           p.id as "judgedById", p.name as "judgedBy", f.judged_at as "judgedAt", o.id as "obligationId",
           v.number as revision, f.cross_checks as "crossChecks"
    from finding_standing f
    join job j on j.id = f.job_id
    join spec_revision v on v.id = f.revision_id
    join person p on p.id = f.judged_by_id
    left join obligation o on o.finding_id = f.id
    where f.engine_id = ${engineId}
      and not exists (select from finding_reading fr join reading_strike s on s.reading_id = fr.reading_id where fr.finding_id = f.id)
    order by j.taken_in_at, j.number, array_position(array['as received', 'after work', 'as built'], f.round), f.judged_at, f.id`;
}

/** A reading behind a finding, with what it takes to correct it. */
export interface BoreReadingRow {
  readonly findingId: string;
  readonly position: string;
  readonly value: number;
  readonly zeroError: number;
  readonly instrument: string;
  readonly alphaPpb: number;
  readonly partMk: number | null;
  readonly instrumentMk: number | null;
  readonly temperatureUMk: number | null;
}

export async function findBoreReadings(sql: Sql, findingIds: readonly string[]): Promise<readonly BoreReadingRow[]> {
  if (findingIds.length === 0) return [];
  return sql<BoreReadingRow[]>`
    select fr.finding_id as "findingId", r.position_code as position, r.value_low as value, coalesce(c.zero_error, 0) as "zeroError",
           i.code as instrument, i.alpha_ppb as "alphaPpb", r.part_mk as "partMk", r.instrument_mk as "instrumentMk",
           r.temperature_u_mk as "temperatureUMk"
    from finding_reading fr join reading r on r.id = fr.reading_id
    join instrument i on i.id = r.instrument_id
    left join instrument_check c on c.id = r.check_id
    where fr.finding_id = any(${sql.array([...findingIds])}::uuid[]) and r.observation = 'value'
    order by r.recorded_at, r.id`;
}
