import type { FastenerSet } from './fastener-set.ts';

/** What a set's reuse rule asks for once it has been loosened. */
export type AfterLoosening =
  | { readonly kind: 'nothing' }
  /** Every fastener is looked at before it goes in again. */
  | { readonly kind: 'inspect' }
  /** So many new ones. */
  | { readonly kind: 'renew'; readonly count: number };

/** What loosening a set asks for: nothing, an inspection, or as many new fasteners as it has positions. */
export function afterLoosening(set: Pick<FastenerSet, 'reuse' | 'positions'>): AfterLoosening {
  switch (set.reuse) {
    case 'reuse':
      return { kind: 'nothing' };
    case 'inspect':
      return { kind: 'inspect' };
    case 'one-time':
      return { kind: 'renew', count: set.positions.length };
  }
}

/**
 * Whether the fasteners of a set are stretched past yield: used once, their last stage an angle. Such a fastener is never
 * pulled again after its last stage; a new one goes in and starts at the first stage (common practice, no source).
 */
export function isTorqueToYield(set: Pick<FastenerSet, 'reuse' | 'stages'>): boolean {
  const last = set.stages.toSorted((a, b) => a.ordinal - b.ordinal).at(-1);
  return set.reuse === 'one-time' && last?.kind === 'angle';
}
