import { useSyncExternalStore } from 'react';
import type { Change } from './change.ts';
import { invalidateFor, queryClient } from './query-client.ts';

/** The line to the server: since when it has been up or down. */
export interface Line {
  readonly live: boolean;
  readonly since: number;
}

type Message =
  | { readonly change: Change }
  | { readonly refetch: true }
  | { readonly refused: true }
  | { readonly line: Line }
  | { readonly tell: true };

const GATHER_MS = 120;
/** The server says every 15 s that it is there. Without a word for so long the line is dead, though nothing broke it off. */
const SILENCE_MS = 40_000;
const AGAIN_MS = 2000;

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
  else if ('refused' in message) void queryClient.invalidateQueries({ queryKey: ['session'] });
  else if ('line' in message) setLine(message.line);
}

/** Opens the stream and passes on what it says; resolves when it ended, failed for good, or fell silent. */
function openStream(pass: (message: Message) => void, stopped: AbortSignal): Promise<void> {
  return new Promise((resolve) => {
    const source = new EventSource('/api/live');
    let watch: ReturnType<typeof setTimeout>;
    const end = () => {
      clearTimeout(watch);
      source.close();
      resolve();
    };
    const isThere = () => {
      clearTimeout(watch);
      watch = setTimeout(end, SILENCE_MS);
    };
    isThere();
    stopped.addEventListener('abort', end, { once: true });
    source.addEventListener('open', () => pass({ line: { live: true, since: Date.now() } }));
    source.addEventListener('error', () => {
      pass({ line: { live: false, since: Date.now() } });
      if (source.readyState !== EventSource.CLOSED) return;
      // Refused, which a browser does not try again by itself: nobody is signed in any more, or a proxy answered for a server that is down.
      pass({ refused: true });
      end();
    });
    source.addEventListener('here', isThere);
    source.addEventListener('refetch', () => {
      isThere();
      pass({ refetch: true });
    });
    source.addEventListener('change', (event) => {
      isThere();
      pass({ change: JSON.parse(event.data) as Change });
    });
    source.addEventListener('end', end);
  });
}

/** Opens the stream again whenever it is gone, until stopped. The server ends it when it stops itself, and at a sign-out. */
async function keepStream(pass: (message: Message) => void, stopped: AbortSignal): Promise<void> {
  while (!stopped.aborted) {
    await openStream(pass, stopped);
    if (stopped.aborted) return;
    pass({ line: { live: false, since: Date.now() } });
    await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
  }
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
    await keepStream(pass, stop.signal);
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
