import type { FilesCheck, ShownBy } from '#contracts/files-check.ts';
import type { Sql } from '#platform/database/client.ts';
import type { FileStore, Folders } from '#platform/files/store.ts';
import { visibleTo } from './photo-view.ts';
import { findHashes, findPhotos, type PhotoRow } from './queries.ts';
import { checkSmaller, type SmallerFault } from './smaller-check.ts';

/** So many files are read at a time; more would only make the disk seek. */
const READ_AT_ONCE = 4;

type Fault = FilesCheck['changed'][number]['fault'];

/** What was found of the files themselves, by their hashes. */
export interface Checked {
  readonly files: number;
  readonly bytes: number;
  readonly missing: readonly string[];
  readonly changed: ReadonlyMap<string, Fault>;
  readonly smaller: readonly SmallerFault[];
  readonly spare: readonly string[];
}

interface Where {
  readonly sql: Sql;
  readonly store: FileStore;
}

/** Reads every content to its end. A file that went meanwhile is in none of the lists. */
async function readThrough(store: FileStore, hashes: Iterable<string>, signal: AbortSignal | undefined) {
  const there = new Set<string>();
  const changed = new Map<string, Fault>();
  let bytes = 0;
  const readOne = async (hash: string) => {
    const digest = await store.digest(hash, signal).catch(() => 'unreadable' as const);
    signal?.throwIfAborted();
    if (digest === undefined) return;
    there.add(hash);
    if (digest === 'unreadable') changed.set(hash, digest);
    else {
      bytes += digest.bytes;
      if (digest.hash !== hash) changed.set(hash, 'other bytes');
    }
  };
  const left = hashes[Symbol.iterator]();
  const readOn = async () => {
    for (let next = left.next(); !next.done; next = left.next()) await readOne(next.value);
  };
  await Promise.all(Array.from({ length: READ_AT_ONCE }, readOn));
  return { there, changed, bytes };
}

/** Holds rows against files and files against their hashes: what is shown without its file, changed, or of nobody. */
export async function checkFiles(
  { sql, store }: Where,
  { folders = { from: '00', to: 'ff' }, signal }: { folders?: Folders; signal?: AbortSignal } = {},
): Promise<Checked> {
  const { there, changed, bytes } = await readThrough(store, await store.hashes(folders), signal);
  // Rows after files: what is added meanwhile is then in neither list by mistake.
  const rows = await findHashes(sql, folders);
  const named = new Set(rows.map(({ hash }) => hash));
  const missing = [];
  for (const { hash, shown } of rows) {
    if (shown && !there.has(hash) && (await store.digest(hash, signal)) === undefined) missing.push(hash);
  }
  const spare = [...there].filter((hash) => !named.has(hash)).toSorted();
  for (const hash of spare) changed.delete(hash);
  const pictures = rows.filter(({ hash, picture }) => picture && there.has(hash)).map(({ hash }) => hash);
  const smaller = await checkSmaller({ sql, store }, { pictures, folders, signal });
  return { files: there.size, bytes, missing, changed, smaller, spare };
}

/** What shows the contents that are missing or changed, or of which a smaller picture is. */
export async function photosWith(sql: Sql, { missing, changed, smaller }: Checked): Promise<readonly PhotoRow[]> {
  return findPhotos(sql, { hashes: [...missing, ...changed.keys(), ...smaller.map(({ hash }) => hash)] });
}

/** Told of a photo; what it shows only if this viewer may see it. */
const shownBy = (row: PhotoRow, seen: ReadonlyMap<string, ShownBy['of']>): ShownBy => ({
  photoId: row.id,
  engine: { id: row.engineId, serial: row.serial },
  job: { id: row.jobId, number: row.jobNumber },
  type: row.type,
  takenAt: row.takenAt,
  by: { id: row.byId, name: row.by },
  of: seen.get(row.id) ?? null,
  caption: seen.has(row.id) ? row.caption : '',
  name: seen.has(row.id) ? row.name : '',
});

/** The check as a person is told of it: each file with the photos that show it. */
export async function filesCheck(
  where: Where,
  { folders, viewerId, signal }: { folders: Folders; viewerId: string; signal: AbortSignal },
): Promise<FilesCheck> {
  const checked = await checkFiles(where, { folders, signal });
  const rows = await photosWith(where.sql, checked);
  const seen = new Map<string, ShownBy['of']>();
  for (const engineId of new Set(rows.map((row) => row.engineId))) {
    const own = rows.filter((row) => row.engineId === engineId);
    for (const photo of await visibleTo(where.sql, own, { engineId, viewerId })) seen.set(photo.id, photo.of);
  }
  const photosOf = (hash: string) => rows.filter((row) => row.hash === hash).map((row) => shownBy(row, seen));
  return {
    at: new Date().toISOString(),
    files: checked.files,
    bytes: checked.bytes,
    missing: checked.missing.map((hash) => ({ hash, photos: photosOf(hash) })),
    changed: [...checked.changed].toSorted().map(([hash, fault]) => ({ hash, fault, photos: photosOf(hash) })),
    smaller: checked.smaller.map((each) => ({ ...each, photos: photosOf(each.hash) })),
    spare: [...checked.spare],
  };
}
