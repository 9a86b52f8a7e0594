import { createContext, type ReactNode, useContext, useSyncExternalStore } from 'react';
import { useFormat } from '../words/format.ts';

const TICK_MS = 5000;

let tick = Date.now();
let timer: ReturnType<typeof setInterval> | undefined;
const watchers = new Set<() => void>();

function watch(watcher: () => void): () => void {
  watchers.add(watcher);
  tick = Date.now();
  timer ??= setInterval(() => {
    tick = Date.now();
    for (const each of watchers) each();
  }, TICK_MS);
  return () => {
    watchers.delete(watcher);
    if (watchers.size > 0) return;
    clearInterval(timer);
    timer = undefined;
  };
}

const SkewContext = createContext(0);

/** What is inside counts time by the server's clock: a terminal whose own clock is wrong still tells spans rightly. */
export function ServerClock({ asOf, readAt, children }: { asOf: string; readAt: number; children: ReactNode }) {
  const skew = Date.parse(asOf) - readAt;
  // The way there and back takes moments: a difference of less than the shown minute is none.
  return <SkewContext value={Math.abs(skew) < 30_000 ? 0 : skew}>{children}</SkewContext>;
}

/** The time now, ticking, in milliseconds. */
export function useNow(): number {
  return useSyncExternalStore(watch, () => tick) + useContext(SkewContext);
}

/** How long since an instant: ticks by itself, reads nothing again. */
export function Span({ from }: { readonly from: string }) {
  const format = useFormat();
  const now = useNow();
  return <span className="num nowrap">{format.span(from, now)}</span>;
}
