import { looseCount } from '#domain/tally/balance.ts';
import type { Layer, PieceBalance } from '#domain/tally/pieces.ts';
import { layersOff, shortCounts } from '#domain/tally/questions.ts';

/** An obligation that nobody has discharged yet. `inside`: it is about something that closing would shut in. */
export interface OpenObligation {
  readonly id: string;
  readonly what: string;
  readonly inside: boolean;
}

/** One stage of a fastener set with the positions still to be pulled. */
export interface OpenStage {
  readonly stage: number;
  readonly missing: readonly number[];
}

export interface TorqueFact {
  readonly setId: string;
  readonly name: string;
  readonly openStages: readonly OpenStage[];
}

/**
 * How a ring stands: not placed, placed against the rule (its faults as found by the ring clock), placed well and not
 * yet looked at by a second person, or signed off.
 */
export interface RingFact {
  readonly ringId: string;
  readonly name: string;
  readonly standing: 'not-placed' | 'against-the-rule' | 'unsigned' | 'placed';
}

/** Lash after the last work on a valve: not measured since, surely or possibly out, or in range. */
export interface LashFact {
  readonly valve: string;
  readonly standing: 'not-verified' | 'out' | 'undecided' | 'in-range';
}

/** A step of a procedure that runs on the job: by which procedure, and its place in it. */
interface StepOfRun {
  readonly stepId: string;
  readonly procedure: string;
  readonly step: number;
  readonly title: string;
}

/** A procedure that somebody left in the middle, where, and what they said is loose or half done. */
export interface LeftRun extends StepOfRun {
  readonly loose: string;
}

/** An assembly that was begun: its first step neither done nor skipped, and how many of these there are. */
export interface UnfinishedRun extends StepOfRun {
  readonly open: number;
}

/** A stop point without its second signature. `apart`: it was done, and what it was about came apart after that. */
export interface UnsignedStop {
  readonly id: string;
  readonly what: string;
  readonly apart: boolean;
}

/** Everything the gate looks at; gathered under the engine's lock. Obligations are the engine's open ones. */
export interface OpeningFacts {
  readonly balances: readonly PieceBalance[];
  readonly obligations: readonly OpenObligation[];
  readonly torque: readonly TorqueFact[];
  readonly rings: readonly RingFact[];
  readonly lash: readonly LashFact[];
  /** Procedures left in the middle and not resumed. */
  readonly left: readonly LeftRun[];
  /** Assemblies begun and not finished. A strip need not be: it ends where it is deep enough. */
  readonly unfinished: readonly UnfinishedRun[];
  /** Stop points of the running procedures that nobody has signed, or not since they came apart again. */
  readonly unsignedStops: readonly UnsignedStop[];
  /** Rags, plugs and tools that were put in and have not come out. */
  readonly stillIn: readonly { readonly id: string; readonly what: string; readonly count: number }[];
  /** Open searches for what may be inside. */
  readonly searches: readonly { readonly id: string; readonly what: string; readonly count: number }[];
  /** Lines of the closing check, and how many of them no second person has ticked. */
  readonly check: { readonly lines: number; readonly left: number };
}

/** One thing that keeps the opening from being closed: what, how many, which. */
export type ReasonAgainstClosing =
  | { readonly kind: 'layer-off'; readonly layer: Layer }
  | { readonly kind: 'piece-loose'; readonly pieceId: string; readonly what: string; readonly count: number }
  | { readonly kind: 'piece-missing'; readonly pieceId: string; readonly what: string; readonly count: number }
  | { readonly kind: 'obligation-open'; readonly obligationId: string; readonly what: string }
  | {
      readonly kind: 'torque-incomplete';
      readonly setId: string;
      readonly what: string;
      readonly stage: number;
      readonly count: number;
      readonly positions: readonly number[];
    }
  | { readonly kind: 'ring-not-placed'; readonly ringId: string; readonly what: string }
  | { readonly kind: 'ring-against-rule'; readonly ringId: string; readonly what: string }
  /** All of them stand well, and no second person has signed: one signature is for all. */
  | { readonly kind: 'rings-unsigned'; readonly rings: readonly string[] }
  | { readonly kind: 'lash-not-verified'; readonly valve: string }
  | { readonly kind: 'lash-undecided'; readonly valve: string }
  | { readonly kind: 'lash-out'; readonly valve: string }
  | ({ readonly kind: 'procedure-left' } & LeftRun)
  | ({ readonly kind: 'assembly-unfinished' } & UnfinishedRun)
  | { readonly kind: 'stop-unsigned'; readonly stopId: string; readonly what: string; readonly apart: boolean }
  | { readonly kind: 'may-be-inside'; readonly searchId: string; readonly what: string; readonly count: number }
  | { readonly kind: 'put-in-still-in'; readonly putInId: string; readonly what: string; readonly count: number }
  | { readonly kind: 'not-checked'; readonly lines: number; readonly left: number };

