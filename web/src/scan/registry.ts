import { useEffect, useRef } from 'react';
import type { Scanned } from '#contracts/labels.ts';

/** What a view did with a scan: said beside what was scanned. */
export interface ScanDone {
  readonly did: string;
  /** Takes it back, where something was changed. */
  readonly undo?: () => void;
  /** Nothing was done, since it does not belong here: said so that it is noticed. */
  readonly amiss?: boolean;
}

/** What a view does with what was scanned; undefined: it has no use for it. */
export type ScanHandler = (scanned: Scanned) => ScanDone | undefined;

const handlers: ScanHandler[] = [];
let pending: Scanned | undefined;

/**
 * What this view, or this part of it, does with a scan while it is on screen. What lies over another is asked first; what
 * nobody has a use for is opened on its own page.
 */
export function useScan(handler: ScanHandler): void {
  const now = useRef(handler);
  now.current = handler;
  useEffect(() => {
    const heard: ScanHandler = (scanned) => now.current(scanned);
    handlers.push(heard);
    // What was scanned elsewhere and is opened here.
    if (pending !== undefined && heard(pending) !== undefined) pending = undefined;
    return () => {
      handlers.splice(handlers.indexOf(heard), 1);
    };
  }, []);
}

/** What the view on screen did with it; undefined: it is to be opened. */
export function handled(scanned: Scanned): ScanDone | undefined {
  for (const handler of handlers.toReversed()) {
    const done = handler(scanned);
    if (done !== undefined) return done;
  }
  return undefined;
}

/** For the view that is opened now: it does with it what it does with a scan. */
export function leaveFor(scanned: Scanned): void {
  pending = scanned;
}
