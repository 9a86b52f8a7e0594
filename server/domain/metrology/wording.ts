import type { Refusal, Warning } from './finding.ts';

/** What to say of a refusal: what is wrong and what to do. Figures stay with the caller, who knows the unit. */
export const refusalText = (refusal: Refusal): string => {
  switch (refusal.reason) {
    case 'unknown-dimension':
      return `The spec sheet has no dimension ${refusal.dimension}.`;
    case 'missing-positions':
      return refusal.positions.length === 0
        ? `${refusal.dimension} has no positions to measure: add them to the spec sheet.`
        : `${refusal.dimension} still wants a reading at ${refusal.positions.join(', ')}.`;
    case 'unknown-position':
      return `${refusal.dimension} has no position ${refusal.position}.`;
    case 'repeated-twice':
      return `Position ${refusal.position} has two readings numbered ${refusal.repeat}: strike one or number it anew.`;
    case 'instrument-not-named':
      return `Say which instrument the reading at ${refusal.position} was taken with.`;
    case 'unknown-instrument':
      return `There is no instrument ${refusal.instrument}.`;
    case 'instruments-mixed':
      return `The repeats at ${refusal.position} were taken with different instruments: measure them with one.`;
    case 'mixed-kinds':
      return `${refusal.what} is for ${refusal.found}, but ${refusal.expected} is wanted.`;
    case 'empty-interval':
      return `At ${refusal.position} the blade that went in must be thinner than the one that did not.`;
    case 'blade-not-in-set':
      return `At ${refusal.position} a blade is named that the feeler set does not have, or the stack does not add up.`;
    case 'wrong-observation':
      return `The reading at ${refusal.position} must be ${refusal.needed}.`;
    case 'positions-do-not-fit':
      return `This dimension is worked out from ${refusal.needed}: mend its positions on the spec sheet.`;
    case 'operand-is-derived':
      return `${refusal.dimension} has no readings of its own to work from.`;
    case 'goes-in-circles':
      return `The spec sheet works ${refusal.dimension} out from itself, through ${refusal.through.join(', ')}.`;
    case 'nested-too-deep':
      return `${refusal.dimension} is worked out through more than ${refusal.most} other dimensions one after another.`;
    case 'denominator-not-positive':
      return `${refusal.dimension} must lie above nothing to divide by: measure it again.`;
    case 'negative-length':
      return `The reading at ${refusal.position} is below nothing, which no length is.`;
    case 'not-a-number':
      return `The reading at ${refusal.position} is not a number.`;
    case 'limits-inconsistent':
      return `The spec sheet contradicts itself: ${refusal.detail}.`;
    case 'no-limits':
      return `The spec sheet gives no limit for ${refusal.dimension}: there is nothing to judge it by.`;
  }
};

/** What to say of a warning. Figures stay with the caller, who knows the unit. */
export const warningText = (warning: Warning): string => {
  switch (warning.code) {
    case 'biased-extreme':
      return `Picked from ${warning.count} positions, so it lies a little too far out by chance.`;
    case 'too-coarse':
      return 'The uncertainty takes up more than a quarter of the tolerance: use a better instrument or more repeats.';
    case 'out-of-calibration':
      return `${warning.instrument} was due for calibration on ${warning.due}.`;
    case 'outside-instrument-range':
      return `The reading at ${warning.position} is outside the range of ${warning.instrument}.`;
    case 'repeatability-unknown':
      return `Nothing is known of how well ${warning.instrument} repeats: take a second reading at each position.`;
    case 'settings-differ':
      return `${warning.instrument} was set anew between these readings: its setting error does not cancel.`;
    case 'not-corrected-to-20-degrees':
      return `Not corrected to 20 °C: the ${warning.missing} is not known.`;
  }
};
