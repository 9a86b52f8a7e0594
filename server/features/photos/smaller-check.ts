import type { FilesCheck } from '#contracts/files-check.ts';
import type { Sql } from '#platform/database/client.ts';
import { isWholePicture } from '#platform/files/picture.ts';
import { type FileStore, type Folders, type SmallerPart, smallerParts } from '#platform/files/store.ts';
import { findPartHashes } from './queries.ts';

/** A smaller picture of a content that is not what was stored. */
export type SmallerFault = Omit<FilesCheck['smaller'][number], 'photos'>;

interface Where {
  readonly sql: Sql;
  readonly store: FileStore;
}

/** What is wrong with one of them; undefined: nothing. Where its hash was not kept, it has to be a whole picture. */
async function faultOf(
  store: FileStore,
  of: { readonly hash: string; readonly part: SmallerPart; readonly kept: string | undefined },
  signal: AbortSignal | undefined,
): Promise<SmallerFault['fault'] | undefined> {
  const digest = await store.digestOfPart(of.hash, of.part, signal).catch(() => 'unreadable' as const);
  signal?.throwIfAborted();
  if (digest === undefined) return 'missing';
  if (digest === 'unreadable') return digest;
  if (of.kept !== undefined) return digest.hash === of.kept ? undefined : 'other bytes';
  const content = await store.read(of.hash, of.part);
  return content === undefined || (await isWholePicture(content)) ? undefined : 'unreadable';
}

/** Holds the smaller pictures of some contents against what they hashed to when they were stored. */
export async function checkSmaller(
  { sql, store }: Where,
  of: { readonly pictures: readonly string[]; readonly folders: Folders; readonly signal: AbortSignal | undefined },
): Promise<readonly SmallerFault[]> {
  const rows = await findPartHashes(sql, of.folders);
  const kept = new Map(rows.map(({ hash, part, partHash }) => [`${hash}.${part}`, partHash]));
  const faults: SmallerFault[] = [];
  for (const hash of of.pictures) {
    for (const part of smallerParts) {
      const fault = await faultOf(store, { hash, part, kept: kept.get(`${hash}.${part}`) }, of.signal);
      // Gone with its content, which somebody discarded meanwhile, it is no fault.
      if (fault === undefined || (fault === 'missing' && (await store.digest(hash, of.signal)) === undefined)) continue;
      faults.push({ hash, part, fault });
    }
  }
  return faults;
}
