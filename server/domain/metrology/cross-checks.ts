/** A ring end gap as a feeler showed it, nanometres; high null: the thickest blade went in. */
export type GapInterval = { readonly low: number; readonly high: number | null };

export type TaperCheck = {
  readonly agrees: boolean;
  /** Taper that the two gaps imply, nanometres; an end null: no end. */
  readonly impliedLow: number | null;
  readonly impliedHigh: number | null;
};

/**
 * Ring gap at the top − ring gap at the bottom = π × taper: holds the taper of the bore gauge (nanometres, with its
 * standard uncertainty) against what the gaps imply. They agree when taper ± 2u meets the implied interval. Taper is
 * positive when the bore is wider at the top. Source: plain geometry, circumference = π × diameter.
 */
export const gapsAgainstTaper = (
  gaps: { readonly top: GapInterval; readonly bottom: GapInterval },
  taper: { readonly value: number; readonly standard: number },
): TaperCheck => {
  const { top, bottom } = gaps;
  const impliedLow = bottom.high === null ? null : (top.low - bottom.high) / Math.PI;
  const impliedHigh = top.high === null ? null : (top.high - bottom.low) / Math.PI;
  const reach = 2 * taper.standard;
  const agrees =
    (impliedLow === null || taper.value + reach >= impliedLow) &&
    (impliedHigh === null || taper.value - reach <= impliedHigh);
  return { agrees, impliedLow, impliedHigh };
};

/**
 * Ring end gap to expect of the same ring after the bore has grown by so many nanometres (honing, boring, wear): each
 * end moves by π × growth. Nanometres, not rounded. Source: plain geometry.
 */
export const gapAfterGrowth = (gap: GapInterval, growth: number): GapInterval => ({
  low: gap.low + Math.PI * growth,
  high: gap.high === null ? null : gap.high + Math.PI * growth,
});
