import type { Sql } from '#platform/database/client.ts';

/** What one visit found of one fitted part, base units. */
export interface FamilyPoint {
  readonly engineId: string;
  readonly fittedPartId: string;
  readonly fittedNow: boolean;
  readonly dimension: string;
  readonly unit: string;
  readonly decimals: number;
  readonly value: number;
  readonly partMinutes: number;
}

/** So many visits of a family at most, the newest: what wore long ago under other oils tells less. */
const MOST = 20_000;

/**
 * Points of an engine's family, of the dimensions that this engine has at least three points of: the newest round of
 * each visit. Undefined: no such engine.
 */
export async function findFamilyPoints(sql: Sql, engineId: string): Promise<readonly FamilyPoint[] | undefined> {
  const [engine] = await sql<{ familyId: string }[]>`select family_id as "familyId" from engine where id = ${engineId}`;
  if (engine === undefined) return undefined;
  return sql<FamilyPoint[]>`
    with asked as (
      select f.dimension_code from finding_standing f join fitted_part p on p.id = f.fitted_part_id
      where f.engine_id = ${engineId} and f.value_type = 'point' and f.part_minutes is not null and p.removed_at is null
      group by f.dimension_code having count(distinct f.job_id) >= 3
    ), newest as (
      select distinct on (f.job_id, f.fitted_part_id, f.dimension_code)
             f.engine_id, f.fitted_part_id, p.removed_at is null as fitted_now, f.dimension_code, f.unit, f.decimals,
             f.value_low, f.part_minutes, f.judged_at
      from finding_standing f
      join engine e on e.id = f.engine_id and e.family_id = ${engine.familyId}
      join fitted_part p on p.id = f.fitted_part_id
      where f.dimension_code in (select dimension_code from asked) and f.value_type = 'point' and f.part_minutes is not null
      order by f.job_id, f.fitted_part_id, f.dimension_code,
               array_position(array['as received', 'after work', 'as built'], f.round) desc, f.judged_at desc, f.id desc
    )
    select engine_id as "engineId", fitted_part_id as "fittedPartId", fitted_now as "fittedNow", dimension_code as dimension,
           unit, decimals, value_low as value, part_minutes as "partMinutes"
    from newest order by judged_at desc, fitted_part_id limit ${MOST}`;
}
