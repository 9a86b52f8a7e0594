import type { NotePhoto, Photo } from '#contracts/photos.ts';
import { may } from '#contracts/rights.ts';
import { takeEngineLock } from '#features/custody/service.ts';
import { type Act, newId } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';
import type { FileStore } from '#platform/files/store.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { photoOf } from './photo-view.ts';
import { findJobOf, findStored, insertDiscard, insertNote, insertRemoval, isDiscarded, lockHash } from './queries.ts';

/** The row of a photo under its engine's lock, the first in any write about an engine; its job may have been handed back. */
async function underLock(act: Act, id: string) {
  const { jobId } = found(await findStored(act.sql, id), 'such photo');
  const { engineId } = found(await findJobOf(act.sql, jobId), 'such job');
  await takeEngineLock(act, engineId);
  return { ...found(await findStored(act.sql, id), 'such photo'), engineId };
}

/** The same, of a photo that is still shown. */
async function standing(act: Act, id: string) {
  const row = await underLock(act, id);
  if (row.removed) throw new ProblemError('already-done', 'This photo was removed already.');
  return row;
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

/**
 * Says that the content of a removed photo leaves the store for good, unless another photo shows the same. The file goes
 * once this stands (removeDiscarded): a write that is taken back must leave it.
 */
export async function discardContent(
  act: Act,
  { id, reason }: { readonly id: string; readonly reason: string },
): Promise<{ id: string }> {
  const { engineId, ...row } = await underLock(act, id);
  if (!row.removed) throw new ProblemError('refused', 'This photo is still shown. Remove it first, with a reason.');
  await lockHash(act.sql, row.hash);
  await insertDiscard(act.sql, { id: newId(), hash: row.hash, reason: reason.trim(), byId: act.actor.id });
  await act.event('photo.discarded', { engineId, jobId: row.jobId, data: { photo: id, reason: reason.trim() } });
  return { id };
}

/** Takes discarded content out of the store, by itself: the same content may have been added again since. */
export async function removeDiscarded(sql: SqlPool, store: FileStore, id: string): Promise<void> {
  await sql.begin(async (transaction) => {
    const { hash } = found(await findStored(transaction, id), 'such photo');
    await lockHash(transaction, hash);
    if (await isDiscarded(transaction, hash)) await store.remove(hash);
  });
}
