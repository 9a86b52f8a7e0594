import type { NotePhoto, Photo } from '#contracts/photos.ts';
import { may } from '#contracts/rights.ts';
import { type Act, newId } from '#platform/act.ts';
import type { FileStore } from '#platform/files/store.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { photoOf } from './photo-view.ts';
import { findJobOf, findStored, insertDiscard, insertNote, insertRemoval, lockHash } from './queries.ts';

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
