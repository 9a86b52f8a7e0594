import { useSyncExternalStore } from 'react';
import { RefusedError, send } from './api.ts';
import {
  dropEntry,
  type Entry,
  entriesKept,
  keepEntry,
  markRefused,
  markTried,
  partRow,
  readingName,
} from './outbox.ts';
import { invalidateFor } from './query-client.ts';

/** How long the server may take to answer before the entry waits and is sent again with its key. */
const PATIENCE_MS = 12_000;
const AGAIN_MS = 3_000;

type Heard = (entry: Entry, reply: unknown) => void;
const hearers = new Set<Heard>();
/** Since when nothing could be sent; null: the last one went. */
let downSince: number | null = null;
const watchers = new Set<() => void>();
let sender: (() => void) | undefined;

function setDown(since: number | null): void {
  if ((since === null) === (downSince === null)) return;
  downSince = since;
  for (const watcher of watchers) watcher();
}

/** Since when entries could not be sent; null while they can. */
export const useDownSince = (): number | null =>
  useSyncExternalStore(
    (watcher) => {
      watchers.add(watcher);
      return () => watchers.delete(watcher);
    },
    () => downSince,
  );

/** Hears what the server answered to an entry, before the entry is dropped. Returns how to stop. */
export function onSent(heard: Heard): () => void {
  hearers.add(heard);
  return () => hearers.delete(heard);
}

/** Sends what waits, now, rather than with the next turn. */
export const sendNow = (): void => sender?.();

interface KeptReply {
  readonly readings?: readonly { readonly id: string; readonly position: string; readonly repeat: number }[];
  readonly pulls?: readonly { readonly id: string; readonly fastener: number; readonly stage: number }[];
}

/** What an entry that was taken back has become on the server, to be struck there. */
function strikePaths(entry: Entry, reply: KeptReply): readonly string[] {
  if (entry.kind === 'reading') {
    return (reply.readings ?? [])
      .filter((reading) => entry.undone || entry.takenBack?.includes(readingName(reading)))
      .map(({ id }) => `/readings/${id}/strike`);
  }
  if (entry.kind !== 'pull') return [];
  const { fastener, stage } = entry.body as { fastener: number; stage: number };
  return (reply.pulls ?? [])
    .filter((pull) => pull.fastener === fastener && pull.stage === stage)
    .map(({ id }) => `/torque-pulls/${id}/strike`);
}

export const STRIKE_REASON = 'Taken back at the bench';

async function arrived(entry: Entry, reply: unknown): Promise<void> {
  for (const heard of hearers) heard(entry, reply);
  // What was heard is shown in the next turn; dropped before that, its place would look empty for a moment.
  await new Promise((shown) => setTimeout(shown, 0));
  const now = entriesKept().find(({ key }) => key === entry.key);
  if (now !== undefined && (now.undone || now.takenBack !== undefined)) {
    for (const path of strikePaths(now, reply as KeptReply)) {
      const { personId, person, jobId, order } = entry;
      // Before whatever was keyed since: its place must be free when the new reading arrives.
      keepEntry({ kind: 'strike', personId, person, jobId, path, order, body: { reason: STRIKE_REASON } });
    }
  }
  dropEntry(entry.key);
  invalidateFor([{ id: '', kind: entry.kind, engineId: null, jobId: entry.jobId }]);
}

/** True when it is settled: kept by the server, or refused and to be mended. False: it waits. */
async function sendOne(entry: Entry, onSignedOut: () => void): Promise<boolean> {
  markTried(entry.key);
  try {
    const reply = await send(entry.path, entry.body, {
      key: entry.key,
      happenedAt: entry.happenedAt,
      within: PATIENCE_MS,
    });
    setDown(null);
    await arrived(entry, reply);
    return true;
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    const { status } = error.problem;
    if (status === 401) {
      onSignedOut();
      return false;
    }
    if (status === 0 || status >= 500) setDown(Date.now());
    if (status === 0 || status >= 500 || status === 429 || error.code === 'in-flight') return false;
    setDown(null);
    // What is struck already needs no second strike.
    if (entry.kind === 'strike' && error.code === 'already-done') dropEntry(entry.key);
    else if (!partRow(entry.key, error.problem)) markRefused(entry.key, error.problem);
    invalidateFor([{ id: '', kind: entry.kind, engineId: null, jobId: entry.jobId }]);
    return true;
  }
}

interface Sender {
  readonly personId: string;
  /** The server no longer knows the session; what waits is sent when its owner taps in again. */
  readonly onSignedOut: () => void;
}

async function sendAll({ personId, onSignedOut }: Sender, stopped: AbortSignal): Promise<void> {
  while (!stopped.aborted) {
    const next = entriesKept().find((entry) => entry.personId === personId && entry.refusal === null);
    if (next === undefined || !(await sendOne(next, onSignedOut))) return;
  }
}

/** Sends a person's entries one after the other while they are signed in, and tries again until the network is back. */
export function startSending(of: Sender): () => void {
  const { personId } = of;
  const stop = new AbortController();
  let busy = false;
  let again = false;
  const run = async () => {
    if (busy) {
      again = true;
      return;
    }
    busy = true;
    do {
      again = false;
      const all = () => sendAll(of, stop.signal);
      // Two tabs of one browser take turns; without a lock manager the keys still keep it single.
      await ('locks' in navigator ? navigator.locks.request('crosshatch-outbox', all) : all());
    } while (again && !stop.signal.aborted);
    busy = false;
  };
  const turn = () => void run();
  const timer = setInterval(() => {
    if (entriesKept().some((entry) => entry.personId === personId && entry.refusal === null)) turn();
    else if (downSince !== null && navigator.onLine) setDown(null);
  }, AGAIN_MS);
  addEventListener('online', turn);
  sender = turn;
  turn();
  return () => {
    stop.abort();
    clearInterval(timer);
    removeEventListener('online', turn);
    sender = undefined;
  };
}
