import type { AddPhotoQuery, FilesCheck, NotePhoto, Photo, Photos } from '#contracts/photos.ts';
import { may } from '#contracts/rights.ts';
import { blindTrays, wordsShownTo } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import { type Act, type Actor, newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import type { Prepared } from '#platform/files/picture.ts';
import type { FileStore, Part } from '#platform/files/store.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  type Attached,
  believedTime,
  engineExists,
  findHashes,
  findJobOf,
  findPhotos,
  findRemoved,
  findStored,
  insertDiscard,
  insertNote,
  insertPhoto,
  insertRemoval,
  lockHash,
  type PhotoRow,
} from './queries.ts';

const shown = ({ jobId, jobNumber, byId, by, terminalId, terminal, trayIds: _, ...photo }: PhotoRow): Photo => ({
  ...photo,
  job: { id: jobId, number: jobNumber },
  by: { id: byId, name: by },
  terminal: terminalId === null ? null : { id: terminalId, name: terminal ?? '' },
});

/**
 * What a viewer may see: a picture of the pieces in a tray that they are yet to count would tell them the count, so it
 * waits until they have counted.
 */
async function visibleTo(
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

async function photoOf(act: Act, id: string): Promise<Photo> {
  const [row] = await findPhotos(act.sql, { id });
  return shown(found(row, 'such photo'));
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

/** The row of a photo that is still shown, under its engine's lock; its job may have been handed back. */
async function standing(act: Act, id: string) {
  const row = found(await findStored(act.sql, id), 'such photo');
  if (row.removed) throw new ProblemError('already-done', 'This photo was removed already.');
  const { engineId } = found(await findJobOf(act.sql, row.jobId), 'such job');
  return { ...row, engineId };
}

/** Its caption and whether the build sheet prints it: whoever took it says so, or the bench, or the counter. */
export async function notePhoto(act: Act, id: string, { caption, onSheet }: NotePhoto): Promise<Photo> {
  const { jobId, engineId, byId, type } = await standing(act, id);
  const { roles, id: actorId, name } = act.actor;
  if (byId !== actorId && !may(roles, 'bench') && !may(roles, 'counter')) {
    throw new ProblemError(
      'not-allowed',
      `${name} didn’t take this photo. Whoever took it, the bench or the counter writes under it.`,
    );
  }
  if (onSheet && type === 'application/pdf') {
    throw new ProblemError('refused', 'The build sheet prints pictures only. Print the document by itself.', {
      errors: [{ pointer: '/onSheet', detail: 'a document can’t be printed on it' }],
    });
  }
  await insertNote(act.sql, { id: newId(), photoId: id, caption: caption.trim(), onSheet, byId: actorId });
  const photo = await photoOf(act, id);
  const told = ['piece', 'obligation'].includes(photo.of.kind) ? {} : { of: photo.of.words, caption: photo.caption };
  await act.event('photo.noted', { engineId, jobId, data: { photo: id, onSheet, ...told } });
  return photo;
}

/** A tombstone: shown nowhere any more; the timeline tells who removed it and why. */
export async function removePhoto(act: Act, id: string, reason: string): Promise<{ id: string }> {
  const { jobId, engineId } = await standing(act, id);
  await insertRemoval(act.sql, { photoId: id, reason: reason.trim(), byId: act.actor.id });
  await act.event('photo.removed', { engineId, jobId, data: { photo: id, reason: reason.trim() } });
  return { id };
}

/** Takes the content of a removed photo out of the store for good, unless another photo shows the same. */
export async function discardContent(
  act: Act,
  store: FileStore,
  { id, reason }: { id: string; reason: string },
): Promise<{ id: string }> {
  const row = found(await findStored(act.sql, id), 'such photo');
  if (!row.removed) throw new ProblemError('refused', 'This photo is still shown. Remove it first, with a reason.');
  const { engineId } = found(await findJobOf(act.sql, row.jobId), 'such job');
  await lockHash(act.sql, row.hash);
  await insertDiscard(act.sql, { id: newId(), hash: row.hash, reason: reason.trim(), byId: act.actor.id });
  await act.event('photo.discarded', { engineId, jobId: row.jobId, data: { photo: id, reason: reason.trim() } });
  await store.remove(row.hash);
  return { id };
}

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

/** Holds rows against files: what is shown without its file, and what lies there without a row. */
export async function checkFiles(sql: Sql, store: FileStore): Promise<FilesCheck> {
  const files = await store.hashes();
  // Rows after files: what is added meanwhile is then in neither list by mistake.
  const rows = await findHashes(sql);
  const named = new Set(rows.map(({ hash }) => hash));
  const missing = rows.filter(({ hash, removed }) => !removed && !files.has(hash));
  const really = [];
  for (const { photoId, hash } of missing) {
    if ((await store.read(hash, 'content')) === undefined) really.push({ photoId, hash });
  }
  return { missing: really, spare: [...files].filter((hash) => !named.has(hash)).toSorted(), files: files.size };
}
