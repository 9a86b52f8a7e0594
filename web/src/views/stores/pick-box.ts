import { useSyncExternalStore } from 'react';
import type { JobName, PartName } from '#contracts/parts.ts';
import type { Pick } from '#contracts/stores-desks.ts';
import { newKey } from '../../app/key.ts';

/** Pieces that were taken out of their bin and are not issued yet: they lie in the box of whoever picks. */
export interface Picked {
  /** The idempotency key of their issue: sent again with the same, it is done once. */
  readonly key: string;
  readonly demandLineId: string;
  readonly lotId: string;
  readonly quantity: number;
  readonly part: PartName;
  readonly job: JobName;
}

export const sameLot = (
  a: { readonly demandLineId: string; readonly lotId: string },
  b: { readonly demandLineId: string; readonly lotId: string },
): boolean => a.demandLineId === b.demandLineId && a.lotId === b.lotId;

export const pickedOf = ({ demandLineId, lotId, quantity, part, job }: Pick): Picked => ({
  key: newKey(),
  demandLineId,
  lotId,
  quantity,
  part,
  job,
});

const nameOf = (personId: string) => `crosshatch-picked:${personId}`;
const watchers = new Set<() => void>();
const read = new Map<string, { readonly text: string | null; readonly box: readonly Picked[] }>();
const none: readonly Picked[] = [];

function boxOf(personId: string): readonly Picked[] {
  const text = localStorage.getItem(nameOf(personId));
  const known = read.get(personId);
  if (known?.text === text) return known.box;
  let box = none;
  try {
    box = text === null ? none : (JSON.parse(text) as readonly Picked[]);
  } catch {
    // Not ours any more: begun anew.
  }
  read.set(personId, { text, box });
  return box;
}

function keep(personId: string, box: readonly Picked[]): void {
  localStorage.setItem(nameOf(personId), JSON.stringify(box));
  for (const watcher of watchers) watcher();
}

/** The box of one person at this terminal: it outlives the page, since the pieces do. */
export function usePickBox(personId: string) {
  const box = useSyncExternalStore(watch, () => boxOf(personId));
  return {
    box,
    put: (pick: Pick) => keep(personId, [...boxOf(personId).filter((one) => !sameLot(one, pick)), pickedOf(pick)]),
    takeOut: (of: { readonly demandLineId: string; readonly lotId: string }) =>
      keep(
        personId,
        boxOf(personId).filter((one) => !sameLot(one, of)),
      ),
  };
}

function watch(watcher: () => void): () => void {
  watchers.add(watcher);
  addEventListener('storage', watcher);
  return () => {
    watchers.delete(watcher);
    removeEventListener('storage', watcher);
  };
}
