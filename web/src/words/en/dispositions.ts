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
