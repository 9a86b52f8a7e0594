import { type DataTag, QueryClient, type QueryKey } from '@tanstack/react-query';
import { RefusedError } from './api.ts';
import type { Change } from './change.ts';

/** Which changes make a query stale. A query says so in its `meta.follows`; without it, it follows every change. */
export type Follows = 'every change' | 'no change' | { readonly engineId?: string; readonly jobId?: string };

declare module '@tanstack/react-query' {
  interface Register {
    queryMeta: { follows?: Follows };
    defaultError: Error;
  }
}

export const queryClient = new QueryClient({
  defaultOptions: {
    // A browser without any network may still reach a server on its own machine: whether it answers is for it to show.
    queries: {
      networkMode: 'always',
      refetchOnReconnect: true,
      staleTime: 30_000,
      refetchOnWindowFocus: true,
      retry: (failures, error) => error instanceof RefusedError && error.offline && failures < 3,
    },
    mutations: {
      networkMode: 'always',
      // Sent again with its key: where the first one is still being done, its answer is waited for.
      retry: (failures, error) =>
        error instanceof RefusedError && (error.offline || error.code === 'in-flight') && failures < 2,
    },
  },
});

function touches(follows: Follows | undefined, change: Change): boolean {
  if (follows === 'no change') return false;
  if (follows === undefined || follows === 'every change') return true;
  return (
    (follows.engineId !== undefined && follows.engineId === change.engineId) ||
    (follows.jobId !== undefined && follows.jobId === change.jobId)
  );
}

/** Marks stale, and reads again what is on screen, whatever the changes touch. */
export function invalidateFor(changes: readonly Change[] | 'everything'): void {
  void queryClient.invalidateQueries({
    predicate: ({ meta }) =>
      changes === 'everything'
        ? meta?.follows !== 'no change'
        : changes.some((change) => touches(meta?.follows, change)),
  });
}

/**
 * Changes what is on screen by what the server has just answered, where it was read already. A read under way began before
 * that answer: it is given up, since it would put back on screen what was.
 */
export function putOnScreen<Data>(key: DataTag<QueryKey, Data, Error>, change: (data: Data) => Data): void {
  const data = queryClient.getQueryData<Data>(key);
  if (data === undefined) return;
  void queryClient.cancelQueries({ queryKey: key, exact: true });
  queryClient.setQueryData<Data>(key, () => change(data) as never);
}
