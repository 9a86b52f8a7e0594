import type { Refused } from './finding.ts';
import type { Instrument } from './instrument.ts';
import type { Interval } from './interval.ts';
import type { Observation } from './reading.ts';

type IntervalObservation = Extract<Observation, { readonly type: 'interval' }>;
type Tolerance = { readonly ok: true; readonly tolerance: number } | Refused;

const toleranceOf = (
  thickness: number,
  stack: readonly number[] | undefined,
  place: { readonly instrument: Instrument; readonly position: string },
): Tolerance => {
  const { instrument, position } = place;
  const pieces = stack ?? [thickness];
  const refused: Refused = { ok: false, refusal: { reason: 'blade-not-in-set', position, thickness } };
  if (pieces.reduce((sum, piece) => sum + piece, 0) !== thickness) return refused;
  let tolerance = 0;
  for (const piece of pieces) {
    if (instrument.blades === undefined) tolerance += instrument.mpe;
    else {
      const blade = instrument.blades.find((candidate) => candidate.thickness === piece);
      if (blade === undefined) return refused;
      tolerance += blade.tolerance;
    }
  }
  return { ok: true, tolerance };
};

/**
 * The gap that a feeler shows: [go − tolerance, no-go + tolerance), nanometres; a stack's blades add their tolerances.
 * Nothing went in: from 0; the thickest went in: without end. An instrument without a list of blades (gauging thread)
 * counts its maximum permissible error at each end. Errors: an empty interval, a blade that is not in the set.
 */
export const gapInterval = (
  observation: IntervalObservation,
  instrument: Instrument,
  position: string,
): { readonly ok: true; readonly interval: Interval } | Refused => {
  const { low, high } = observation;
  if (low < 0 || (high !== null && high <= low)) {
    return { ok: false, refusal: { reason: 'empty-interval', position } };
  }
  const place = { instrument, position };
  const below: Tolerance = low === 0 ? { ok: true, tolerance: 0 } : toleranceOf(low, observation.goStack, place);
  if (!below.ok) return below;
  const above: Tolerance = high === null ? { ok: true, tolerance: 0 } : toleranceOf(high, observation.noGoStack, place);
  if (!above.ok) return above;
  return {
    ok: true,
    interval: {
      low: Math.max(0, low - below.tolerance),
      high: high === null ? Number.POSITIVE_INFINITY : high + above.tolerance,
      highOpen: true,
    },
  };
};
