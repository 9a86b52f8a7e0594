import { execFileSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readlinkSync,
  rmSync,
  statSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { projectFolder } from '#platform/project-folder.ts';

export interface TreeCopy {
  /** The copied project, below a folder that only its owner can enter. */
  readonly folder: string;
  /** A data folder of one's own in the copy. */
  readonly dataFolder: (name: string) => string;
  readonly remove: () => void;
}

/** What a clone holds, and node_modules to save the installation; nothing built, generated or stored. */
const parts = ['start.mjs', 'package.json', 'package-lock.json', '.npmrc', 'prisma.config.ts', 'tsconfig.json'];
const folders = ['scripts', 'server', 'prisma', 'web'];

/** Copies the project the way a fresh clone in `mktemp -d` lies: mode 0700. */
export function copyTree(owner?: { readonly uid: number; readonly gid: number }): TreeCopy {
  const folder = mkdtempSync(path.join(tmpdir(), 'crosshatch-clone-'));
  for (const part of [...parts, ...folders]) {
    cpSync(path.join(projectFolder, part), path.join(folder, part), {
      recursive: true,
      filter: (source) => path.basename(source) !== 'generated',
    });
  }
  linkModules(path.join(projectFolder, 'node_modules'), path.join(folder, 'node_modules'));
  if (owner) giveTo(folder, owner);
  const dataFolders = new Set<string>();
  return {
    folder,
    dataFolder: (name) => {
      dataFolders.add(path.join(folder, name));
      return path.join(folder, name);
    },
    remove: () => {
      for (const data of dataFolders) removeOutside(data);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Hard links where the file system allows: a copy of 40 000 small files takes its time. */
function linkModules(from: string, to: string): void {
  mkdirSync(to);
  const names = readdirSync(from).filter((name) => !['.cache', '.vite', '.vite-temp'].includes(name));
  const sources = names.map((name) => path.join(from, name));
  try {
    execFileSync('cp', ['-al', ...sources, to], { stdio: 'ignore' });
  } catch {
    execFileSync('cp', ['-a', ...sources, to]);
  }
}

/** Folders of node_modules only: its files are shared with the original and need not be written. */
function giveTo(folder: string, { uid, gid }: { readonly uid: number; readonly gid: number }): void {
  const owner = `${uid}:${gid}`;
  execFileSync('find', [folder, '-type', 'd', '-exec', 'chown', owner, '{}', '+']);
  execFileSync('find', [
    folder,
    '-path',
    '*/node_modules',
    '-prune',
    '-o',
    '-type',
    'f',
    '-exec',
    'chown',
    owner,
    '{}',
    '+',
  ]);
}

/** Started by root, the cluster lies outside the clone. */
function removeOutside(dataFolder: string): void {
  const link = path.join(dataFolder, 'postgres');
  if (existsSync(dataFolder) && lstatSync(link, { throwIfNoEntry: false })?.isSymbolicLink()) {
    rmSync(readlinkSync(link), { recursive: true, force: true });
  }
}

/** The process number of the PostgreSQL on a data folder, as it wrote it down itself. */
export function postmasterOf(dataFolder: string): number | undefined {
  const file = path.join(dataFolder, 'postgres/cluster/postmaster.pid');
  if (!statSync(file, { throwIfNoEntry: false })) return undefined;
  return Number(execFileSync('head', ['-1', file], { encoding: 'utf8' }));
}
