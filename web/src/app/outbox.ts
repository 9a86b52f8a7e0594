import { useSyncExternalStore } from 'react';
import type { Problem } from '#contracts/problems.ts';
import { newKey } from './key.ts';

/** What an entry is, for whoever shows it: `strike` takes back a reading or a pull that has reached the server. */
export type EntryKind = 'reading' | 'pull' | 'strike';

/** An entry keyed at this terminal that the server has not answered yet, or has refused. */
export interface Entry {
  /** Its idempotency key: sent again with the same, it is done once. */
  readonly key: string;
  readonly kind: EntryKind;
  /** Whose it is: it is sent in that person's session only. */
  readonly personId: string;
  readonly person: string;
  readonly jobId: string;
  readonly path: string;
  readonly body: unknown;
  readonly happenedAt: string;
  readonly order: number;
  /** It was sent at least once, and nobody knows whether it arrived. */
  readonly tried: boolean;
  /** Taken back after it was tried: once the server has it, it is struck. */
  readonly undone: boolean;
  readonly refusal: Problem | null;
}

export type Keeping = Pick<Entry, 'kind' | 'personId' | 'person' | 'jobId' | 'path' | 'body'> & {
  /** When it was done, if not now: an entry that is mended keeps its time. */
  readonly happenedAt?: string;
  /** When it is to be sent, if not after all others: what takes an entry back goes where that went. */
  readonly order?: number;
};

const PREFIX = 'crosshatch-kept:';

/** What the terminal's store would not take (full, forbidden) lives as long as the page. */
const unstored = new Map<string, Entry>();
const watchers = new Set<() => void>();
let seen: readonly Entry[] | undefined;
let lastOrder = 0;

const nameOf = (key: string) => `${PREFIX}${key}`;

function readEntry(text: string | null): Entry | undefined {
  try {
    return text === null ? undefined : (JSON.parse(text) as Entry);
  } catch {
    return undefined;
  }
}

/** One item of the store an entry: two tabs never write over each other. */
function readAll(): readonly Entry[] {
  const stored = Object.keys(localStorage)
    .filter((name) => name.startsWith(PREFIX))
    .map((name) => readEntry(localStorage.getItem(name)))
    .filter((entry) => entry !== undefined);
  return [...stored, ...unstored.values()].toSorted((a, b) => a.order - b.order);
}

function changed(): void {
  seen = undefined;
  for (const watcher of watchers) watcher();
}

function put(entry: Entry): void {
  try {
    localStorage.setItem(nameOf(entry.key), JSON.stringify(entry));
    unstored.delete(entry.key);
  } catch {
    unstored.set(entry.key, entry);
  }
  changed();
}

/** Everything this terminal keeps, in the order in which it was keyed. */
export function entriesKept(): readonly Entry[] {
  seen ??= readAll();
  return seen;
}

const find = (key: string): Entry | undefined => entriesKept().find((entry) => entry.key === key);

export function keepEntry(of: Keeping): Entry {
  const now = Date.now();
  // Two entries within one millisecond still have an order.
  lastOrder = Math.max(now, lastOrder + 0.001);
  const entry: Entry = {
    happenedAt: new Date(now).toISOString(),
    ...of,
    key: newKey(),
    order: of.order ?? lastOrder,
    tried: false,
    undone: false,
    refusal: null,
  };
  put(entry);
  return entry;
}

export function dropEntry(key: string): void {
  localStorage.removeItem(nameOf(key));
  unstored.delete(key);
  changed();
}

export function markTried(key: string): void {
  const entry = find(key);
  if (entry !== undefined && !entry.tried) put({ ...entry, tried: true });
}

export function markRefused(key: string, refusal: Problem): void {
  const entry = find(key);
  if (entry !== undefined) put({ ...entry, refusal });
}

/** Takes an entry back: gone if it never left; struck as soon as the server has it, if it may have arrived. */
export function takeBack(key: string): void {
  const entry = find(key);
  if (entry === undefined) return;
  if (entry.tried && entry.refusal === null) put({ ...entry, undone: true });
  else dropEntry(key);
}

/** The entries as they are now; the component renders again when one comes or goes, in another tab too. */
export function useEntries(): readonly Entry[] {
  return useSyncExternalStore(watch, entriesKept);
}

function watch(watcher: () => void): () => void {
  const other = (event: StorageEvent) => {
    if (event.key === null || event.key.startsWith(PREFIX)) changed();
  };
  watchers.add(watcher);
  addEventListener('storage', other);
  return () => {
    watchers.delete(watcher);
    removeEventListener('storage', other);
  };
}
