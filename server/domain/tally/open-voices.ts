/** What is known of an open engine when its voice is judged. Instants are milliseconds since the epoch. */
export interface OpenFacts {
  readonly openedAt: number;
  readonly covered: boolean;
  /** Since when it has been covered, or uncovered. */
  readonly coveredOrNotSince: number;
  /** Since when something was declared possibly inside; null: nothing is. */
  readonly mayBeInsideSince: number | null;
}

/** The shop's limits, in minutes, and the latest end of a shift; null: the shop keeps no shift ends. */
export interface OpenLimits {
  readonly uncoveredMinutes: number;
  readonly coveredMinutes: number;
  readonly lastShiftEnd: number | null;
}

export interface Voice {
  readonly kind: 'may-be-inside' | 'uncovered-at-shift-end' | 'uncovered-too-long' | 'open-too-long';
  /** Since when it has been so: the instant at which the limit was passed. */
  readonly since: number;
}

const minute = 60_000;

/**
 * Why an open engine raises its voice at `now`, the worst first: something may be inside it; it stood uncovered at the
 * end of a shift and has not been covered since; it has stood uncovered, or open at all, longer than the shop allows.
 * A limit is passed when the time is over it, not when it is reached.
 */
export function openVoices(facts: OpenFacts, limits: OpenLimits, now: number): readonly Voice[] {
  const { lastShiftEnd } = limits;
  const voices: Voice[] = [];
  if (facts.mayBeInsideSince !== null) voices.push({ kind: 'may-be-inside', since: facts.mayBeInsideSince });
  if (!facts.covered && lastShiftEnd !== null && facts.coveredOrNotSince < lastShiftEnd && lastShiftEnd <= now) {
    voices.push({ kind: 'uncovered-at-shift-end', since: lastShiftEnd });
  }
  const uncoveredFrom = facts.coveredOrNotSince + limits.uncoveredMinutes * minute;
  if (!facts.covered && now > uncoveredFrom) voices.push({ kind: 'uncovered-too-long', since: uncoveredFrom });
  const openFrom = facts.openedAt + limits.coveredMinutes * minute;
  if (now > openFrom) voices.push({ kind: 'open-too-long', since: openFrom });
  return voices;
}
