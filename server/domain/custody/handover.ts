import type { CountComparison } from './counting.ts';

/** Until the receiver has answered, the giver still holds everything and may take the offer back. */
export type HandoverStanding = 'offered' | 'accepted' | 'accepted with a difference' | 'declined' | 'withdrawn';

export type HandoverAct =
  | { readonly kind: 'accept'; readonly by: string; readonly comparison: CountComparison }
  /** The receiver has named each difference and takes it over all the same. */
  | { readonly kind: 'accept with a difference'; readonly by: string; readonly comparison: CountComparison }
  | { readonly kind: 'decline'; readonly by: string; readonly reason: string }
  | { readonly kind: 'withdraw'; readonly by: string };

export interface OfferedHandover {
  readonly standing: HandoverStanding;
  readonly giverId: string;
  readonly receiverId: string;
}

export type HandoverRefusal =
  | { readonly kind: 'already-answered'; readonly standing: HandoverStanding }
  | { readonly kind: 'not-the-receiver'; readonly by: string }
  | { readonly kind: 'not-the-giver'; readonly by: string }
  | { readonly kind: 'reason-missing' }
  | { readonly kind: 'count-differs'; readonly comparison: CountComparison }
  | { readonly kind: 'count-agrees' }
  | { readonly kind: 'count-not-whole'; readonly comparison: CountComparison };

export type HandoverStep =
  | { readonly ok: true; readonly standing: HandoverStanding; readonly custodyMoves: boolean }
  | { readonly ok: false; readonly reason: HandoverRefusal };

/**
 * What an act makes of an offered handover. Custody moves only with an accept. Refused, changing nothing: an act on a
 * handover that is answered already, by somebody who is neither giver nor receiver, a decline without a reason, an
 * accept that doesn't match what the blind count found.
 */
export function actOnHandover(handover: OfferedHandover, act: HandoverAct): HandoverStep {
  if (handover.standing !== 'offered') return refuse({ kind: 'already-answered', standing: handover.standing });
  if (act.kind === 'withdraw') {
    if (act.by !== handover.giverId) return refuse({ kind: 'not-the-giver', by: act.by });
    return { ok: true, standing: 'withdrawn', custodyMoves: false };
  }
  if (act.by !== handover.receiverId) return refuse({ kind: 'not-the-receiver', by: act.by });
  if (act.kind === 'decline') {
    if (act.reason.trim() === '') return refuse({ kind: 'reason-missing' });
    return { ok: true, standing: 'declined', custodyMoves: false };
  }
  return accept(act);
}

function accept(act: Extract<HandoverAct, { kind: 'accept' | 'accept with a difference' }>): HandoverStep {
  const { comparison } = act;
  if (comparison.kind === 'no-count') return refuse({ kind: 'count-not-whole', comparison });
  if (act.kind === 'accept') {
    if (comparison.kind === 'differ') return refuse({ kind: 'count-differs', comparison });
    return { ok: true, standing: 'accepted', custodyMoves: true };
  }
  if (comparison.kind === 'agree') return refuse({ kind: 'count-agrees' });
  return { ok: true, standing: 'accepted with a difference', custodyMoves: true };
}

function refuse(reason: HandoverRefusal): HandoverStep {
  return { ok: false, reason };
}
