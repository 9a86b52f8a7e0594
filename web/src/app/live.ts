import { useSyncExternalStore } from 'react';
import type { Change } from './change.ts';
import { invalidateFor } from './query-client.ts';

/** The line to the server: since when it has been up or down. */
export interface Line {
  readonly live: boolean;
  readonly since: number;
}

type Message =
  | { readonly change: Change }
  | { readonly refetch: true }
  | { readonly line: Line }
  | { readonly tell: true };

const GATHER_MS = 120;

let line: Line = { live: false, since: Date.now() };
const watchers = new Set<() => void>();
let gathered: Change[] = [];
let timer: ReturnType<typeof setTimeout> | undefined;

function setLine(next: Line): void {
  if (next.live === line.live) return;
  line = next;
  for (const watcher of watchers) watcher();
}

/** Several changes close together make one refetch. */
function gather(change: Change): void {
  gathered.push(change);
  if (timer !== undefined) return;
  timer = setTimeout(() => {
    timer = undefined;
    const changes = gathered;
    gathered = [];
    invalidateFor(changes);
  }, GATHER_MS);
}

function hear(message: Message): void {
  if ('change' in message) gather(message.change);
  else if ('refetch' in message) invalidateFor('everything');
  else if ('line' in message) setLine(message.line);
}

/** Opens the stream and passes on what it says; resolves when the server ends it. */
function openStream(pass: (message: Message) => void, stopped: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const source = new EventSource('/api/live');
    const end = () => {
      source.close();
      resolve();
    };
    stopped.addEventListener('abort', end);
    source.addEventListener('open', () => pass({ line: { live: true, since: Date.now() } }));
    source.addEventListener('error', () => pass({ line: { live: false, since: Date.now() } }));
    source.addEventListener('refetch', () => pass({ refetch: true }));
    source.addEventListener('change', (event) => pass({ change: JSON.parse(event.data) as Change }));
    source.addEventListener('end', end);
  });
}

/**
 * One stream a browser, shared by its tabs: the tab that holds the lock reads it and tells the others. When that tab
 * goes, the lock passes on. Returns how to stop.
 */
export function startLive(): () => void {
  const stop = new AbortController();
  const channel = new BroadcastChannel('crosshatch-live');
  let holder = false;
  const pass = (message: Message) => {
    hear(message);
    channel.postMessage(message);
  };
  channel.onmessage = ({ data }: MessageEvent<Message>) => {
    if ('tell' in data) {
      if (holder) channel.postMessage({ line } satisfies Message);
    } else hear(data);
  };
  channel.postMessage({ tell: true } satisfies Message);
  const hold = async () => {
    holder = true;
    await openStream(pass, stop.signal);
    holder = false;
  };
  // Without the lock manager (plain HTTP from another machine) each tab reads its own stream.
  if ('locks' in navigator)
    navigator.locks.request('crosshatch-live', { signal: stop.signal }, hold).catch(() => undefined);
  else void hold();
  return () => {
    stop.abort();
    channel.close();
    setLine({ live: false, since: Date.now() });
  };
}

/** The line as it is now; the component renders again when it goes up or down. */
export function useLine(): Line {
  return useSyncExternalStore(
    (watcher) => {
      watchers.add(watcher);
      return () => watchers.delete(watcher);
    },
    () => line,
  );
}
