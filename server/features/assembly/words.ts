import type { RingPlacement } from '#domain/build/ring-clock.ts';
import { ringFaultWords } from '#domain/build/ring-words.ts';
import type { FastenerSet } from '#domain/fasteners/fastener-set.ts';
import type { Pull, PullCheck } from '#domain/fasteners/pulls.ts';
import type { TorqueGuard, UnitSwap } from '#domain/fasteners/typo-guard.ts';
import type { WrenchFault } from '#domain/fasteners/wrench.ts';
import type { NoShim } from '#domain/lash/choose-shim.ts';
import type { NoShimInHead, ValveName } from '#domain/lash/heads.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';

const millimetres = (value: number): string => `${formatQuantity(value, 'mm', 3)} mm`;
const degrees = (value: number): string => `${formatQuantity(value, 'deg', 0)}°`;
const newtonMetres = (value: number): string => `${formatQuantity(value, 'N.m', 1)} N·m`;
const list = (numbers: readonly number[]): string => numbers.join(', ');

/** Why a pull is refused, and what to do; undefined when it is good. */
export function pullRefusal(
  check: PullCheck,
  { set, kind, torqueToYield = false }: { set: FastenerSet; kind: Pull['kind']; torqueToYield?: boolean },
): string | undefined {
  switch (check.kind) {
    case 'ok':
      return undefined;
    case 'unknown-position':
      return `${set.name} has no position ${check.fastener}.`;
    case 'unknown-stage':
      return `${set.name} has no stage ${check.stage}.`;
    case 'wrong-quantity':
      return check.asked === 'torque'
        ? 'This stage is pulled to a torque.'
        : 'This stage is turned by an angle: key degrees.';
    case 'repeated':
      if (torqueToYield && check.stage === Math.max(...set.stages.map(({ ordinal }) => ordinal))) {
        return `Position ${check.fastener} was turned past yield in stage ${check.stage}: it is never pulled again. Take it out and put a new one in.`;
      }
      return `Position ${check.fastener} was pulled in stage ${check.stage} already. Strike that pull first if it was wrong.`;
    case 'stage-before-not-complete':
      return `Stage ${check.stage} is not complete: position ${list(check.missing)} still to pull. All of a stage before any of the next.`;
    case 'missed':
      return `Position ${list(check.skipped)} ${check.skipped.length === 1 ? 'comes' : 'come'} first. Pull the positions in their order.`;
    case 'out-of-tolerance': {
      const words = kind === 'torque' ? newtonMetres : degrees;
      const swap = check.swap === null ? '' : ` It looks like ${check.swap}.`;
      return `${words(check.given)} is outside ${words(check.low)} to ${words(check.high)}.${swap} Undo the fastener and pull it again, or key what the tool shows.`;
    }
  }
}

export function wrenchFault(fault: WrenchFault, code: string): string {
  switch (fault.kind) {
    case 'below-its-range':
      return `${code} is not to be used below ${newtonMetres(fault.smallest)}.`;
    case 'above-its-range':
      return `${code} ends at ${newtonMetres(fault.largest)}.`;
    case 'not-calibrated':
      return `${code} has no calibration.`;
    case 'calibration-past':
      return `The calibration of ${code} ran out on ${fault.until}.`;
    case 'too-many-pulls':
      return `${code} has had more than ${fault.allowed} pulls since its calibration.`;
  }
}

/** What the guard says of a stage's figure, or undefined when it is an ordinary one. */
export function guardWords(guard: TorqueGuard, stage: number): string | undefined {
  if (guard.kind === 'not-judged' || guard.kind === 'usual') return undefined;
  return pastUsualWords({ kind: guard.kind, shareOfProof: guard.shareOfProof, swap: guard.swap }, stage);
}

/** The same of a figure that is known to be above three quarters of the proof load. */
export function pastUsualWords(
  guard: { readonly kind: 'note' | 'warn'; readonly shareOfProof: number; readonly swap: UnitSwap | null },
  stage: number,
): string {
  const share = Math.round(guard.shareOfProof * 100);
  const swap = guard.swap === null ? '' : ` It looks like ${guard.swap}.`;
  return guard.kind === 'note'
    ? `Stage ${stage} is about ${share} % of the thread’s proof load (dry, K 0.20).`
    : `Stage ${stage} would be ${share} % of the thread’s proof load (dry, K 0.20): read the manual again before pulling.${swap}`;
}

export const ringFaults = (placement: RingPlacement): string[] =>
  placement.ok ? [] : placement.faults.map(ringFaultWords);

/** Why no shim brings a valve into range, and what that points to. */
export function noShimWords(reason: NoShim): string {
  const { low, high } = reason.needed;
  const needed = high === null ? `at least ${millimetres(low)}` : `${millimetres(low)} to ${millimetres(high)}`;
  switch (reason.kind) {
    case 'not-stocked':
      return `A shim of ${needed} would do, and none is here or in the price list.`;
    case 'outside-makers-sizes':
      return `It would take a shim of ${needed}, ${reason.side} than any the maker has (${millimetres(reason.makersSizes.low)} to ${millimetres(reason.makersSizes.high)}). Look at the valve and its seat.`;
  }
}

/** The same for a valve of a whole head; `nameOf` tells the name of another valve, of this head or of another one. */
export function noShimInHeadWords(reason: NoShimInHead, nameOf: (valve: ValveName) => string): string {
  switch (reason.kind) {
    case 'others-have-them': {
      const others = reason.others.map(nameOf).join(', ');
      return `What would do goes to ${others}, so that most valves come into range. Another of that size would serve this one.`;
    }
    case 'lash-has-no-upper-bound':
      return 'Even the thickest blade went in: measure again with thicker ones. Its shim stays where it is.';
    case 'not-stocked':
    case 'outside-makers-sizes':
      return noShimWords(reason);
  }
}
