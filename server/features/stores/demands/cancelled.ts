import type { LineToServe } from '../ledger/queries.ts';
import { moveOnLine } from '../ledger/service.ts';

/** What to cancel from where: first what nobody asked for yet, then what is short, then what is reserved. */
export function cancelled(line: LineToServe, quantity: number) {
  const notAsked = Math.min(line.notAsked, quantity);
  const short = Math.min(line.short, quantity - notAsked);
  const reserved = quantity - notAsked - short;
  let standing = line;
  for (const [from, count] of [['notAsked', notAsked] as const, ['short', short] as const]) {
    if (count > 0) standing = { ...standing, ...moveOnLine(standing, from, { to: 'cancelled', count }) };
  }
  if (reserved > 0)
    standing = { ...standing, ...moveOnLine(standing, 'reserved', { to: 'cancelled', count: reserved }) };
  return { standing, reserved };
}
