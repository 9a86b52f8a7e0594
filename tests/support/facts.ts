import { newId } from '#platform/act.ts';
import type { Shop } from './shop.ts';

type Engine = { readonly engineId: string; readonly jobId: string };

/** Opens an engine so many hours ago, with the head off. */
export async function open({ sql, people }: Shop, of: Engine, hours = 1): Promise<string> {
  const id = newId();
  await sql`
    insert into opening (id, engine_id, job_id, opened_by_id, opened_at)
    values (${id}, ${of.engineId}, ${of.jobId}, ${people.technician}, clock_timestamp() - make_interval(hours => ${hours}))`;
  const pieceId = newId();
  await sql`insert into piece (id, opening_id, name, layer, expected) values (${pieceId}, ${id}, 'Head', 'head', 1)`;
  await sql`
    insert into piece_movement (id, piece_id, act, count, moved_by_id) values (${newId()}, ${pieceId}, 'off', 1, ${people.technician})`;
  return id;
}

export async function cover({ sql, people }: Shop, openingId: string, covered: boolean): Promise<void> {
  await sql`
    insert into opening_cover (id, opening_id, covered, said_by_id) values (${newId()}, ${openingId}, ${covered}, ${people.technician})`;
}

/** A job short of so many of a part. */
export async function runShort(
  { sql, people }: Shop,
  jobId: string,
  of: { part: string; short: number; wanted: number },
) {
  const partId = newId();
  const demandLineId = newId();
  await sql`insert into part (id, number, name) values (${partId}, ${`N-${partId.slice(-8)}`}, ${of.part})`;
  await sql`
    insert into demand_line (id, job_id, part_id, wanted, short, not_asked, short_since, added_by_id)
    values (${demandLineId}, ${jobId}, ${partId}, ${of.wanted}, ${of.short}, ${of.wanted - of.short}, clock_timestamp(), ${people.clerk})`;
  return { partId, demandLineId };
}

export async function order(
  { sql, people, vendorId }: Shop,
  of: { partId: string; quantity: number; promisedOn: string | null; jobId?: string },
): Promise<void> {
  await sql`
    insert into purchase_line (id, vendor_id, part_id, job_id, quantity, promised_on, ordered_by_id)
    values (${newId()}, ${vendorId}, ${of.partId}, ${of.jobId ?? null}, ${of.quantity}, ${of.promisedOn}, ${people.clerk})`;
}

export interface FindingFact {
  readonly dimension: string;
  readonly verdict: string;
  /** Millimetres. */
  readonly value: number;
  readonly high?: number;
  readonly type?: 'point' | 'interval' | 'span' | 'felt';
  readonly round?: 'as received' | 'after work' | 'as built';
  readonly margin?: number;
  readonly limit?: number;
  readonly fittedPartId?: string | null;
  readonly partHours?: number;
  readonly hours?: number;
  readonly supersedesId?: string;
}

const nanometres = (millimetres: number): number => Math.round(millimetres * 1e6);

/** A finding as if it had been worked out: guard 0.003, u 0.0018. */
export async function judge({ sql, people, sheet }: Shop, of: Engine, fact: FindingFact): Promise<string> {
  const id = newId();
  const { type = 'point', value, high, margin, limit } = fact;
  const felt = type === 'felt';
  await sql`
    insert into finding (id, job_id, engine_id, fitted_part_id, revision_id, dimension_code, dimension_name, round, kind, unit, decimals,
      value_type, value_low, value_high, u, guard, rule, verdict, p_past_low, p_past_high, margin, nearest_side, nearest_limit, inside,
      limits, budget, warnings, instruments, running_minutes, part_minutes, formula_version, supersedes_id, judged_by_id)
    values (${id}, ${of.jobId}, ${of.engineId}, ${fact.fittedPartId ?? null}, ${sheet.revisionId}, ${fact.dimension},
      ${`The ${fact.dimension}`}, ${fact.round ?? 'as received'}, 'length', 'mm', 3, ${type}, ${felt ? value : nanometres(value)},
      ${felt ? value : nanometres(high ?? value)}, 1800, 3000, 'iso-14253-1-2017', ${fact.verdict}, 0.14, 0.14,
      ${margin === undefined ? null : nanometres(margin)}, ${limit === undefined ? null : 'upper'},
      ${limit === undefined ? null : nanometres(limit)}, true,
      ${sql.json({ sizeClass: 'standard', standard: { low: 88_000_000, high: 88_015_000 }, service: { high: 88_050_000 } })},
      '[]', ${sql.json([{ code: 'too-coarse', words: 'Use a better instrument.' }])}, ${sql.json([{ code: 'BG-2' }])},
      ${Math.round((fact.hours ?? 243) * 60)}, ${fact.partHours === undefined ? null : fact.partHours * 60}, 1,
      ${fact.supersedesId ?? null}, ${people.technician})`;
  return id;
}

export async function oblige({ sql }: Shop, of: Engine, findingId: string, words: string): Promise<string> {
  const id = newId();
  await sql`
    insert into obligation (id, engine_id, job_id, words, inside, finding_id)
    values (${id}, ${of.engineId}, ${of.jobId}, ${words}, true, ${findingId})`;
  return id;
}

export async function decide({ sql, people }: Shop, jobId: string, obligationId: string, kind: string): Promise<void> {
  const dispositionId = newId();
  await sql`
    insert into disposition (id, job_id, kind, reason, decided_by_id) values (${dispositionId}, ${jobId}, ${kind}, 'seen', ${people.lead})`;
  await sql`
    insert into obligation_act (id, obligation_id, act, disposition_id, acted_by_id)
    values (${newId()}, ${obligationId}, 'decided', ${dispositionId}, ${people.lead})`;
}
