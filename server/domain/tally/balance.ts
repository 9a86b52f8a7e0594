import type { PieceAct, PieceBalance, PieceMovement } from './pieces.ts';

export type TallyRefusal =
  | { readonly kind: 'unknown-piece'; readonly pieceId: string }
  | { readonly kind: 'count-not-whole'; readonly pieceId: string; readonly count: number }
  | { readonly kind: 'more-than-loose'; readonly pieceId: string; readonly loose: number; readonly count: number }
  | { readonly kind: 'more-than-missing'; readonly pieceId: string; readonly missing: number; readonly count: number }
  | {
      readonly kind: 'more-than-undeclared';
      readonly pieceId: string;
      readonly undeclared: number;
      readonly count: number;
    }
  | { readonly kind: 'more-than-inside'; readonly pieceId: string; readonly inside: number; readonly count: number }
  | { readonly kind: 'one-time'; readonly pieceId: string }
  | { readonly kind: 'layer-goes-back'; readonly pieceId: string };

export type TallyStep =
  | { readonly ok: true; readonly balance: PieceBalance }
  | { readonly ok: false; readonly reason: TallyRefusal };

/** Pieces that came off and are neither back on, renewed nor accounted for. Whole, ≥ 0. */
export function looseCount(balance: PieceBalance): number {
  return balance.off - balance.fitted - balance.renewed - balance.accounted;
}

/** Pieces that were looked for and not found: expected less off, 0 until the piece was counted. Whole, ≥ 0. */
export function missingCount(balance: PieceBalance): number {
  return balance.counted ? Math.max(0, balance.expected - balance.off) : 0;
}

/** Missing pieces that nobody has declared as possibly inside: these stop the next step. Whole, ≥ 0. */
export function undeclaredCount(balance: PieceBalance): number {
  return Math.max(0, missingCount(balance) - balance.inside);
}

/** Pieces that keep the opening from being closed: those loose and those missing. Whole, ≥ 0. */
export function unaccountedCount(balance: PieceBalance): number {
  return looseCount(balance) + missingCount(balance);
}

/**
 * Adds one movement to the balance of its piece.
 * Refused, changing nothing: a count that is no whole number (≥ 1; ≥ 0 for `off`); more moved, fitted, renewed or
 * accounted for than are loose; more found than are missing; more declared as never there or possibly inside than are
 * missing and not declared yet, or as not inside than were declared to be; a one-time piece fitted again; a cover, head,
 * cylinder or case accounted for, since without it the engine stays open.
 */
export function moveOnTally(balance: PieceBalance, movement: PieceMovement): TallyStep {
  const { count, act, pieceId } = movement;
  if (pieceId !== balance.id) return refuse({ kind: 'unknown-piece', pieceId });
  if (!Number.isSafeInteger(count) || count < (act === 'off' ? 0 : 1)) {
    return refuse({ kind: 'count-not-whole', pieceId, count });
  }
  if (act === 'fitted' && balance.oneTime) return refuse({ kind: 'one-time', pieceId });
  if (act === 'accounted' && balance.layer !== null) return refuse({ kind: 'layer-goes-back', pieceId });
  const loose = looseCount(balance);
  if (takesLoose(act) && count > loose) return refuse({ kind: 'more-than-loose', pieceId, loose, count });
  const missing = missingCount(balance);
  if (takesMissing(act) && count > missing) return refuse({ kind: 'more-than-missing', pieceId, missing, count });
  const undeclared = undeclaredCount(balance);
  if ((act === 'never there' || act === 'possibly inside') && count > undeclared) {
    return refuse({ kind: 'more-than-undeclared', pieceId, undeclared, count });
  }
  if (act === 'not inside' && count > balance.inside) {
    return refuse({ kind: 'more-than-inside', pieceId, inside: balance.inside, count });
  }
  return { ok: true, balance: moved(balance, act, count) };
}

/**
 * Balances of all pieces after some movements, oldest first, in the order of the pieces.
 * Answers with the first movement that can't have happened, instead of balances.
 */
export function tallyAfter(
  pieces: readonly PieceBalance[],
  movements: readonly PieceMovement[],
):
  | { readonly ok: true; readonly balances: readonly PieceBalance[] }
  | { readonly ok: false; readonly reason: TallyRefusal } {
  const balances = new Map(pieces.map((piece) => [piece.id, piece]));
  for (const movement of movements) {
    const before = balances.get(movement.pieceId);
    if (before === undefined) return { ok: false, reason: { kind: 'unknown-piece', pieceId: movement.pieceId } };
    const step = moveOnTally(before, movement);
    if (!step.ok) return step;
    balances.set(movement.pieceId, step.balance);
  }
  return { ok: true, balances: [...balances.values()] };
}

function takesLoose(act: PieceAct): boolean {
  return act === 'moved' || act === 'fitted' || act === 'renewed' || act === 'accounted';
}

function takesMissing(act: PieceAct): boolean {
  return act === 'found' || act === 'never there' || act === 'possibly inside';
}

function moved(balance: PieceBalance, act: PieceAct, count: number): PieceBalance {
  switch (act) {
    case 'off':
    case 'found': {
      const off = balance.off + count;
      const inside = Math.min(balance.inside, Math.max(0, balance.expected - off));
      return { ...balance, counted: true, off, inside };
    }
    case 'never there':
      return { ...balance, expected: balance.expected - count };
    case 'fitted':
      return { ...balance, fitted: balance.fitted + count };
    case 'renewed':
      return { ...balance, renewed: balance.renewed + count };
    case 'accounted':
      return { ...balance, accounted: balance.accounted + count };
    case 'possibly inside':
      return { ...balance, inside: balance.inside + count };
    case 'not inside':
      return { ...balance, expected: balance.expected - count, inside: balance.inside - count };
    case 'moved':
      return balance;
  }
}

function refuse(reason: TallyRefusal): TallyStep {
  return { ok: false, reason };
}
