import type { AddPhotoQuery, Photo, Photos } from '#contracts/photos.ts';
import { openJob } from '#features/intake/service.ts';
import { type Act, newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { type Prepared, smallerHashes } from '#platform/files/picture.ts';
import type { FileStore } from '#platform/files/store.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { photoOf, visibleTo } from './photo-view.ts';
import {
  type Attached,
  believedTime,
  engineExists,
  findJobOf,
  findPhotos,
  findRemoved,
  insertPhoto,
  keepPartHash,
  lockHash,
} from './queries.ts';

/** Every photo and document of an engine, over all its visits. */
export async function photosOf(sql: Sql, of: { engineId: string; viewerId: string }): Promise<Photos> {
  if (!(await engineExists(sql, of.engineId))) throw new ProblemError('not-found', 'There is no such engine.');
  const rows = await findPhotos(sql, { engineId: of.engineId });
  return { items: await visibleTo(sql, rows, of), removed: [...(await findRemoved(sql, of.engineId))] };
}

/** Those that the build sheet of a job prints, the oldest first. */
export async function photosOnSheet(sql: Sql, of: { jobId: string; viewerId: string }): Promise<Photo[]> {
  const { engineId } = found(await findJobOf(sql, of.jobId), 'such job');
  const rows = (await findPhotos(sql, { jobId: of.jobId })).filter(({ onSheet, width }) => onSheet && width !== null);
  return (await visibleTo(sql, rows, { engineId, viewerId: of.viewerId })).toReversed();
}

const attachedBy = (asked: AddPhotoQuery): Attached => ({
  runId: asked.run ?? null,
  stepId: asked.step ?? null,
  pieceId: asked.piece ?? null,
  readingId: asked.reading ?? null,
  findingId: asked.finding ?? null,
  obligationId: asked.obligation ?? null,
  handoverId: asked.handover ?? null,
  placeCode: asked.place ?? null,
});

async function takenAt(act: Act, asked: AddPhotoQuery, prepared: Prepared): Promise<string> {
  const claimed = asked.takenAt === undefined ? undefined : Date.parse(asked.takenAt);
  if (claimed !== undefined && claimed > Date.now() + 120_000) {
    throw new ProblemError(
      'refused',
      'The photo says it was taken in the future. Set the clock of the camera or leave the time out.',
      {
        errors: [{ pointer: '/takenAt', detail: 'in the future' }],
      },
    );
  }
  const camera = prepared.cameraTime === undefined ? null : await believedTime(act.sql, prepared.cameraTime);
  return asked.takenAt ?? camera ?? act.happenedAt ?? new Date().toISOString();
}

/** Keeps a photo or document with an open job. The content is written last, under its hash: a refusal leaves nothing. */
export async function addPhoto(
  act: Act,
  store: FileStore,
  { jobId, asked, prepared }: { jobId: string; asked: AddPhotoQuery; prepared: Prepared },
): Promise<Photo> {
  const { engineId } = await openJob(act, jobId);
  const { hash, type, bytes, width, height } = prepared;
  await lockHash(act.sql, hash);
  const id = newId();
  await insertPhoto(act.sql, {
    ...attachedBy(asked),
    ...{ id, engineId, jobId, hash, type, bytes, width, height },
    name: asked.name?.trim() ?? '',
    caption: asked.caption?.trim() ?? '',
    takenAt: await takenAt(act, asked, prepared),
    byId: act.actor.id,
    terminalId: act.actor.terminalId ?? null,
  });
  for (const each of smallerHashes(prepared))
    await keepPartHash(act.sql, { hash, part: each.part, partHash: each.hash });
  const photo = await photoOf(act, id);
  await act.event('photo.added', {
    engineId,
    jobId,
    data: {
      photo: id,
      ...(type === 'application/pdf' ? { document: photo.name || 'PDF' } : {}),
      // What a caption or an obligation tells of pieces may be somebody's to count yet.
      ...(['piece', 'obligation'].includes(photo.of.kind) ? {} : { of: photo.of.words, caption: photo.caption }),
    },
  });
  await store.put(hash, prepared.files);
  return photo;
}
