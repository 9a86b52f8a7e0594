/**
 * A stream of chance that its seed determines: the same seed gives the same draws anywhere. Each method advances it.
 */
export type RandomSource = {
  /** Uniform in [0, 1), 53 bits. */
  readonly uniform: () => number;
  /** Uniform between two bounds. */
  readonly between: (low: number, high: number) => number;
  /** Standard normal. */
  readonly normal: () => number;
  /** √(ν/χ²): what a standard normal is multiplied by to make it Student's t of ν degrees of freedom. */
  readonly studentFactor: (degreesOfFreedom: number) => number;
};

/** A seed is a whole number from 0 to 2³² − 1. */
export const isSeed = (seed: number): boolean => Number.isInteger(seed) && seed >= 0 && seed <= 0xffff_ffff;

const rotated = (word: number, by: number): number => (word << by) | (word >>> (32 - by));

/** Spreads one seed over four words (SplitMix32, the finaliser of MurmurHash3). */
const wordsFrom = (seed: number): readonly [number, number, number, number] => {
  let state = seed | 0;
  const next = (): number => {
    state = (state + 0x9e37_79b9) | 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x85eb_ca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2_ae35);
    return mixed ^ (mixed >>> 16);
  };
  return [next(), next(), next(), next()];
};

/**
 * The 32-bit words of xoshiro128** from a state of four (not all nothing). Source: Blackman & Vigna 2018, a generator
 * of period 2¹²⁸ − 1 [algorithm from memory; checked on the words that state 1, 2, 3, 4 gives].
 */
export const xoshiro = (state: readonly [number, number, number, number]): (() => number) => {
  let [a, b, c, d] = state;
  return () => {
    const word = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = rotated(d, 11);
    return word;
  };
};

/** A stream of chance from a seed. @throws RangeError when the seed is none. */
export const randomSource = (seed: number): RandomSource => {
  if (!isSeed(seed)) throw new RangeError(`${seed} is no seed`);
  const word = xoshiro(wordsFrom(seed));
  const uniform = (): number => ((word() >>> 5) * 0x400_0000 + (word() >>> 6)) / 0x20_0000_0000_0000;
  let spare: number | undefined;
  // Marsaglia's polar form of Box and Muller (JCGM 101, C.4).
  const normal = (): number => {
    if (spare !== undefined) {
      const held = spare;
      spare = undefined;
      return held;
    }
    for (;;) {
      const x = 2 * uniform() - 1;
      const y = 2 * uniform() - 1;
      const square = x * x + y * y;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = y * factor;
      return x * factor;
    }
  };
  // Gamma by Marsaglia & Tsang 2000; χ² of ν is twice the gamma of ν/2.
  const gamma = (shape: number): number => {
    if (shape < 1) return gamma(shape + 1) * (1 - uniform()) ** (1 / shape);
    const d = shape - 1 / 3;
    const c = 1 / Math.sqrt(9 * d);
    for (;;) {
      const x = normal();
      const v = (1 + c * x) ** 3;
      if (v > 0 && Math.log(1 - uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
    }
  };
  return {
    uniform,
    between: (low, high) => low + (high - low) * uniform(),
    normal,
    studentFactor: (degreesOfFreedom) => Math.sqrt(degreesOfFreedom / (2 * gamma(degreesOfFreedom / 2))),
  };
};
