import type { Verdict } from '#domain/metrology/finding.ts';

/** The four verdicts, and the absence of one. */
export type VerdictKind = Verdict | 'not measured';

/** Only these two ask for a hand now, so only these two are drawn in the accent colour. */
export function asksForAHand(verdict: VerdictKind): boolean {
  return verdict === 'past the limit' || verdict === 'undecided';
}
