import type { Sql } from '#platform/database/client.ts';

/** The newest published revision of a sheet's family, when that is a newer one. */
export async function findNewer(
  sql: Sql,
  revisionId: string,
): Promise<{ readonly id: string; readonly number: number } | undefined> {
  const [newer] = await sql<{ id: string; number: number }[]>`
    select n.id, n.number from spec_revision n join spec_revision b on b.family_id = n.family_id
    where b.id = ${revisionId} and n.published_at is not null and n.number > b.number order by n.number desc limit 1`;
  return newer;
}
