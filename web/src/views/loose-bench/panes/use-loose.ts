import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import { RefusedError, send } from '../../../app/api.ts';

interface Fault {
  readonly pointer: string;
  readonly detail: string;
}

/** What is wrong, by field: `at` tells what stands against one place of the body or anything below it. */
export interface Faults {
  readonly at: (pointer: string) => string | undefined;
  /** The whole refusal, for what has no field on the page. */
  readonly all: readonly Fault[];
}

const sentence = (detail: string) => {
  const text = detail.trim();
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.?!]$/.test(text) ? '' : '.'}`;
};

export function faultsOf(all: readonly Fault[]): Faults {
  return {
    all,
    at: (pointer) => {
      const fault = all.find((one) => one.pointer === pointer || one.pointer.startsWith(`${pointer}/`));
      return fault === undefined ? undefined : sentence(fault.detail);
    },
  };
}

function useSettled<T>(value: T): T {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), 250);
    return () => clearTimeout(timer);
  }, [value]);
  return settled;
}

/** Asks the loose bench, a moment after the last key; undefined asks nothing. */
export function useLoose<Found>(path: string, body: object | undefined) {
  const text = useSettled(body === undefined ? null : JSON.stringify(body));
  const query = useQuery<Found>({
    queryKey: ['loose', path, text],
    queryFn: () => send<Found>(`/bench/${path}`, JSON.parse(text ?? '{}')),
    enabled: text !== null,
    placeholderData: keepPreviousData,
    staleTime: Number.POSITIVE_INFINITY,
    meta: { follows: 'no change' },
  });
  const { error } = query;
  const told = error instanceof RefusedError ? (error.problem.errors ?? []) : [];
  return {
    found: text === null || body === undefined || query.isError ? undefined : query.data,
    faults: faultsOf(told),
    error: told.length > 0 ? null : error,
  };
}
