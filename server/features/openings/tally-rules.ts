import { looseCount, missingCount, moveOnTally, type TallyRefusal } from '#domain/tally/balance.ts';
import { type Lying, takenFrom } from '#domain/tally/lying.ts';
import type { PieceAct, PieceBalance } from '#domain/tally/pieces.ts';
import { actOnObligation, openObligation, openOnTally } from '#features/obligations/service.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import type { PieceRow } from './piece-queries.ts';
import type { OpeningRow } from './queries.ts';
import { endSearches, openSearch } from './search-rules.ts';

export interface Movement {
  readonly pieceId: string;
  /** Undefined: all that are loose. */
  readonly count: number | undefined;
  /** Out of which tray; null: from beside the engine; undefined: wherever they lie, when that leaves no choice. */
  readonly fromTrayId?: string | null | undefined;
  /** Of a line kept in order: the places of its rack they go into or come out of. */
  readonly places?: readonly string[] | undefined;
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
export function checked(piece: PieceRow, asked: TallyAct & { readonly count: number }): PieceBalance {
  const { count, reason } = asked;
  const name = nameOf(piece);
  if (asked.act === 'off' && piece.off + count > piece.expected && (reason ?? '').trim() === '') {
    throw new ProblemError(
      'refused',
      `${name}: ${piece.off + count} would be off, ${piece.expected} are expected. Count again; if it is so, say why in reason.`,
    );
  }
  const step = moveOnTally(piece, { pieceId: piece.id, act: asked.act, count });
  if (!step.ok) throw new ProblemError('refused', refusalInWords(step.reason, name));
  return step.balance;
}

export const takesLoose: ReadonlySet<PieceAct> = new Set(['moved', 'fitted', 'renewed', 'accounted']);

/** Out of which trays the pieces of a movement come; nothing for an act that takes none. */
export function takenBy(piece: PieceRow, asked: TallyAct & Movement): readonly Lying[] {
  if (!takesLoose.has(asked.act)) return [];
  const elsewhere =
    asked.act === 'moved' ? piece.lying.filter(({ trayId }) => trayId !== (asked.trayId ?? null)) : piece.lying;
  const name = nameOf(piece);
  if (asked.act === 'moved' && elsewhere.length === 0 && looseCount(piece) > 0) {
    throw new ProblemError('already-done', `${name} is in that tray already.`);
  }
  const count = asked.count ?? elsewhere.reduce((sum, place) => sum + place.count, 0);
  const taking = takenFrom(elsewhere, count, asked.fromTrayId);
  if (taking.ok) return taking.taken;
  const where = piece.lying.map(({ label, count: there }) => `${there} ${placeInWords(label)}`).join(', ');
  if (taking.reason.kind === 'say-from-where') {
    throw new ProblemError('refused', `${name}: ${where}. Say in fromTrayId which of them these ${count} are.`);
  }
  const loose = looseCount(piece);
  throw new ProblemError(
    'refused',
    loose < count
      ? `${name}: ${loose} are loose, not ${count}.`
      : `${name}: not ${count} there, but ${where}. Count again.`,
  );
}

const placeInWords = (label: string | null): string => (label === null ? 'with the engine' : `in tray ${label}`);

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
    case 'more-than-undeclared':
      return `${name}: ${reason.undeclared} are missing and not declared, not ${reason.count}. What was declared possibly inside ends with its search: it is found, or a lead decides.`;
    case 'more-than-inside':
      return `${name}: ${reason.inside} were declared possibly inside, not ${reason.count}.`;
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
    const words = `May be inside: ${count} × ${nameOf(after)}. ${reason}`;
    return { raised: [await openSearch(act, opening, { words, count, cause })], ended: [] };
  }
  if (!['off', 'found', 'never there', 'not inside'].includes(asked.act)) return { raised: [], ended: [] };
  const why = dischargeReason(asked.act, reason);
  const outcome = asked.act === 'not inside' ? 'not inside' : 'found';
  const ended = [...(await endSearches(act, { pieceId: after.id, outcome, reason: why }))];
  const left = standing.filter((id) => !ended.includes(id));
  if (missing > 0) {
    const words = `${missing} of ${after.expected} × ${nameOf(after)} not found when counted off: it may be inside`;
    return { raised: asked.act === 'off' && left.length === 0 ? [await raise(words)] : [], ended };
  }
  for (const obligationId of left) {
    await actOnObligation(act, { obligationId, act: 'discharged', reason: why });
    ended.push(obligationId);
  }
  return { raised: [], ended };
}

function dischargeReason(act: PieceAct, reason: string): string {
  if (act === 'found') return `Found: ${reason}`;
  if (act === 'not inside') return `Not inside: ${reason}`;
  if (act === 'never there') return `Never there: ${reason}`;
  return reason === '' ? 'All counted off now' : `All counted off now: ${reason}`;
}
