/** A place on the sheet, mm; x to the right, y upward, from its middle. */
export interface PlaceOnSheet {
  readonly x: number;
  readonly y: number;
}

const tidy = (value: number): number => Math.round(value * 1000) / 1000 + 0;

/** The nearest crossing of the grid, never off the sheet. */
export const snapped = (
  { x, y }: PlaceOnSheet,
  of: { readonly step: number; readonly reach: number },
): PlaceOnSheet => {
  const within = (value: number) =>
    tidy(Math.min(of.reach, Math.max(-of.reach, Math.round(value / of.step) * of.step)));
  return { x: within(x), y: within(y) };
};

/** As far from the middle as the sheet has to reach to show all of them: the smallest of those offered, else the farthest. */
export function reachFor(places: readonly PlaceOnSheet[], offered: readonly number[], wanted: number): number {
  const farthest = Math.max(0, ...places.flatMap(({ x, y }) => [Math.abs(x), Math.abs(y)]));
  if (farthest <= wanted) return wanted;
  return offered.find((reach) => reach >= farthest) ?? Math.ceil(farthest / 50) * 50;
}

/** One more in tightening order; where one stands already, that one is taken out. */
export function placedOrTaken(places: readonly PlaceOnSheet[], at: PlaceOnSheet): readonly PlaceOnSheet[] {
  const there = places.some(({ x, y }) => x === at.x && y === at.y);
  return there ? places.filter(({ x, y }) => x !== at.x || y !== at.y) : [...places, at];
}
