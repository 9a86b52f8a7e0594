import { type Histogram, histogramOf } from './histogram.ts';
import { type RandomSource, randomSource } from './random-source.ts';

/** Fewer trials tell no 95 % interval, more take too long. */
export const fewestTrials = 1000;
export const mostTrials = 1_000_000;
/** So many draws, trials times readings, take about a second. */
export const mostDraws = 500_000;

export type CoverageInterval = { readonly low: number; readonly high: number };

/** What many trials of a quantity came to. */
export type Distribution = {
  readonly mean: number;
  /** Standard uncertainty. */
  readonly sd: number;
  /** As much is left out below as above. */
  readonly symmetric: CoverageInterval;
  /** The shortest of all that hold so much. */
  readonly shortest: CoverageInterval;
  readonly histogram: Histogram;
};

export type Trials = { readonly trials: number; readonly seed: number; readonly level: number };

const at = (sorted: Float64Array, index: number): number =>
  sorted[Math.min(sorted.length - 1, Math.max(0, index))] ?? Number.NaN;

/**
 * Mean, standard deviation and both coverage intervals of drawn values. Level such as 0.95.
 * Source: JCGM 101:2008, 7.6 and 7.7 (q = level·M to the nearest whole number).
 */
export const distributionOf = (values: Float64Array, level: number): Distribution => {
  const count = values.length;
  const first = values[0] ?? 0;
  let sum = 0;
  for (const value of values) sum += value - first;
  const mean = first + sum / count;
  let squares = 0;
  for (const value of values) squares += (value - mean) ** 2;
  const sorted = values.slice().sort();
  const q = Math.floor(level * count + 0.5);
  const left = Math.floor((count - q + 1) / 2);
  let best = 0;
  for (let index = 0; index + q < count; index += 1) {
    if (at(sorted, index + q) - at(sorted, index) < at(sorted, best + q) - at(sorted, best)) best = index;
  }
  return {
    mean,
    sd: Math.sqrt(squares / (count - 1)),
    symmetric: { low: at(sorted, left - 1), high: at(sorted, left - 1 + q) },
    shortest: { low: at(sorted, best), high: at(sorted, best + q) },
    histogram: histogramOf(sorted),
  };
};

/** Why trials can't be run as asked; undefined: they can. */
export const trialsFault = ({ trials, level }: Pick<Trials, 'trials' | 'level'>): 'trials' | 'level' | undefined => {
  if (!(Number.isInteger(trials) && trials >= fewestTrials && trials <= mostTrials)) return 'trials';
  return level > 0 && level < 1 ? undefined : 'level';
};

/**
 * Propagates distributions through a model by drawing: `draw` makes one value of the output from the stream of chance.
 * The seed is kept with the result, which it determines. @throws RangeError on trials or a level out of range.
 * Source: JCGM 101:2008, clause 7, with a number of trials chosen beforehand.
 */
export const propagate = (draw: (random: RandomSource) => number, asked: Trials): Distribution & Trials => {
  const fault = trialsFault(asked);
  if (fault !== undefined) throw new RangeError(`${asked[fault]} is no ${fault}`);
  const random = randomSource(asked.seed);
  const values = new Float64Array(asked.trials);
  for (let trial = 0; trial < values.length; trial += 1) values[trial] = draw(random);
  return { ...distributionOf(values, asked.level), ...asked };
};
