import type { ReasonAgainstClosing } from '#contracts/openings.ts';
import type { ReasonAgainstClosing as Reason } from '#domain/closing/closing-the-opening.ts';
import type { Layer } from '#domain/tally/pieces.ts';

const layers: Readonly<Record<Layer, string>> = {
  cover: 'The cover is off.',
  head: 'The head is off.',
  cylinder: 'The cylinder is off.',
  case: 'The case is open.',
};

/** A reason against closing as people read it. Counts of `blind` pieces are left out: somebody is to count them. */
export function reasonInWords(reason: Reason, blind: ReadonlySet<string>): ReasonAgainstClosing {
  const { kind } = reason;
  switch (reason.kind) {
    case 'layer-off':
      return { kind, words: layers[reason.layer], subject: reason.layer, count: null };
    case 'piece-loose': {
      const count = blind.has(reason.pieceId) ? null : reason.count;
      return {
        kind,
        words: `${count === null ? '' : `${count} × `}${reason.what}: off, and neither back on, renewed nor accounted for.`,
        subject: reason.pieceId,
        count,
      };
    }
    case 'piece-missing': {
      const count = blind.has(reason.pieceId) ? null : reason.count;
      return {
        kind,
        words: `${count === null ? '' : `${count} × `}${reason.what}: missing since it was counted off, and may be inside.`,
        subject: reason.pieceId,
        count,
      };
    }
    case 'obligation-open':
      return {
        kind,
        words: `Nobody has discharged: ${reason.what.replace(/\.$/, '')}.`,
        subject: reason.obligationId,
        count: null,
      };
    case 'torque-incomplete':
      return {
        kind,
        words: `${reason.what}, stage ${reason.stage}: ${reason.count} not pulled (position ${reason.positions.join(', ')}).`,
        subject: reason.setId,
        count: reason.count,
        stage: reason.stage,
        positions: [...reason.positions],
      };
    case 'ring-not-placed':
      return { kind, words: `${reason.what}: its gap is not placed.`, subject: reason.ringId, count: null };
    case 'ring-against-rule':
      return { kind, words: `${reason.what}: its gap stands against the rule.`, subject: reason.ringId, count: null };
    case 'rings-unsigned':
      return {
        kind,
        words: `Ring gaps (${reason.rings.join(', ')}): not signed off by a second person.`,
        subject: 'rings',
        count: reason.rings.length,
      };
    case 'lash-not-verified':
      return {
        kind,
        words: `Lash of ${reason.valve}: not measured after the work.`,
        subject: reason.valve,
        count: null,
      };
    case 'lash-undecided':
      return { kind, words: `Lash of ${reason.valve}: undecided.`, subject: reason.valve, count: null };
    case 'lash-out':
      return { kind, words: `Lash of ${reason.valve}: out of range.`, subject: reason.valve, count: null };
    case 'stop-unsigned':
      return { kind, words: `${reason.what}: not signed by a second person.`, subject: reason.stopId, count: null };
  }
}
