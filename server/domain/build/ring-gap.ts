import { type Nanometres, nanometres, type PartsPerMillion } from '#domain/units/quantity.ts';

/**
 * End gap by the rule of thumb: factor × bore, in whole nm; 4 000 ppm is 0.004 of the bore. Common practice, no source:
 * only where the sheet is silent, and always for the bore in which the ring will run.
 */
export function ruleOfThumbGap(bore: Nanometres, factor: PartsPerMillion): Nanometres {
  return nanometres(Math.round((bore * factor) / 1e6));
}

/** By how much a gap opens when the bore grows: π·Δ, in whole nm (geometry). 0.03 mm of bore: 0.094 mm of gap. */
export function gapGrowth(boreGrowth: Nanometres): Nanometres {
  return nanometres(Math.round(Math.PI * boreGrowth));
}

/** Taper told by one ring squared at two heights: (gap at the top − gap at the bottom) / π, in whole nm (geometry). */
export function taperFromGaps(gapAtTop: Nanometres, gapAtBottom: Nanometres): Nanometres {
  return nanometres(Math.round((gapAtTop - gapAtBottom) / Math.PI));
}
