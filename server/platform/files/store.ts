import { createHash, randomUUID } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';

/** What is made of one content: itself, and for a picture two smaller ones. */
export const parts = ['content', 'small', 'large'] as const;
export type Part = (typeof parts)[number];
/** What a list and a screen show in place of the whole picture. */
export const smallerParts = ['small', 'large'] as const;
export type SmallerPart = (typeof smallerParts)[number];

/** Folders of the store by the first two digits of the hashes in them, both ends included. */
export interface Folders {
  readonly from: string;
  readonly to: string;
}

/** What lies under a hash, read through: how long it is and what its own hash really is. */
export interface Digest {
  readonly hash: string;
  readonly bytes: number;
}

/** A folder that every process of a shop shares. A file's name is the hash of its content, so writing twice is writing once. */
export interface FileStore {
  /** Writes what is not there yet, each file whole or not at all, the content last. */
  readonly put: (hash: string, files: Readonly<Partial<Record<Part, Buffer>>>) => Promise<void>;
  /** undefined: there is no such file. */
  readonly read: (hash: string, part: Part) => Promise<Buffer | undefined>;
  readonly remove: (hash: string) => Promise<void>;
  /** The hashes of all content that lies in it, or in some of its folders. */
  readonly hashes: (folders?: Folders) => Promise<ReadonlySet<string>>;
  /** Reads a content a little at a time, holding no more of it than that; undefined: there is no such file. */
  readonly digest: (hash: string, signal?: AbortSignal) => Promise<Digest | undefined>;
  /** The same of one of the smaller pictures made of it. */
  readonly digestOfPart: (hash: string, part: SmallerPart, signal?: AbortSignal) => Promise<Digest | undefined>;
}

const HASH = /^[0-9a-f]{64}$/;
const FOLDER = /^[0-9a-f]{2}$/;
const PIECE_BYTES = 65_536;
/** Written in this order: once the content is there, so are its smaller ones. */
const order: readonly Part[] = ['small', 'large', 'content'];

export function openFileStore(folder: string): FileStore {
  const fileOf = (hash: string, part: Part): string => {
    if (!HASH.test(hash)) throw new Error(`${hash} is no SHA-256`);
    const name = part === 'content' ? hash : `${hash}.${part}`;
    return path.join(folder, hash.slice(0, 2), hash.slice(2, 4), name);
  };
  return {
    put: async (hash, files) => {
      for (const part of order) {
        const content = files[part];
        if (content !== undefined) await writeWhole(fileOf(hash, part), content);
      }
    },
    read: async (hash, part) => orMissing(readFile(fileOf(hash, part))),
    remove: async (hash) => {
      for (const part of parts) await rm(fileOf(hash, part), { force: true });
    },
    hashes: async (folders = { from: '00', to: 'ff' }) => {
      const found = new Set<string>();
      for (const first of (await orMissing(readdir(folder))) ?? []) {
        if (!FOLDER.test(first) || first < folders.from || first > folders.to) continue;
        const entries = (await orMissing(readdir(path.join(folder, first), { recursive: true }))) ?? [];
        for (const name of entries.map((entry) => path.basename(entry))) if (HASH.test(name)) found.add(name);
      }
      return found;
    },
    digest: async (hash, signal) => orMissing(digestOf(fileOf(hash, 'content'), signal)),
    digestOfPart: async (hash, part, signal) => orMissing(digestOf(fileOf(hash, part), signal)),
  };
}

/** Between two pieces everybody else has their turn. */
async function digestOf(file: string, signal: AbortSignal | undefined): Promise<Digest> {
  const sum = createHash('sha256');
  let bytes = 0;
  for await (const piece of createReadStream(file, { signal, highWaterMark: PIECE_BYTES })) {
    sum.update(piece);
    bytes += piece.length;
  }
  return { hash: sum.digest('hex'), bytes };
}

async function orMissing<T>(asked: Promise<T>): Promise<T | undefined> {
  try {
    return await asked;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw error;
  }
}

/** Under another name first, on the disk, then renamed: a power cut leaves the whole file or none under its hash. */
async function writeWhole(file: string, content: Buffer): Promise<void> {
  await mkdir(path.dirname(file), { recursive: true });
  const unfinished = `${file}.${randomUUID()}.part`;
  try {
    const handle = await open(unfinished, 'wx', 0o640);
    try {
      await handle.writeFile(content);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(unfinished, file);
    await syncFolder(path.dirname(file));
  } catch (error) {
    await rm(unfinished, { force: true });
    throw error;
  }
}

/** The new name must outlast a power cut too; where a folder can't be synced, the file system sees to it itself. */
async function syncFolder(folder: string): Promise<void> {
  try {
    const handle = await open(folder, 'r');
    try {
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (error) {
    if (!['EISDIR', 'EPERM', 'EINVAL', 'EACCES'].includes((error as NodeJS.ErrnoException).code ?? '')) throw error;
  }
}
