/** Who answers for an engine or tray: exactly one at any time. */
export type Holder =
  | { readonly kind: 'person'; readonly personId: string }
  | { readonly kind: 'bay'; readonly bayId: string }
  | { readonly kind: 'vendor'; readonly vendorId: string }
  | { readonly kind: 'owner' };

/** Microseconds since 1970-01-01T00:00Z, the resolution in which instants are kept. A whole number, exact until 2255. */
export type InstantMicroseconds = number;

/**
 * One period in which one holder has one subject (an engine or a tray). It begins at `from` and ends just before
 * `until`; null while it lasts. `placeBayId` is the bay it is in, null with a vendor or the owner.
 */
export interface CustodyPeriod {
  readonly subjectId: string;
  readonly holder: Holder;
  readonly placeBayId: string | null;
  readonly from: InstantMicroseconds;
  readonly until: InstantMicroseconds | null;
}

/** Whether a place goes with a holder: a person holds it in some bay, a bay in itself, vendor and owner in none. */
export function placeFits(holder: Holder, placeBayId: string | null): boolean {
  switch (holder.kind) {
    case 'person':
      return placeBayId !== null;
    case 'bay':
      return placeBayId === holder.bayId;
    case 'vendor':
    case 'owner':
      return placeBayId === null;
  }
}

/** The period of one subject that covers an instant; undefined before its first. */
export function heldAt(periods: readonly CustodyPeriod[], instant: InstantMicroseconds): CustodyPeriod | undefined {
  return periods.find((period) => period.from <= instant && (period.until === null || instant < period.until));
}

export type CustodyFault =
  | { readonly kind: 'empty'; readonly at: InstantMicroseconds }
  | { readonly kind: 'gap'; readonly from: InstantMicroseconds; readonly until: InstantMicroseconds }
  | { readonly kind: 'overlap'; readonly from: InstantMicroseconds; readonly until: InstantMicroseconds | null }
  | { readonly kind: 'unheld'; readonly since: InstantMicroseconds }
  | { readonly kind: 'place-does-not-fit'; readonly at: InstantMicroseconds };

/**
 * What is wrong with the periods of one subject: they must follow one another without gap or overlap, each longer
 * than nothing, the last one open (or ended when the tray was emptied), and each place must fit its holder. Empty list:
 * all is well. Periods may come in any order.
 */
export function custodyFaults(
  periods: readonly CustodyPeriod[],
  emptiedAt: InstantMicroseconds | null,
): readonly CustodyFault[] {
  const inOrder = periods.toSorted((a, b) => a.from - b.from);
  const faults: CustodyFault[] = inOrder.flatMap((period): CustodyFault[] => [
    ...(period.until !== null && period.until <= period.from ? [{ kind: 'empty' as const, at: period.from }] : []),
    ...(placeFits(period.holder, period.placeBayId) ? [] : [{ kind: 'place-does-not-fit' as const, at: period.from }]),
  ]);
  let covered: InstantMicroseconds | null = inOrder[0]?.from ?? null;
  for (const [index, period] of inOrder.entries()) {
    if (index > 0) {
      if (covered === null || period.from < covered) {
        faults.push({ kind: 'overlap', from: period.from, until: earlier(covered, period.until) });
      } else if (period.from > covered) {
        faults.push({ kind: 'gap', from: covered, until: period.from });
      }
    }
    covered = index === 0 ? period.until : later(covered, period.until);
  }
  if (covered !== null && covered !== emptiedAt) faults.push({ kind: 'unheld', since: covered });
  return faults;
}

function earlier(a: InstantMicroseconds | null, b: InstantMicroseconds | null): InstantMicroseconds | null {
  if (a === null) return b;
  return b === null ? a : Math.min(a, b);
}

function later(a: InstantMicroseconds | null, b: InstantMicroseconds | null): InstantMicroseconds | null {
  return a === null || b === null ? null : Math.max(a, b);
}
