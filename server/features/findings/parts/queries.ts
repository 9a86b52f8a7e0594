import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface NewPart {
  readonly engineId: string;
  readonly jobId: string;
  readonly placeCode: string;
  readonly name: string;
  readonly sizeClass: string;
  readonly grade: string;
  readonly mark: string;
  readonly minutes: number;
}

/** Ends what sits in the place and starts its successor at that very instant. */
export async function insertPart(sql: Sql, part: NewPart): Promise<{ id: string; fittedAt: string }> {
  const id = newId();
  const [ended] = await sql<{ at: string }[]>`
    update fitted_part set removed_at = clock_timestamp(), removed_job_id = ${part.jobId}
    where engine_id = ${part.engineId} and place_code = ${part.placeCode} and removed_at is null returning removed_at as at`;
  const [begun] = await sql<{ fittedAt: string }[]>`
    insert into fitted_part (id, engine_id, place_code, name, size_class, grade, mark, fitted_job_id, fitted_at, fitted_minutes)
    values (${id}, ${part.engineId}, ${part.placeCode}, ${part.name}, ${part.sizeClass}, ${part.grade}, ${part.mark},
            ${part.jobId}, coalesce(${ended?.at ?? null}::timestamptz, clock_timestamp()), ${part.minutes})
    returning fitted_at as "fittedAt"`;
  return { id, fittedAt: begun?.fittedAt ?? '' };
}
