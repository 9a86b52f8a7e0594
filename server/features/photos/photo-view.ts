import type { Photo } from '#contracts/photos.ts';
import { blindTrays, wordsShownTo } from '#features/custody/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findPhotos, type PhotoRow } from './queries.ts';

const shown = ({
  jobId,
  jobNumber,
  byId,
  by,
  terminalId,
  terminal,
  trayIds: _,
  serial: _serial,
  hash: _hash,
  ...photo
}: PhotoRow): Photo => ({
  ...photo,
  job: { id: jobId, number: jobNumber },
  by: { id: byId, name: by },
  terminal: terminalId === null ? null : { id: terminalId, name: terminal ?? '' },
});

/**
 * What a viewer may see: a picture of the pieces in a tray that they are yet to count would tell them the count, so it
 * waits until they have counted.
 */
export async function visibleTo(
  sql: Sql,
  rows: readonly PhotoRow[],
  of: { readonly engineId: string; readonly viewerId: string },
): Promise<Photo[]> {
  const words = await wordsShownTo(sql, of);
  const jobs = [...new Set(rows.filter(({ trayIds }) => trayIds.length > 0).map(({ jobId }) => jobId))];
  const blind = new Set<string>();
  for (const jobId of jobs) {
    for (const tray of await blindTrays(sql, { jobId, viewerId: of.viewerId })) blind.add(tray);
  }
  return rows
    .filter(({ trayIds }) => !trayIds.some((trayId) => blind.has(trayId)))
    .map(shown)
    .map((photo) =>
      photo.of.kind === 'obligation'
        ? { ...photo, of: { ...photo.of, words: words(photo.of.id, photo.of.words) } }
        : photo,
    );
}

/** A photo as whoever acted on it is told of it. */
export async function photoOf(act: Act, id: string): Promise<Photo> {
  const [row] = await findPhotos(act.sql, { id });
  return shown(found(row, 'such photo'));
}