/**
 * What speaks against closing the opening of an engine: every reason, in the order in which they are looked for
 * (what may be inside, what was put in, layers, pieces, obligations on the inside, torque, rings, lash, procedures left,
 * assemblies not finished, stop points, the closing check). An empty list: it may be closed.
 */
export function againstClosingTheOpening(facts: OpeningFacts): readonly ReasonAgainstClosing[] {
  const { lines, left } = facts.check;
  return [
    ...facts.searches.map(({ id, ...rest }) => ({ kind: 'may-be-inside' as const, searchId: id, ...rest })),
    ...facts.stillIn.map(({ id, ...rest }) => ({ kind: 'put-in-still-in' as const, putInId: id, ...rest })),
    ...layersOff(facts.balances).map((layer) => ({ kind: 'layer-off' as const, layer })),
    ...pieceReasons(facts.balances),
    ...facts.obligations
      .filter(({ inside }) => inside)
      .map(({ id, what }) => ({ kind: 'obligation-open' as const, obligationId: id, what })),
    ...facts.torque.flatMap(torqueReasons),
    ...ringReasons(facts.rings),
    ...facts.lash.flatMap(lashReason),
    ...facts.left.map((run) => ({ kind: 'procedure-left' as const, ...run })),
    ...facts.unfinished.map((run) => ({ kind: 'assembly-unfinished' as const, ...run })),
    ...facts.unsignedStops.map(({ id, ...rest }) => ({ kind: 'stop-unsigned' as const, stopId: id, ...rest })),
    ...(left > 0 ? [{ kind: 'not-checked' as const, lines, left }] : []),
  ];
}

function pieceReasons(balances: readonly PieceBalance[]): readonly ReasonAgainstClosing[] {
  const loose = balances
    .map((balance) => ({ pieceId: balance.id, what: balance.name, count: looseCount(balance) }))
    .filter(({ count }) => count > 0)
    .map((piece) => ({ kind: 'piece-loose' as const, ...piece }));
  const missing = shortCounts(balances).map(({ pieceId, name: what, missing: count }) => ({
    kind: 'piece-missing' as const,
    pieceId,
    what,
    count,
  }));
  return [...loose, ...missing];
}

function torqueReasons({ setId, name, openStages }: TorqueFact): readonly ReasonAgainstClosing[] {
  return openStages
    .filter(({ missing }) => missing.length > 0)
    .map(({ stage, missing }) => ({
      kind: 'torque-incomplete',
      setId,
      what: name,
      stage,
      count: missing.length,
      positions: missing,
    }));
}

function ringReasons(rings: readonly RingFact[]): readonly ReasonAgainstClosing[] {
  const standing = rings.flatMap(ringReason);
  const unsigned = rings.filter((ring) => ring.standing === 'unsigned').map(({ name }) => name);
  return standing.length > 0 || unsigned.length === 0 ? standing : [{ kind: 'rings-unsigned', rings: unsigned }];
}

function ringReason({ ringId, name: what, standing }: RingFact): readonly ReasonAgainstClosing[] {
  switch (standing) {
    case 'placed':
    case 'unsigned':
      return [];
    case 'not-placed':
      return [{ kind: 'ring-not-placed', ringId, what }];
    case 'against-the-rule':
      return [{ kind: 'ring-against-rule', ringId, what }];
  }
}

function lashReason({ valve, standing }: LashFact): readonly ReasonAgainstClosing[] {
  switch (standing) {
    case 'in-range':
      return [];
    case 'not-verified':
      return [{ kind: 'lash-not-verified', valve }];
    case 'undecided':
      return [{ kind: 'lash-undecided', valve }];
    case 'out':
      return [{ kind: 'lash-out', valve }];
  }
}
