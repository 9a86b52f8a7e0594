import type { SqlPool } from '#platform/database/client.ts';

/** A change as told by the database: ids only. Who may see it is asked when it is fetched. */
export interface Change {
  readonly id: string;
  readonly kind: string;
  readonly engineId: string | null;
  readonly jobId: string | null;
}

export interface Listener {
  readonly sessionId: string;
  readonly change: (change: Change) => void;
  /** The line to the database was lost for a while: anything may have changed. */
  readonly refetch: () => void;
  /** The session ended: the stream must too. */
  readonly end: () => void;
  /** Ends it without a word: it is one of too many. */
  readonly drop: () => void;
}

export interface LiveHub {
  readonly ready: () => boolean;
  readonly listen: (listener: Listener) => () => void;
  /** Drops a session's oldest listeners beyond so many. */
  readonly keepNewest: (sessionId: string, most: number) => void;
  readonly close: () => Promise<void>;
}

/**
 * Hears every committed event of the database, whichever process wrote it, and passes it on to this process's streams.
 * postgres.js listens again by itself when its connection was lost; what came in between is lost, hence `refetch`.
 */
export async function openLiveHub(sql: SqlPool): Promise<LiveHub> {
  const listeners = new Set<Listener>();
  let listening = false;
  const heard = (text: string): void => {
    const change = JSON.parse(text) as Change;
    for (const listener of listeners) listener.change(change);
  };
  const changes = await sql.listen('crosshatch', heard, () => {
    if (listening) for (const listener of listeners) listener.refetch();
    listening = true;
  });
  const sessions = await sql.listen('crosshatch_session', (sessionId) => {
    for (const listener of [...listeners]) if (listener.sessionId === sessionId) listener.end();
  });
  return {
    ready: () => listening,
    listen: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    keepNewest: (sessionId, most) => {
      const own = [...listeners].filter((listener) => listener.sessionId === sessionId);
      for (const listener of own.slice(0, -most)) listener.drop();
    },
    close: async () => {
      for (const listener of [...listeners]) listener.end();
      await Promise.allSettled([changes.unlisten(), sessions.unlisten()]);
    },
  };
}
