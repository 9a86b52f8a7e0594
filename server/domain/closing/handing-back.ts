import type { InstantMicroseconds } from '#domain/custody/holding.ts';
import type { OpenObligation } from './closing-the-opening.ts';

/** A test of the assembled engine (pressure, leak-down, first start), with its outcome. */
export interface Proof {
  readonly id: string;
  readonly what: string;
  readonly at: InstantMicroseconds;
  readonly passed: boolean;
}

/** The newest quote of a job. `answer` is null while the owner hasn't answered. */
export interface QuoteFact {
  readonly id: string;
  readonly answer: 'yes' | 'no' | null;
}

/** A part handed out for the job, of which so many are neither fitted nor brought back. */
export interface IssuedPart {
  readonly demandLineId: string;
  readonly what: string;
  readonly notUsed: number;
}

/** A part that the job still asks stores for: neither issued nor called off. */
export interface OpenDemand {
  readonly demandLineId: string;
  readonly what: string;
  readonly count: number;
}

export interface NamedSubject {
  readonly subjectId: string;
  readonly what: string;
}

/** Everything the gate looks at; gathered under the engine's lock. */
export interface HandBackFacts {
  readonly openOpeningId: string | null;
  /** When the last opening was closed, null when the engine was never opened on this job. */
  readonly lastClosedAt: InstantMicroseconds | null;
  readonly obligations: readonly OpenObligation[];
  /** Proofs of this job in any order; of one kind (`what`) the newest counts. */
  readonly proofs: readonly Proof[];
  /** Null when nothing was quoted: then there is nothing to say yes to. */
  readonly newestQuote: QuoteFact | null;
  readonly issuedParts: readonly IssuedPart[];
  readonly openDemands: readonly OpenDemand[];
  readonly atVendors: readonly (NamedSubject & { readonly vendorId: string })[];
  readonly offeredHandovers: readonly { readonly handoverId: string; readonly what: string }[];
  /** Trays of the job that aren't back: still holding pieces, or not with the engine. */
  readonly traysOut: readonly (NamedSubject & { readonly pieces: number })[];
  readonly unsignedMarks: readonly { readonly id: string; readonly what: string }[];
}

/** One thing that keeps the engine from being handed back: what, how many, which. */
export type ReasonAgainstHandingBack =
  | { readonly kind: 'opening-open'; readonly openingId: string }
  | { readonly kind: 'obligation-open'; readonly obligationId: string; readonly what: string }
  | { readonly kind: 'not-proved' }
  | { readonly kind: 'proof-failed'; readonly proofId: string; readonly what: string }
  | { readonly kind: 'quote-without-yes'; readonly quoteId: string; readonly answer: 'no' | null }
  | { readonly kind: 'part-not-returned'; readonly demandLineId: string; readonly what: string; readonly count: number }
  | { readonly kind: 'demand-open'; readonly demandLineId: string; readonly what: string; readonly count: number }
  | { readonly kind: 'at-vendor'; readonly subjectId: string; readonly what: string; readonly vendorId: string }
  | { readonly kind: 'handover-offered'; readonly handoverId: string; readonly what: string }
  | { readonly kind: 'tray-not-back'; readonly subjectId: string; readonly what: string; readonly count: number }
  | { readonly kind: 'mark-missing'; readonly markId: string; readonly what: string };

/**
 * What speaks against handing an engine back to its owner: every reason, in the order in which they are looked for.
 * A proof counts only when it was made after the engine was last closed; a later failure of the same test outweighs an
 * earlier pass. An empty list: it may go.
 */
export function againstHandingBack(facts: HandBackFacts): readonly ReasonAgainstHandingBack[] {
  return [
    ...(facts.openOpeningId === null ? [] : [{ kind: 'opening-open' as const, openingId: facts.openOpeningId }]),
    ...facts.obligations.map(({ id, what }) => ({ kind: 'obligation-open' as const, obligationId: id, what })),
    ...proofReasons(facts),
    ...quoteReason(facts.newestQuote),
    ...facts.issuedParts
      .filter(({ notUsed }) => notUsed > 0)
      .map(({ demandLineId, what, notUsed: count }) => ({
        kind: 'part-not-returned' as const,
        demandLineId,
        what,
        count,
      })),
    ...facts.openDemands.map((demand) => ({ kind: 'demand-open' as const, ...demand })),
    ...facts.atVendors.map(({ subjectId, what, vendorId }) => ({
      kind: 'at-vendor' as const,
      subjectId,
      what,
      vendorId,
    })),
    ...facts.offeredHandovers.map((offer) => ({ kind: 'handover-offered' as const, ...offer })),
    ...facts.traysOut.map(({ subjectId, what, pieces: count }) => ({
      kind: 'tray-not-back' as const,
      subjectId,
      what,
      count,
    })),
    ...facts.unsignedMarks.map(({ id, what }) => ({ kind: 'mark-missing' as const, markId: id, what })),
  ];
}

function proofReasons({ proofs, lastClosedAt }: HandBackFacts): readonly ReasonAgainstHandingBack[] {
  const newest = new Map<string, Proof>();
  for (const proof of proofs) {
    if (lastClosedAt !== null && proof.at < lastClosedAt) continue;
    const other = newest.get(proof.what);
    if (other === undefined || proof.at >= other.at) newest.set(proof.what, proof);
  }
  if (newest.size === 0) return [{ kind: 'not-proved' }];
  return [...newest.values()]
    .filter(({ passed }) => !passed)
    .map(({ id: proofId, what }) => ({ kind: 'proof-failed', proofId, what }));
}

function quoteReason(quote: QuoteFact | null): readonly ReasonAgainstHandingBack[] {
  if (quote === null || quote.answer === 'yes') return [];
  return [{ kind: 'quote-without-yes', quoteId: quote.id, answer: quote.answer }];
}
