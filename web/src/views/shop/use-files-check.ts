import { useEffect, useRef, useState } from 'react';
import type { FilesCheck } from '#contracts/files-check.ts';
import { read } from '../../app/api.ts';

/** Folders of the store that are asked for one after the other, so that how far it is can be told. */
const shares = [...'0123456789abcdef'].map((digit) => ({ from: `${digit}0`, to: `${digit}f` }));

/** What a check has found so far. */
export interface Found {
  readonly check: FilesCheck;
  readonly done: number;
  readonly of: number;
  readonly running: boolean;
  readonly error: Error | null;
}

const nothing: FilesCheck = { at: '', files: 0, bytes: 0, missing: [], changed: [], smaller: [], spare: [] };

const together = (one: FilesCheck, more: FilesCheck): FilesCheck => ({
  at: more.at,
  files: one.files + more.files,
  bytes: one.bytes + more.bytes,
  missing: [...one.missing, ...more.missing],
  changed: [...one.changed, ...more.changed],
  smaller: [...one.smaller, ...more.smaller],
  spare: [...one.spare, ...more.spare],
});

/** Has the server read all files, a share at a time; stopped, or left, it ends on the server too. */
export function useFilesCheck() {
  const [found, setFound] = useState<Found | null>(null);
  const calling = useRef<AbortController | null>(null);
  const stop = () => {
    calling.current?.abort();
    setFound((before) => (before === null ? null : { ...before, running: false }));
  };
  useEffect(() => () => calling.current?.abort(), []);
  const run = async () => {
    calling.current?.abort();
    const call = new AbortController();
    calling.current = call;
    const { signal } = call;
    let now: Found = { check: nothing, done: 0, of: shares.length, running: true, error: null };
    setFound(now);
    for (const { from, to } of shares) {
      try {
        const check = together(now.check, await read<FilesCheck>(`/photos/check?from=${from}&to=${to}`, signal));
        now = { ...now, check, done: now.done + 1, running: now.done + 1 < now.of };
      } catch (error) {
        now = { ...now, running: false, error: error instanceof Error ? error : new Error(String(error)) };
      }
      if (signal.aborted) return;
      setFound(now);
      if (!now.running) return;
    }
  };
  return { found, run: () => void run(), stop };
}
