/** Why an input is refused; `field` is its path, such as `stroke` or `table/3/at`. */
export interface InputFault {
  readonly field: string;
  readonly reason: FaultReason;
  /** The bound that was passed or the units that would do, as they are written. */
  readonly bound?: string;
}

/** Words of each reason; where a bound belongs to it, it is put in. */
export const faultWords = {
  missing: () => 'is missing.',
  unknown: () => 'is not an input of this calculation.',
  'not-a-number': () => 'is not a number.',
  'not-whole': () => 'must be a whole number.',
  'unit-wrong': (bound: string) => `must be given in ${bound}.`,
  'too-small': (bound: string) => `must not be less than ${bound}.`,
  'not-above': (bound: string) => `must be more than ${bound}.`,
  'too-large': (bound: string) => `must not be more than ${bound}.`,
  'ratio-not-above-one': () => 'A ratio of 1 or less compresses nothing.',
  'nothing-above-piston': () =>
    'Chamber, gasket, deck and crown together leave nothing above the piston: one of them, or its sign, is wrong.',
  'rod-too-short': (bound: string) =>
    `The rod must be longer than the crank’s throw of ${bound}: the crank can’t turn.`,
  'needs-with-it': (bound: string) => `goes together with another input that is missing: ${bound}.`,
  'two-of-three': () => 'Give two of ratio, fuel and oil; the third is worked out.',
  'one-of-two': () => 'Give either volume or mass; the other is worked out.',
  'out-of-order': () => 'The angles of the table must rise from line to line.',
  'too-few-lines': (bound: string) => `The table needs at least ${bound} lines.`,
  'too-many-lines': (bound: string) => `The table may have up to ${bound} lines.`,
  'never-uncovered': (bound: string) => `The piston never gets there: its stroke is ${bound}.`,
  'transfer-before-exhaust': () => 'The transfers would open before the exhaust.',
  'never-open': () => 'The valve would not be open for any part of the turn.',
  'strength-too-low': () => 'What is poured in is weaker than what is wanted.',
  'ring-would-butt': () =>
    'In that bore the ring would have no gap left: its ends would butt. Check both bores and the gap.',
  'below-the-lower': () => 'The upper end lies below the lower end.',
  'rod-fills-tube': () => 'The rod must be thinner than the tube is wide.',
} as const satisfies Record<string, (bound: string) => string>;
export type FaultReason = keyof typeof faultWords;

/** A refusal in words. */
export const sayFault = ({ reason, bound }: InputFault): string => faultWords[reason](bound ?? '');
