import type { BoreNow, PistonForeseen } from './predictions.ts';

export interface OversizeChoice {
  /** The smallest size that will do; null: none on the sheet will. */
  readonly chosen: PistonForeseen | null;
  /** Sizes whose bore is narrower than the metal that has to come off leaves, the smallest first. */
  readonly tooSmall: readonly PistonForeseen[];
}

/** What the bore is opened to at least: its widest place, with the uncertainty of it, is cleaned up. Nanometres. */
export const cleanedUpTo = ({ high, expanded }: BoreNow): number => high + expanded;

/**
 * The smallest adequate oversize: of the pistons that a bore can be opened for (pistonsForeseen), the one that takes the
 * least metal, so that the most is left for the next time. A plated bore is not opened, so nothing is chosen for it.
 * Source: common practice, none cited; the figures are those of pistonsForeseen.
 */
export function smallestAdequate(bore: BoreNow, foreseen: readonly PistonForeseen[]): OversizeChoice {
  const open = foreseen.filter(({ remove }) => remove !== null);
  const chosen = open.toSorted((a, b) => (a.remove?.least ?? 0) - (b.remove?.least ?? 0))[0] ?? null;
  const tooSmall = foreseen
    .filter(({ boreTo }) => boreTo !== null && boreTo.high < cleanedUpTo(bore))
    .toSorted((a, b) => (a.boreTo?.high ?? 0) - (b.boreTo?.high ?? 0));
  return { chosen, tooSmall };
}
