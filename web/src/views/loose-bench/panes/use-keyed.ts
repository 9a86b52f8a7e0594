import { useSearch } from '@tanstack/react-router';
import { useMemo, useState } from 'react';
import { useAddress } from '../use-address.ts';
import type { PaneKind } from './kinds.ts';

/** What stands in the fields of a pane, by name; every value as it was typed. */
export type Keyed = Readonly<Record<string, string>>;

/** The fields of a pane; the address carries those that differ from the usual, so that it can be passed on. */
export function useKeyed(kind: PaneKind, usual: Keyed) {
  const search: Readonly<Record<string, unknown>> = useSearch({ strict: false });
  const [changed, setChanged] = useState<Keyed>(() =>
    Object.fromEntries(
      Object.entries(search).flatMap(([name, value]) =>
        typeof value === 'string' || typeof value === 'number' ? [[name, String(value).slice(0, 20_000)]] : [],
      ),
    ),
  );
  useAddress(
    kind,
    useMemo(
      () => Object.fromEntries(Object.entries(changed).filter(([name, text]) => text !== (usual[name] ?? ''))),
      [changed, usual],
    ),
  );
  return {
    keyed: { ...usual, ...changed } as Keyed,
    put: (more: Keyed) => setChanged((before) => ({ ...before, ...more })),
    clear: () => setChanged({}),
  };
}
