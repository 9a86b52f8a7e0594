import type { NormalCheck } from './normal-check.ts';

type Printed = (baseUnits: number) => string;

const percent = (share: number): string => {
  if (share === 0) return 'none';
  if (share < 0.001) return 'less than 0.1 %';
  return share > 0.999 && share < 1 ? 'more than 99.9 %' : `${Number((share * 100).toFixed(1))} %`;
};

const ofLimit = (drawn: number | null, closed: { readonly low: number; readonly high: number }): string => {
  if (drawn === null) return '';
  const said =
    percent(closed.low) === percent(closed.high)
      ? percent(closed.low)
      : `${percent(closed.low)} to ${percent(closed.high)}`;
  return ` Past the limit: ${percent(drawn)} of the trials, ${said} by the closed form.`;
};

/** Whether the normal curve serves, and what both say of the limit; the check is left out where no curve is taken for granted. */
export const simulationWords = (
  check: NormalCheck | undefined,
  of: {
    readonly symmetric: { readonly low: number; readonly high: number };
    readonly drawnPast: number | null;
    readonly closedPast: { readonly low: number; readonly high: number };
    readonly printed: Printed;
    /** How near the ends of both intervals should lie, with its unit. */
    readonly near: string;
  },
): string => {
  const { printed, symmetric, near } = of;
  const past = ofLimit(of.drawnPast, of.closedPast);
  const drawn = `${printed(symmetric.low)} to ${printed(symmetric.high)}`;
  if (check === undefined) {
    return `No normal curve is taken for granted here: 95 of 100 trials lie from ${drawn}.${past}`;
  }
  return check.holds
    ? `The normal assumption holds: both ends of its 95 % interval lie within ${near} of those drawn, ${drawn}.${past}`
    : `The normal assumption does not hold: its 95 % interval is ${printed(check.interval.low)} to ${printed(check.interval.high)}, drawn it is ${drawn}, more than ${near} apart.${past}`;
};
