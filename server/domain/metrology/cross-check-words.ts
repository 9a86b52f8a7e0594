import type { BenchCheck } from './cross-checks.ts';

type Printed = (baseUnits: number) => string;
type Named = {
  /** What is checked, as the sheet calls it: 'Top ring, end gap'. */
  readonly name: string;
  readonly printed: Printed;
};

const between = (
  { low, high }: { readonly low: number | null; readonly high: number | null },
  printed: Printed,
): string => {
  if (low === null) return high === null ? 'anything' : `${printed(high)} at most`;
  return high === null ? `${printed(low)} or more` : `between ${printed(low)} and ${printed(high)}`;
};

/** A check in words, said at the moment of keying: what disagrees, by what figures, and what to do. */
export const benchCheckWords = (check: BenchCheck, { name, printed }: Named): string => {
  switch (check.code) {
    case 'gap-against-taper': {
      const said = `${name} at two heights tells a taper ${between(check.implied, printed)}; the bore gauge says ${printed(check.found.value)}.`;
      return check.agrees ? `${said} They agree.` : `${said} One of them is wrong: measure both again.`;
    }
    case 'gap-change-against-bore': {
      const said = `${name} before and after tells that the bore has grown ${between(check.implied, printed)}; the bore gauge says ${printed(check.found.value)}.`;
      return check.agrees
        ? `${said} They agree.`
        : `${said} One of them is wrong, or it is another ring: measure both again.`;
    }
    case 'clearance-against-sizes': {
      const said = `${name} by feeler is ${between(check.implied, printed)}; bore less piston is ${printed(check.found.value)}.`;
      return check.agrees ? `${said} They agree.` : `${said} One of the three is wrong: measure them again.`;
    }
    case 'two-people': {
      const [one, other] = check.people;
      const by = printed(Math.abs(check.difference));
      return check.agrees
        ? `${one} and ${other} agree on ${name} within what both can be sure of.`
        : `${one} and ${other} differ by ${by} on ${name}, more than both uncertainties: measure it again together.`;
    }
    case 'instrument-out-of-date':
      return `${check.instrument} was due for calibration on ${check.due}: take another, or have it checked.`;
    case 'instrument-out-of-range':
      return `${printed(check.value)} is outside the range of ${check.instrument}, ${printed(check.low)} to ${printed(check.high)}: take another.`;
    case 'instrument-too-coarse':
      return `${check.instrument} is good to ± ${printed(check.expanded)} at best, more than a quarter of the ${printed(check.tolerance)} that ${name} allows: take a finer one.`;
    case 'plated-surface':
      return `${name} is plated: it is never ${check.work === 'bore' ? 'bored' : 'stone-honed'} to size. Replate or renew it.`;
  }
};
