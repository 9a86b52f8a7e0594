import type { BaseQuantity, Millikelvin } from '#domain/units/quantity.ts';

/**
 * What was seen at one position, in whole base units of the dimension's kind.
 * - value: what the gauge showed.
 * - interval: the thickest blade (or stack) that went in and the thinnest that did not; nothing went in: low 0; the
 *   thickest went in: high null. Stacks name their blades' thicknesses, so that each blade's tolerance is counted.
 * - felt: play felt by hand, or none.
 */
export type Observation =
  | { readonly type: 'value'; readonly value: BaseQuantity }
  | {
      readonly type: 'interval';
      readonly low: BaseQuantity;
      readonly high: BaseQuantity | null;
      readonly goStack?: readonly BaseQuantity[];
      readonly noGoStack?: readonly BaseQuantity[];
    }
  | { readonly type: 'felt'; readonly present: boolean };

/** Temperatures when the reading was taken. `uncertaintyKelvin` is the thermometer's standard uncertainty. */
export type ReadingTemperature = {
  readonly part: Millikelvin;
  readonly instrument: Millikelvin;
  readonly uncertaintyKelvin: number;
};

/** One reading: one position, one repeat, one instrument. Repeats count from 1. */
export type Reading = {
  /** Code of the dimension whose position this is. */
  readonly dimension: string;
  readonly position: string;
  readonly repeat: number;
  readonly observation: Observation;
  /** Code of the instrument; only a felt observation goes without. */
  readonly instrument?: string;
  /** Names one setting of the gauge. Readings of one gauge with the same setting share its zero and setting error. */
  readonly setting?: string;
  readonly temperature?: ReadingTemperature;
};
