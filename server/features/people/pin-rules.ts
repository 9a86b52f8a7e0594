/** PINs that anybody would try first: one digit over and over, or a run up or down. */
export function isGuessedFirst(pin: string): boolean {
  const steps = new Set([...pin].slice(1).map((digit, at) => Number(digit) - Number(pin[at])));
  const [step] = steps;
  return steps.size === 1 && step !== undefined && Math.abs(step) <= 1;
}
