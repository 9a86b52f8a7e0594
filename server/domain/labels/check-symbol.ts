/**
 * Sixteen digits and sixteen-odd letters, none of which is taken for another by eye: I, L, O and U are left out. Chosen for
 * codes that people read aloud and type; small letters mean the same.
 */
export const labelAlphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

const ORDER = 31;

/** Powers of a primitive element of GF(2⁵), reduced by x⁵ + x² + 1: the 31 elements other than zero, each once. */
const powers: readonly number[] = Array.from({ length: ORDER }).reduce<number[]>((made) => {
  const doubled = (made.at(-1) ?? 0) << 1;
  return made.length === 0 ? [1] : [...made, doubled > 31 ? doubled ^ 0b100101 : doubled];
}, []);

const logarithms = new Map(powers.map((element, exponent) => [element, exponent]));

/** The product in GF(2⁵) of an element with the primitive element raised to `exponent`. */
function timesPower(element: number, exponent: number): number {
  const logarithm = logarithms.get(element);
  return logarithm === undefined ? 0 : (powers[(logarithm + exponent) % ORDER] ?? 0);
}

/**
 * The check symbol of up to 29 symbols of {@link labelAlphabet}.
 *
 * Every position has a weight of its own, a power of a primitive element of GF(2⁵), and the check symbol makes the weighted
 * sum zero. Sums are exclusive ors. So one wrong symbol anywhere always shows, and so do any two symbols that changed
 * places, next to each other or not; of anything worse one in 32 stays unseen.
 * Source: a linear code over GF(2⁵) with parity-check row (α, α², … αⁿ, 1), worked out here.
 * @throws RangeError for a symbol that is not of the alphabet, or too many of them
 */
export function checkSymbolOf(symbols: string): string {
  if (symbols.length > ORDER - 2) throw new RangeError('too many symbols for one check symbol');
  let sum = 0;
  for (const [index, symbol] of [...symbols].entries()) {
    const element = labelAlphabet.indexOf(symbol);
    if (element < 0) throw new RangeError(`${symbol} is not a symbol of the alphabet`);
    sum ^= timesPower(element, index + 1);
  }
  return labelAlphabet[sum] ?? '';
}
