import type { DispositionKind } from '#domain/obligations/disposition.ts';

/** What may be done about an obligation. */
export const dispositions: Readonly<Record<DispositionKind, string>> = {
  'measure again': 'measure again',
  reuse: 'use it as it is',
  hone: 'hone',
  bore: 'bore to a size',
  replate: 'replate',
  resurface: 'resurface',
  grind: 'grind',
  shim: 'shim',
  replace: 'renew',
  'send out': 'send out',
  search: 'search for it',
  other: 'something else',
};

/** A decision by the word it is known by here; what is none, as it is. */
export const dispositionOf = (kind: string): string =>
  Object.entries(dispositions).find(([known]) => known === kind)?.[1] ?? kind;
