import { blindTrays } from '#features/custody/service.ts';
import type { Actor } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import type { FileStore, Part } from '#platform/files/store.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findStored } from './queries.ts';

/** The bytes of a photo that is shown to this viewer. */
export async function contentOf(
  { sql, store }: { sql: Sql; store: FileStore },
  { id, part, viewer }: { id: string; part: Part; viewer: Actor },
) {
  const row = found(await findStored(sql, id), 'such photo');
  if (row.removed) throw new ProblemError('not-found', 'This photo was removed. The timeline says why.');
  if (row.trayIds.length > 0) {
    const blind = await blindTrays(sql, { jobId: row.jobId, viewerId: viewer.id });
    if (row.trayIds.some((trayId) => blind.has(trayId))) {
      throw new ProblemError(
        'not-allowed',
        'It shows pieces that you are yet to count. It opens once you have counted them.',
      );
    }
  }
  if (part !== 'content' && row.type === 'application/pdf')
    throw new ProblemError('not-found', 'A document has no small picture.');
  const bytes = await store.read(row.hash, part);
  if (bytes === undefined) {
    throw new ProblemError(
      'not-found',
      'Its file is not in the store of this server. Whoever runs it should look at the folder for files.',
    );
  }
  return { bytes, hash: row.hash, type: part === 'content' ? row.type : ('image/webp' as const), name: row.name };
}
