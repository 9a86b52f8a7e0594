import type { PeriodInShop } from '#contracts/custody-past.ts';

type Held = Pick<PeriodInShop, 'subject' | 'engine' | 'holder' | 'place'>;

/** What lies in one place, with one holder, by one act: an engine, some of its trays, or both. */
export interface HeldTogether<Item extends Held> {
  /** The first of them, for all that they have in common. */
  readonly item: Item;
  /** True when the engine itself is among them. */
  readonly itself: boolean;
  /** Labels of the trays among them. */
  readonly trays: readonly string[];
}

/** Brings together what went together, in the order in which each group is first met. */
export function heldTogether<Item extends Held>(
  items: readonly Item[],
  actOf: (item: Item) => readonly (string | null)[],
): readonly HeldTogether<Item>[] {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const { engine, holder, place } = item;
    const together = JSON.stringify([engine.id, holder.kind, holder.id, place?.id ?? null, ...actOf(item)]);
    groups.set(together, [...(groups.get(together) ?? []), item]);
  }
  return [...groups.values()].flatMap((group) => {
    const [item] = group;
    if (item === undefined) return [];
    return {
      item,
      itself: group.some(({ subject }) => subject.kind === 'engine'),
      trays: group.flatMap(({ subject }) => (subject.kind === 'tray' ? [subject.name] : [])),
    };
  });
}
