/** A list with one of its entries one place further up (-1) or down (1); as it is where there is no such place. */
export function moved<Entry>(list: readonly Entry[], from: number, by: -1 | 1): Entry[] {
  const entry = list[from];
  const to = from + by;
  if (entry === undefined || to < 0 || to >= list.length) return [...list];
  const rest = list.filter((_, index) => index !== from);
  return [...rest.slice(0, to), entry, ...rest.slice(to)];
}

/** A list with a change to one of its entries. */
export const altered = <Entry>(list: readonly Entry[], at: number, change: Partial<Entry>): Entry[] =>
  list.map((entry, index) => (index === at ? { ...entry, ...change } : entry));

export const without = <Entry>(list: readonly Entry[], at: number): Entry[] => list.filter((_, index) => index !== at);
