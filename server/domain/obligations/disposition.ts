import type { Verdict } from '#domain/metrology/finding.ts';

/** What may be done about an obligation. */
export const dispositionKinds = [
  'measure again',
  'reuse',
  'hone',
  'bore',
  'replate',
  'resurface',
  'grind',
  'shim',
  'replace',
  'send out',
  'search',
  'other',
] as const;
export type DispositionKind = (typeof dispositionKinds)[number];

/** The rounds of measuring, in the order in which they come. */
export const rounds = ['as received', 'after work', 'as built'] as const;
export type Round = (typeof rounds)[number];

export const isWell = (verdict: Verdict): boolean =>
  verdict === 'within standard' || verdict === 'within service limit';

/** True when the decision asks for work whose result a later round of measuring has to prove. */
export function asksForWork(kind: DispositionKind): boolean {
  switch (kind) {
    case 'hone':
    case 'bore':
    case 'replate':
    case 'resurface':
    case 'grind':
    case 'shim':
    case 'replace':
    case 'send out':
    case 'other':
      return true;
    case 'measure again':
    case 'reuse':
    case 'search':
      return false;
  }
}

/**
 * Whether a good finding of one round proves an obligation that a finding of the same dimension opened: of the same part
 * in the same round always; else, in the same round or a later one, when work was decided on (a renewed part is another).
 */
export function proves(
  good: Round,
  obligation: {
    readonly round: Round;
    readonly decided: DispositionKind | undefined;
    readonly samePart: boolean;
  },
): boolean {
  const later = rounds.indexOf(good) - rounds.indexOf(obligation.round);
  if (later === 0 && obligation.samePart) return true;
  return later >= 0 && obligation.decided !== undefined && asksForWork(obligation.decided);
}

/** What is to be decided on, as far as it bears on who may decide what. */
export type Decidable = {
  /** The verdict that opened it; undefined when no finding did. */
  readonly verdict: Verdict | undefined;
  /** It is about a plated surface. */
  readonly plated: boolean;
};

export type DecisionFault = 'needs-reason' | 'needs-lead' | 'plated' | 'needs-size-class';

/**
 * What keeps a decision from being taken, the first reason found; undefined: it may be. Using a part again, or something
 * else, needs a reason, and the lead unless the finding was merely undecided. A plated surface is never bored or
 * stone-honed to size; boring names the size class it is bored to [common practice, no source].
 */
export function decisionFault(
  decision: {
    readonly kind: DispositionKind;
    readonly reason: string;
    readonly sizeClass: string | undefined;
    readonly byLead: boolean;
  },
  about: Decidable,
): DecisionFault | undefined {
  const { kind, reason, sizeClass, byLead } = decision;
  if (about.plated && (kind === 'bore' || kind === 'hone')) return 'plated';
  if (kind === 'bore' && sizeClass === undefined) return 'needs-size-class';
  if (kind !== 'reuse' && kind !== 'other') return undefined;
  if (reason === '') return 'needs-reason';
  return about.verdict !== 'undecided' && !byLead ? 'needs-lead' : undefined;
}
