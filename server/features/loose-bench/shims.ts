import { figure, type Print, quantity, rounded } from '#contracts/figures.ts';
import type { LooseShims, LooseShimsFound } from '#contracts/loose-shims.ts';
import type { QuantityInterval } from '#contracts/wire.ts';
import type { ShimCandidate, Trial } from '#domain/lash/choose-shim.ts';
import { type ChoiceInHead, chooseForHeads, type NoShimInHead } from '#domain/lash/heads.ts';
import { type LengthInterval, standingIn } from '#domain/lash/interval.ts';
import { screwTurn } from '#domain/lash/screw.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { type ReadValve, shimsOf } from './shim-body.ts';

type ValveFound = LooseShimsFound['valves'][number];

const millimetres: Print = { unit: 'mm', decimals: 2 };

const intervalOnWire = ({ low, high }: LengthInterval): QuantityInterval => ({
  low: figure(low, millimetres),
  high: high === null ? null : figure(high, millimetres),
  unit: 'mm',
});

function said(interval: LengthInterval): string {
  const { low, high } = intervalOnWire(interval);
  if (low === high) return `${low} mm`;
  return high === null ? `${low} mm or more` : `${low} to ${high} mm`;
}

function nameOf({ source }: ShimCandidate, valve: string): string {
  switch (source.kind) {
    case 'stays':
      return valve;
    case 'engine':
      return source.valve;
    case 'bin':
      return source.lotId;
    case 'buy':
      return source.partId;
  }
}

function reasonWords(reason: NoShimInHead): string {
  switch (reason.kind) {
    case 'not-stocked':
      return `None of these will do: a shim of ${said(reason.needed)} is needed.`;
    case 'outside-makers-sizes':
      return `A shim of ${said(reason.needed)} is needed, ${reason.side} than any the maker has: look at the valve and its seat.`;
    case 'others-have-them': {
      const others = reason.others.map(({ head, valve }) => `${head} ${valve}`).join(', ');
      return `A shim of ${said(reason.needed)} is needed; those there are go to ${others}, so that most valves come into range.`;
    }
    case 'lash-has-no-upper-bound':
      return 'Even the thickest blade went in: measure again with thicker ones. Its shim stays where it is.';
  }
}

const shimOnWire = (candidate: ShimCandidate, valve: string) => ({
  from: candidate.source.kind,
  name: nameOf(candidate, valve),
  thickness: quantity(candidate.thickness.value, millimetres),
});

function shimmedFound(choice: ChoiceInHead): ValveFound {
  const { head, valve, before } = choice;
  const shared = { head, valve, before, wanted: intervalOnWire(choice.wanted), turn: null };
  if (!choice.ok) {
    return {
      ...shared,
      chosen: null,
      after: null,
      standing: 'out',
      alternatives: [],
      words: reasonWords(choice.reason),
    };
  }
  return {
    ...shared,
    chosen: shimOnWire(choice.chosen, valve),
    after: intervalOnWire(choice.after),
    standing: choice.standing,
    alternatives: choice.alternatives.map(({ candidate, after, standing }: Trial) => ({
      ...shimOnWire(candidate, valve),
      after: intervalOnWire(after),
      standing,
    })),
    words: `It brings the lash to ${said(choice.after)}: ${choice.standing} to be in range.`,
  };
}

/** A screw goes wherever it is turned: what is left is as wide as the lash was known. */
function screwedFound(valve: ReadValve): ValveFound {
  const { head, code, lash, wanted, range } = valve;
  const outcome = screwTurn({ lash, wanted, pitch: valve.screwPitch ?? nanometres(0) });
  const shared = { head, valve: code, before: standingIn(lash, range), wanted: null, chosen: null, alternatives: [] };
  if (!outcome.ok || lash.high === null) {
    const words = 'Even the thickest blade went in: measure again with thicker ones.';
    return { ...shared, after: null, standing: 'out', turn: null, words };
  }
  const half = Math.ceil((lash.high - lash.low) / 2);
  const after = { low: nanometres(wanted - half), high: nanometres(wanted + half) };
  const turn = (value: number) => rounded(value, { unit: 'deg', decimals: 0 });
  const { least, middle, most } = outcome.turn;
  return {
    ...shared,
    after: intervalOnWire(after),
    standing: standingIn(after, range),
    turn: { least: turn(least), middle: turn(middle), most: turn(most) },
    words: `Turned by the middle, the lash is ${said(after)}. Measure again after the lock nut is tight.`,
  };
}

/** One shim for each valve of one head or several, or the turn of its screw. */
export function looseShims(body: LooseShims): LooseShimsFound {
  const { heads, stored, valves } = shimsOf(body);
  const { valves: choices, comeOut } = chooseForHeads(heads, stored);
  const found = valves.map((valve) => {
    const choice = choices.find((one) => one.head === valve.head && one.valve === valve.code);
    return choice === undefined ? screwedFound(valve) : shimmedFound(choice);
  });
  const count = (of: (one: ValveFound) => boolean) => found.filter(of).length;
  const fitted = heads.flatMap(({ name, valves: ofHead }) => ofHead.map((valve) => ({ head: name, valve })));
  return {
    guaranteed: count(({ standing }) => standing === 'guaranteed'),
    possible: count(({ standing }) => standing === 'possible'),
    out: count(({ standing }) => standing === 'out'),
    bought: count(({ chosen }) => chosen?.from === 'buy'),
    fromBins: count(({ chosen }) => chosen?.from === 'bin'),
    valves: found,
    comeOut: fitted
      .filter(({ head, valve }) => comeOut.some((one) => one.head === head && one.valve === valve.code))
      .map(({ head, valve }) => ({
        head,
        valve: valve.code,
        thickness: quantity(valve.fitted.measured.value, millimetres),
      })),
  };
}
