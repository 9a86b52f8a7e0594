import { missingCount } from './balance.ts';
import { type Layer, layersFromOutside, type PieceBalance } from './pieces.ts';

export interface ShortCount {
  readonly pieceId: string;
  readonly name: string;
  readonly expected: number;
  readonly off: number;
  readonly missing: number;
}

/**
 * Pieces of which fewer came off than are expected. Each stops the work at once: what is missing may be in the engine
 * (common practice, no source).
 */
export function shortCounts(balances: readonly PieceBalance[]): readonly ShortCount[] {
  return balances.flatMap((balance) => {
    const missing = missingCount(balance);
    if (missing === 0) return [];
    const { id: pieceId, name, expected, off } = balance;
    return [{ pieceId, name, expected, off, missing }];
  });
}

/** The layers that are off now, outermost first. */
export function layersOff(balances: readonly PieceBalance[]): readonly Layer[] {
  return layersFromOutside.filter((layer) =>
    balances.some((balance) => balance.layer === layer && balance.off > balance.fitted + balance.renewed),
  );
}

/** How far open the engine is: the innermost layer that is off, null when every layer is on. */
export function depthOfOpening(balances: readonly PieceBalance[]): Layer | null {
  return layersOff(balances).at(-1) ?? null;
}

export interface BrokenSet {
  readonly matchedSet: string;
  /** Names of the pieces that went back on, and of those that were renewed. */
  readonly fitted: readonly string[];
  readonly renewed: readonly string[];
}

/** Matched sets of which some pieces went back on and others were renewed, so that they no longer match. */
export function brokenSets(balances: readonly PieceBalance[]): readonly BrokenSet[] {
  const sets = [...new Set(balances.map(({ matchedSet }) => matchedSet))];
  return sets.flatMap((matchedSet) => {
    if (matchedSet === null) return [];
    const pieces = balances.filter((balance) => balance.matchedSet === matchedSet);
    const fitted = pieces.filter((piece) => piece.fitted > 0).map(({ name }) => name);
    const renewed = pieces.filter((piece) => piece.renewed > 0).map(({ name }) => name);
    return fitted.length > 0 && renewed.length > 0 ? [{ matchedSet, fitted, renewed }] : [];
  });
}
