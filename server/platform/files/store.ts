import { randomUUID } from 'node:crypto';
import { mkdir, open, readdir, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';

/** What is made of one content: itself, and for a picture two smaller ones. */
export const parts = ['content', 'small', 'large'] as const;
export type Part = (typeof parts)[number];

/** A folder that every process of a shop shares. A file's name is the hash of its content, so writing twice is writing once. */
export interface FileStore {
  /** Writes what is not there yet, each file whole or not at all, the content last. */
  readonly put: (hash: string, files: Readonly<Partial<Record<Part, Buffer>>>) => Promise<void>;
  /** undefined: there is no such file. */
  readonly read: (hash: string, part: Part) => Promise<Buffer | undefined>;
  readonly remove: (hash: string) => Promise<void>;
  /** The hashes of all content that lies in it. */
  readonly hashes: () => Promise<ReadonlySet<string>>;
}

const HASH = /^[0-9a-f]{64}$/;
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
    hashes: async () => {
      const entries = (await orMissing(readdir(folder, { recursive: true }))) ?? [];
      return new Set(entries.map((entry) => path.basename(entry)).filter((name) => HASH.test(name)));
    },
  };
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
