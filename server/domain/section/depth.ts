/** How far open the engine is; each depth takes off all before it. */
export type SectionDepth = 'closed' | 'cover' | 'head' | 'cylinder' | 'case';

const order: Readonly<Record<SectionDepth, number>> = { closed: 0, cover: 1, head: 2, cylinder: 3, case: 4 };

/** True when an opening of this depth has taken off (or, for the case, opened) the named part. */
export function isOff(depth: SectionDepth, part: Exclude<SectionDepth, 'closed'>): boolean {
  return order[depth] >= order[part];
}
