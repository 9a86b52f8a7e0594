import { useSyncExternalStore } from 'react';
import type { Problem } from '#contracts/problems.ts';
import type { KeyedReading, KeyReadings } from '#contracts/readings.ts';
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
  /** Readings of a row that were taken back after it was tried, by place and repeat: struck as soon as the server has them. */
  readonly takenBack?: readonly string[];
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

/** What names a reading of a row. */
export const readingName = ({ position, repeat }: Pick<KeyedReading, 'position' | 'repeat'>): string =>
  `${repeat} ${position}`;

const readingsOf = (entry: Entry): readonly KeyedReading[] =>
  entry.kind === 'reading' ? (entry.body as KeyReadings).readings : [];

/** The readings of an entry that still count. */
export const readingsStanding = (entry: Entry): readonly KeyedReading[] =>
  entry.undone ? [] : readingsOf(entry).filter((reading) => !entry.takenBack?.includes(readingName(reading)));

/**
 * Takes an entry back, or one reading of its row: gone if it never left; struck as soon as the server has it, if it may
 * have arrived.
 */
export function takeBack(key: string, reading?: Pick<KeyedReading, 'position' | 'repeat'>): void {
  const entry = find(key);
  if (entry === undefined) return;
  const out = entry.tried && entry.refusal === null;
  if (reading !== undefined && readingsStanding(entry).length > 1) {
    const name = readingName(reading);
    const left = readingsOf(entry).filter((one) => readingName(one) !== name);
    if (out) put({ ...entry, takenBack: [...(entry.takenBack ?? []), name] });
    else put({ ...entry, body: { ...(entry.body as KeyReadings), readings: left } });
  } else if (out) put({ ...entry, undone: true });
  else dropEntry(key);
}

/**
 * A row that was refused for some of its figures: the good ones go again as one row, each of the others by itself, to be
 * asked about by itself. False: nothing tells which they are.
 */
export function partRow(key: string, refusal: Problem): boolean {
  const entry = find(key);
  if (entry === undefined || readingsOf(entry).length < 2) return false;
  const wrong = new Set(
    (refusal.errors ?? []).flatMap(({ pointer }) => {
      const at = /^\/readings\/(\d+)(\/|$)/.exec(pointer)?.[1];
      return at === undefined ? [] : [readingsOf(entry)[Number(at)]];
    }),
  );
  if (wrong.size === 0) return false;
  const standing = readingsStanding(entry);
  const rows = [
    standing.filter((reading) => !wrong.has(reading)),
    ...standing.filter((reading) => wrong.has(reading)).map((reading) => [reading]),
  ];
  const { kind, personId, person, jobId, path, happenedAt, order } = entry;
  for (const readings of rows.filter(({ length }) => length > 0)) {
    const body = { ...(entry.body as KeyReadings), readings };
    keepEntry({ kind, personId, person, jobId, path, happenedAt, order, body });
  }
  dropEntry(key);
  return true;
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
