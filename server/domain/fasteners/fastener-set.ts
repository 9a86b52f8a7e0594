import {
  type MicroDegrees,
  type MicronewtonMetres,
  microDegrees,
  type Nanometres,
  type PartsPerMillion,
  partsPerMillion,
} from '#domain/units/quantity.ts';

/** Where one bolt, stud or nut of a set sits, seen from the side from which it is tightened; x to the right, y up, nm. */
export interface FastenerPosition {
  readonly number: number;
  readonly x: Nanometres;
  readonly y: Nanometres;
}

export type FastenerCondition = 'dry' | 'oiled' | 'locking compound';
export type ReuseRule = 'reuse' | 'inspect' | 'one-time';

/** One pass over all positions, to a torque or by an angle further. `ordinal` counts from 1. */
export type FastenerStage =
  | { readonly ordinal: number; readonly kind: 'torque'; readonly torque: MicronewtonMetres }
  | { readonly ordinal: number; readonly kind: 'angle'; readonly angle: MicroDegrees };

/** How far a pull may be from the stage's figure, either way. */
export interface PullTolerance {
  readonly torque: PartsPerMillion;
  readonly angle: MicroDegrees;
}

/** What is allowed where the sheet names no tolerance: 4 % of a torque, 5° of an angle (common practice, no source). */
export const usualTolerance: PullTolerance = { torque: partsPerMillion(40_000), angle: microDegrees(5_000_000) };

/** Fasteners that are tightened together. */
export interface FastenerSet {
  readonly code: string;
  readonly name: string;
  readonly positions: readonly FastenerPosition[];
  /** True: the numbers of the positions are the maker's tightening order. False: the order is generated. */
  readonly orderIsMakers: boolean;
  readonly thread: string;
  readonly propertyClass: string;
  readonly condition: FastenerCondition;
  readonly reuse: ReuseRule;
  readonly stages: readonly FastenerStage[];
  readonly tolerance: PullTolerance;
}
