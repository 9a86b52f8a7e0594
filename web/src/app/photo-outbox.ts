import { useSyncExternalStore } from 'react';
import type { Problem } from '#contracts/problems.ts';
import { diskStore } from './disk-store.ts';
import { newKey } from './key.ts';

/** A photo or document of this terminal that the server does not have yet, or has refused. */
export interface KeptPhoto {
  /** Its idempotency key: sent again with the same, it is kept once. */
  readonly key: string;
  readonly personId: string;
  readonly person: string;
  readonly jobId: string;
  /** What it shows, as the query says it, without its caption. */
  readonly of: Readonly<Record<string, string>>;
  readonly caption: string;
  readonly name: string;
  readonly file: Blob;
  readonly happenedAt: string;
  readonly order: number;
  readonly refusal: Problem | null;
}

const disk = diskStore<KeptPhoto>('crosshatch', 'photos');
let kept: readonly KeptPhoto[] = [];
/** Share sent so far of what is on its way, by key. */
const sent = new Map<string, number>();
const watchers = new Set<() => void>();
let shown: readonly ShownPhoto[] = [];

/** As it is shown: with the share that has been sent, null while it waits. */
export type ShownPhoto = KeptPhoto & { readonly sent: number | null };

function changed(): void {
  shown = kept.map((photo) => ({ ...photo, sent: sent.get(photo.key) ?? null }));
  for (const watcher of watchers) watcher();
}

/** Other tabs of this browser read again what is kept. */
const channel = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('crosshatch-photos');

/** A browser that keeps nothing (private, full) holds it as long as the page lives. */
async function told(written: Promise<boolean>): Promise<void> {
  if (await written) channel?.postMessage('changed');
}

/** Reads what this terminal kept before, also for another tab. */
export async function readKept(): Promise<void> {
  const stored = (await disk.all()) ?? kept;
  kept = stored.toSorted((a, b) => a.order - b.order);
  changed();
}
channel?.addEventListener('message', () => void readKept());

export const photosKept = (): readonly KeptPhoto[] => kept;

/** What is to be kept; taken now unless it says when. */
export type TakenPhoto = Omit<KeptPhoto, 'key' | 'happenedAt' | 'order' | 'refusal'> & { readonly happenedAt?: string };

export async function keepPhoto(of: TakenPhoto): Promise<void> {
  const order = Math.max(Date.now(), (kept.at(-1)?.order ?? 0) + 0.001);
  const photo = { happenedAt: new Date().toISOString(), ...of, key: newKey(), order, refusal: null };
  kept = [...kept, photo];
  changed();
  await told(disk.put(photo));
}

export async function dropPhoto(key: string): Promise<void> {
  kept = kept.filter((photo) => photo.key !== key);
  sent.delete(key);
  changed();
  await told(disk.drop(key));
}

export async function refusePhoto(key: string, refusal: Problem): Promise<void> {
  const photo = kept.find((one) => one.key === key);
  if (photo === undefined) return;
  kept = kept.map((one) => (one.key === key ? { ...one, refusal } : one));
  sent.delete(key);
  changed();
  await told(disk.put({ ...photo, refusal }));
}

/** How much of it has left; null: it waits again. */
export function setSent(key: string, share: number | null): void {
  if (share === null) sent.delete(key);
  else sent.set(key, share);
  changed();
}

/** What is kept for one job, as it is now. */
export function usePhotosKept(): readonly ShownPhoto[] {
  return useSyncExternalStore(
    (watcher) => {
      watchers.add(watcher);
      return () => watchers.delete(watcher);
    },
    () => shown,
  );
}
