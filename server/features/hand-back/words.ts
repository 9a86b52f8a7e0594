import type { ReasonAgainst } from '#contracts/hand-back.ts';
import type { ReasonAgainstHandingBack } from '#domain/closing/handing-back.ts';

/**
 * A reason against handing back, as people read it, with what it is about so that a view can lead there. Counts of
 * `blind` trays are left out: somebody is to count them.
 */
export function reasonInWords(reason: ReasonAgainstHandingBack, blind: ReadonlySet<string>): ReasonAgainst {
  const { kind } = reason;
  switch (reason.kind) {
    case 'opening-open':
      return { kind, words: 'The engine is still open.', subject: reason.openingId, count: null };
    case 'obligation-open':
      return {
        kind,
        words: `Nobody has discharged: ${reason.what.replace(/\.$/, '')}.`,
        subject: reason.obligationId,
        count: null,
      };
    case 'not-proved':
      return { kind, words: 'No proof was passed since the engine was last closed.', subject: null, count: null };
    case 'proof-failed':
      return { kind, words: `Not passed: ${reason.what}.`, subject: reason.proofId, count: null };
    case 'quote-without-yes':
      return {
        kind,
        words:
          reason.answer === 'no'
            ? 'The owner said no to the newest quote.'
            : 'The owner has not answered the newest quote.',
        subject: reason.quoteId,
        count: null,
      };
    case 'part-not-returned':
      return {
        kind,
        words: `${reason.count} × ${reason.what}: issued, neither fitted nor brought back.`,
        subject: reason.demandLineId,
        count: reason.count,
      };
    case 'demand-open':
      return {
        kind,
        words: `${reason.count} × ${reason.what}: asked of stores, neither issued nor called off.`,
        subject: reason.demandLineId,
        count: reason.count,
      };
    case 'at-vendor':
      return { kind, words: `Something of it is at ${reason.what}.`, subject: reason.subjectId, count: null };
    case 'handover-offered':
      return { kind, words: `It is being handed over to ${reason.what}.`, subject: reason.handoverId, count: null };
    case 'tray-not-back':
      if (blind.has(reason.subjectId)) {
        return { kind, words: `Tray ${reason.what} still holds pieces.`, subject: reason.subjectId, count: null };
      }
      return {
        kind,
        words: `Tray ${reason.what} still holds ${reason.count} ${reason.count === 1 ? 'piece' : 'pieces'}.`,
        subject: reason.subjectId,
        count: reason.count,
      };
    case 'mark-missing':
      return {
        kind,
        words: `${reason.what}: passed, but not signed by a second person.`,
        subject: reason.markId,
        count: null,
      };
  }
}
