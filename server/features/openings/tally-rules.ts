import { looseCount, missingCount, moveOnTally, type TallyRefusal } from '#domain/tally/balance.ts';
import type { PieceAct, PieceBalance } from '#domain/tally/pieces.ts';
import { actOnObligation, openObligation, openOnTally } from '#features/obligations/service.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import { countPossiblyInside, type PieceRow } from './piece-queries.ts';
import type { OpeningRow } from './queries.ts';

export interface Movement {
  readonly pieceId: string;
  /** Undefined: all that are loose. */
  readonly count: number | undefined;
}

export interface TallyAct {
  readonly openingId: string;
  readonly act: PieceAct;
  readonly pieces: readonly Movement[];
  readonly trayId?: string | undefined;
  readonly reason?: string | undefined;
}

/** A piece as people tell it from its like: "dowel, cam cap 1". */
export const nameOf = (piece: PieceRow): string =>
  piece.fromWhere === '' ? piece.name : `${piece.name}, ${piece.fromWhere}`;

/** The line's balance after the movement, or a refusal that says why not. */
export async function checked(
  act: Act,
  piece: PieceRow,
  asked: TallyAct & { readonly count: number },
): Promise<PieceBalance> {
  const { count, reason, trayId } = asked;
  const name = nameOf(piece);
  if (asked.act === 'off' && piece.off + count > piece.expected && (reason ?? '').trim() === '') {
    throw new ProblemError(
      'refused',
      `${name}: ${piece.off + count} would be off, ${piece.expected} are expected. Count again; if it is so, say why in reason.`,
    );
  }
  const staysElsewhere = looseCount(piece) > 0 && piece.trayId !== trayId && trayId !== undefined;
  if ((asked.act === 'off' || asked.act === 'found') && staysElsewhere) {
    const where = piece.trayLabel === null ? 'with the engine' : `in tray ${piece.trayLabel}`;
    throw new ProblemError(
      'refused',
      `${name}: the others are ${where}. Put these there too, then move them together.`,
    );
  }
  if (asked.act === 'moved' && piece.trayId === trayId) {
    throw new ProblemError('already-done', `${name} is in that tray already.`);
  }
  if (asked.act === 'possibly inside') {
    const said = await countPossiblyInside(act.sql, piece.id);
    if (said + count > missingCount(piece)) {
      throw new ProblemError(
        'refused',
        `${name}: ${missingCount(piece)} missing, of which ${said} were said to be possibly inside before.`,
      );
    }
  }
  const step = moveOnTally(piece, { pieceId: piece.id, act: asked.act, count });
  if (!step.ok) throw new ProblemError('refused', refusalInWords(step.reason, name));
  return step.balance;
}

function refusalInWords(reason: TallyRefusal, name: string): string {
  switch (reason.kind) {
    case 'unknown-piece':
      return `${name} is not on this tally.`;
    case 'count-not-whole':
      return `${name}: ${reason.count} is no count of pieces. Count at least one.`;
    case 'more-than-loose':
      return `${name}: ${reason.loose} are loose, not ${reason.count}.`;
    case 'more-than-missing':
      return `${name}: ${reason.missing} are missing, not ${reason.count}.`;
    case 'one-time':
      return `${name} is used once only: fit a new one, and mark it renewed.`;
    case 'layer-goes-back':
      return `${name} goes back on, or a new one does: without it the engine stays open.`;
  }
}

interface Kept {
  readonly after: PieceRow;
  readonly movementId: string;
  readonly asked: TallyAct;
  readonly count: number;
  readonly reason: string;
}

/** A count that falls short opens an obligation; one that may be inside too; and both end when the piece is whole. */
export async function keepObligations(
  act: Act,
  opening: OpeningRow,
  { after, movementId, asked, count, reason }: Kept,
) {
  const missing = missingCount(after);
  const standing = await openOnTally(act, after.id);
  const cause = { pieceId: after.id, movementId };
  const raise = (words: string) =>
    openObligation(act, { engineId: opening.engineId, jobId: opening.jobId, words, inside: true, cause });
  if (asked.act === 'possibly inside') {
    return { raised: [await raise(`May be inside: ${count} × ${nameOf(after)}. ${reason}`)], ended: [] };
  }
  if (asked.act === 'off' && missing > 0 && standing.length === 0) {
    const words = `${missing} of ${after.expected} × ${nameOf(after)} not found when counted off: it may be inside`;
    return { raised: [await raise(words)], ended: [] };
  }
  if (missing > 0 || !['off', 'found', 'never there'].includes(asked.act)) return { raised: [], ended: [] };
  for (const obligationId of standing) {
    await actOnObligation(act, { obligationId, act: 'discharged', reason: dischargeReason(asked.act, reason) });
  }
  return { raised: [], ended: standing };
}

function dischargeReason(act: PieceAct, reason: string): string {
  if (act === 'found') return `Found: ${reason}`;
  if (act === 'never there') return `Never there: ${reason}`;
  return reason === '' ? 'All counted off now' : `All counted off now: ${reason}`;
}
