import { type UseMutationResult, useMutation } from '@tanstack/react-query';
import { RefusedError, send, type WriteOptions } from './api.ts';
import { newKey } from './key.ts';
import { invalidateFor } from './query-client.ts';

/** How long the server may take to answer before the act is sent again with its key: a line that went quiet says nothing. */
const PATIENCE_MS = 20_000;

export interface Write {
  readonly path: string;
  readonly body?: unknown;
  readonly method?: WriteOptions['method'];
  readonly ifMatch?: string;
}

export interface Writing<Reply> {
  /**
   * Begins a write. What is sent again because the network dropped it carries the same key, so it is done once: by itself,
   * and when the same thing is asked for once more after no answer came.
   */
  readonly write: (what: Write, onDone?: (reply: Reply) => void) => void;
  readonly busy: boolean;
  readonly error: Error | null;
  readonly reply: Reply | undefined;
  readonly clear: () => void;
}

/** One act on the server. Afterwards everything on screen is read again, also while the live line is down. */
export function useWrite<Reply = unknown>(): Writing<Reply> {
  const mutation: UseMutationResult<Reply, Error, Write & { key: string }> = useMutation({
    mutationFn: ({ path, body, method, ifMatch, key }) =>
      send<Reply>(path, body, {
        key,
        within: PATIENCE_MS,
        ...(method === undefined ? {} : { method }),
        ...(ifMatch === undefined ? {} : { ifMatch }),
      }),
    onSuccess: () => invalidateFor('everything'),
  });
  const keyOf = (what: Write): string => {
    const { error, variables } = mutation;
    const isUnanswered = error instanceof RefusedError && error.offline && variables !== undefined;
    if (!isUnanswered) return newKey();
    const { key, ...before } = variables;
    return JSON.stringify(before) === JSON.stringify(what) ? key : newKey();
  };
  return {
    write: (what, onDone) =>
      mutation.mutate({ ...what, key: keyOf(what) }, onDone === undefined ? {} : { onSuccess: onDone }),
    busy: mutation.isPending,
    error: mutation.error,
    reply: mutation.data,
    clear: mutation.reset,
  };
}

/** What the refusal says about one field, by the end of its pointer; undefined: nothing. */
export function faultAt(error: Error | null, pointer: string): string | undefined {
  if (!(error instanceof RefusedError)) return undefined;
  return error.problem.errors?.find((fault) => fault.pointer === pointer || fault.pointer.startsWith(`${pointer}/`))
    ?.detail;
}

/** True when the refusal names a field other than these, or none: then it has to be said as a whole. */
export function isSaidAt(error: Error | null, pointers: readonly string[]): boolean {
  if (!(error instanceof RefusedError)) return false;
  const faults = error.problem.errors ?? [];
  return faults.length > 0 && faults.every(({ pointer }) => pointers.some((own) => pointer.startsWith(own)));
}
