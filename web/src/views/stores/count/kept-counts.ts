import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { CountSheet } from '#contracts/counts.ts';
import { RefusedError, send } from '../../../app/api.ts';
import { newKey } from '../../../app/key.ts';
import { useSession } from '../../../app/session.tsx';
import { countSheetQuery } from './count-queries.ts';

/** A count keyed at this terminal that the server has not answered yet. */
interface KeptCount {
  readonly key: string;
  readonly lineId: string;
  readonly counted: number;
  readonly at: string;
  /** It was sent at least once: the server compares it with the books of when it was keyed. */
  readonly tried: boolean;
}

const retryMs = 4000;
/** By sheet and person: what one keyed is never sent in another's session. */
const nameOf = (sheetId: string, personId: string) => `crosshatch-counts:${sheetId}:${personId}`;

function stored(name: string): readonly KeptCount[] {
  try {
    return JSON.parse(localStorage.getItem(name) ?? '[]') as readonly KeptCount[];
  } catch {
    return [];
  }
}

function store(name: string, kept: readonly KeptCount[]): void {
  try {
    if (kept.length === 0) localStorage.removeItem(name);
    else localStorage.setItem(name, JSON.stringify(kept));
  } catch {
    // A store that is full or forbidden: what is kept lives as long as the page.
  }
}

export interface KeptCounts {
  /** What is keyed and not answered, by line. */
  readonly of: (lineId: string) => number | undefined;
  readonly waiting: number;
  /** The network did not answer the last time. */
  readonly offline: boolean;
  readonly error: Error | null;
  readonly keep: (lineId: string, counted: number) => void;
}

/** Counts go one after the other, each once; those that the network does not take stay here and are sent later. */
export function useKeptCounts(sheetId: string): KeptCounts {
  const client = useQueryClient();
  const name = nameOf(sheetId, useSession().person.id);
  const [kept, setKept] = useState(() => stored(name));
  const [offline, setOffline] = useState(false);
  const [error, setError] = useState<Error | null>(null);
  const now = useRef(kept);
  const sending = useRef(false);
  const change = useCallback(
    (next: readonly KeptCount[]) => {
      now.current = next;
      store(name, next);
      setKept(next);
    },
    [name],
  );
  const sendAll = useCallback(async () => {
    if (sending.current) return;
    sending.current = true;
    for (let first = now.current[0]; first !== undefined; first = now.current[0]) {
      const { key, lineId, counted, at, tried } = first;
      const rest = () => now.current.filter((one) => one.key !== key);
      try {
        change(now.current.map((one) => (one.key === key ? { ...one, tried: true } : one)));
        const options = { key, ...(tried ? { happenedAt: at } : {}) };
        const sheet = await send<CountSheet>(`/count-sheets/${sheetId}/counts`, { lineId, counted }, options);
        // A read that is still on its way may have been answered before: it must not take the count back from the page.
        await client.cancelQueries({ queryKey: countSheetQuery(sheetId).queryKey });
        client.setQueryData(countSheetQuery(sheetId).queryKey, sheet);
        change(rest());
        setOffline(false);
      } catch (failure) {
        if (failure instanceof RefusedError && failure.offline) {
          setOffline(true);
          break;
        }
        change(rest());
        setError(failure instanceof Error ? failure : new Error(String(failure)));
      }
    }
    sending.current = false;
  }, [sheetId, client, change]);
  useEffect(() => {
    void sendAll();
    const timer = setInterval(() => void sendAll(), retryMs);
    return () => clearInterval(timer);
  }, [sendAll]);
  return {
    of: (lineId) => kept.findLast((one) => one.lineId === lineId)?.counted,
    waiting: kept.length,
    offline,
    error,
    keep: (lineId, counted) => {
      setError(null);
      change([...now.current, { key: newKey(), lineId, counted, at: new Date().toISOString(), tried: false }]);
      void sendAll();
    },
  };
}
