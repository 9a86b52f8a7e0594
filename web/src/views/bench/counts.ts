import { useState } from 'react';
import { useSession } from '../../app/session.tsx';

/** What somebody counted so far, by line. */
export interface Counts {
  readonly of: (id: string) => number;
  /** Whether anything was keyed for it: a 0 nobody keyed is no count. */
  readonly isKeyed: (id: string) => boolean;
  readonly set: (id: string, count: number) => void;
  readonly clear: () => void;
}

interface Kept {
  readonly at: number;
  readonly counts: Readonly<Record<string, number>>;
}

/** What was counted longer ago is counted anew: pieces may have moved since. */
const KEPT_MS = 2 * 60 * 60 * 1000;

function kept(name: string): Kept['counts'] {
  try {
    const { at, counts } = JSON.parse(sessionStorage.getItem(name) ?? '{}') as Partial<Kept>;
    return counts !== undefined && at !== undefined && Date.now() - at < KEPT_MS ? counts : {};
  } catch {
    return {};
  }
}

/**
 * What this person counted so far for one act, which `what` names. It stays whatever the network does, over a reload, a step
 * back and a tap-out, until it is cleared.
 */
export function useCounts(what: string): Counts {
  const name = `crosshatch-counts:${useSession().person.id} ${what}`;
  const [counts, setCounts] = useState(() => kept(name));
  const change = (to: Kept['counts']) => {
    if (Object.keys(to).length === 0) sessionStorage.removeItem(name);
    else sessionStorage.setItem(name, JSON.stringify({ at: Date.now(), counts: to } satisfies Kept));
  };
  return {
    of: (id) => counts[id] ?? 0,
    isKeyed: (id) => counts[id] !== undefined,
    set: (id, count) =>
      setCounts((before) => {
        const after = { ...before, [id]: count };
        change(after);
        return after;
      }),
    clear: () => {
      change({});
      setCounts({});
    },
  };
}

/** Counts of one dialog, which are of no more use once it is done or put away: its `close` drops them. */
export function useDialogCounts(
  what: string,
  onClose: () => void,
): { readonly counts: Counts; readonly close: () => void } {
  const counts = useCounts(what);
  return {
    counts,
    close: () => {
      counts.clear();
      onClose();
    },
  };
}

export const sumOf = (counts: Counts, lines: readonly { readonly id: string }[]): number =>
  lines.reduce((sum, { id }) => sum + counts.of(id), 0);
