import type { MicronewtonMetres } from '#domain/units/quantity.ts';
import type { FastenerStage } from './fastener-set.ts';
import { parsePropertyClass, torqueAtShare } from './proof-load.ts';
import { parseThread } from './thread.ts';

/** N·m in one lbf·ft (NIST SP 811). */
const newtonMetresInPoundFoot = 1.355_817_948;
/** A ratio this near to it (3 %) looks like the two units swapped (common practice, no source). */
const swapWithin = 0.03;
/** The guard always reckons with the dry nut factor, so that it doesn't cry at ordinary figures. */
const guardNutFactor = 0.2;

export type UnitSwap = 'lbf·ft taken for N·m' | 'N·m taken for lbf·ft';

export type TorqueGuard =
  | { readonly kind: 'not-judged'; readonly why: 'angle-stage' | 'thread-unknown' | 'class-unknown' }
  | {
      readonly kind: 'usual' | 'note' | 'warn';
      /** Share of proof load at K 0.20: note above 0.75, warn above 1. */
      readonly shareOfProof: number;
      readonly atThreeQuarters: MicronewtonMetres;
      /** Set when the figure would be past proof as it stands but not when read in the other unit. */
      readonly swap: UnitSwap | null;
    };

/**
 * Compares a stage's figure with the torque that the bolt would stand, to catch a slip of the keys. Never an error: a
 * sheet's figure wins. Angle stages are not judged.
 */
export function guardTorque(
  set: { readonly thread: string; readonly propertyClass: string },
  stage: FastenerStage,
): TorqueGuard {
  if (stage.kind === 'angle') return { kind: 'not-judged', why: 'angle-stage' };
  const thread = parseThread(set.thread);
  if (thread === undefined) return { kind: 'not-judged', why: 'thread-unknown' };
  const propertyClass = parsePropertyClass(set.propertyClass);
  if (propertyClass === undefined) return { kind: 'not-judged', why: 'class-unknown' };
  const shareOfProof = stage.torque / torqueAtShare({ thread, propertyClass }, 1, guardNutFactor);
  const atThreeQuarters = torqueAtShare({ thread, propertyClass }, 0.75, guardNutFactor);
  if (shareOfProof <= 0.75) return { kind: 'usual', shareOfProof, atThreeQuarters, swap: null };
  if (shareOfProof <= 1) return { kind: 'note', shareOfProof, atThreeQuarters, swap: null };
  const otherUnitIsBearable = shareOfProof / newtonMetresInPoundFoot <= 1;
  return { kind: 'warn', shareOfProof, atThreeQuarters, swap: otherUnitIsBearable ? 'N·m taken for lbf·ft' : null };
}

/**
 * Whether a torque stands to the one it should be as N·m to lbf·ft (ratio within 3 % of 1.3558 either way): the number
 * was right and the unit wrong. Null when it doesn't look so.
 */
export function suspectedSwap(given: MicronewtonMetres, meant: MicronewtonMetres): UnitSwap | null {
  const ratio = given / meant;
  if (Math.abs(ratio / newtonMetresInPoundFoot - 1) <= swapWithin) return 'N·m taken for lbf·ft';
  if (Math.abs(ratio * newtonMetresInPoundFoot - 1) <= swapWithin) return 'lbf·ft taken for N·m';
  return null;
}
