import type { Act } from './acts.ts';
import { custodyRule } from './custody-rules.ts';
import { handoverRule } from './handover-rules.ts';
import { putInRule } from './put-in-rules.ts';
import { rackRule } from './rack-rules.ts';
import { runRule } from './runs.ts';
import { BENCH, type Belief } from './state.ts';
import { tallyRule } from './tally-rules.ts';
import type { Refusals, Turn } from './turn.ts';

export interface Expected {
  readonly refusals: ReadonlySet<number>;
  /** What stands after it: the same as before when it is refused, unless the refusal keeps what was counted. */
  readonly belief: Belief;
  readonly kept: boolean;
}

/** What the service must answer to an act, and what must stand afterwards. `step` names what the act makes; `seen`: what stood when it was asked. */
export function expected(before: Belief, act: Act, { step, seen = before }: { step: string; seen?: Belief }): Expected {
  const belief = structuredClone(before);
  const engine = belief.engines[act.engine];
  const refusals: Refusals = new Set();
  if (!BENCH.has(act.who)) refusals.add(403);
  const turn: Turn = {
    act,
    belief,
    engine,
    seen: seen.engines[act.engine],
    refusals,
    key: (what) => `${step}:${what}`,
  };
  const done =
    custodyRule(turn) ?? handoverRule(turn) ?? putInRule(turn) ?? rackRule(turn) ?? runRule(turn) ?? tallyRule(turn);
  if (done === undefined) throw new Error(`no rule for ${act.kind}`);
  const { kept } = turn;
  if (refusals.size > 0 && kept === undefined) return { refusals, belief: before, kept: false };
  (kept ?? done)();
  return { refusals, belief, kept: kept !== undefined };
}
