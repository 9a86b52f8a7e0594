import type { DemandLine } from './demand.ts';

/** How a demand line reads at a glance: what stores have to do about it next. */
export type LineState = 'pick now' | 'reserved' | 'short' | 'issued' | 'cancelled' | 'not asked';

export interface LineCircumstances {
  /** Something the same job wants is short, so the job can't go on yet. */
  readonly jobIsShort: boolean;
  /** All that is reserved is held only until the owner's yes. */
  readonly heldForYes: boolean;
}

/**
 * The state of a line by what most wants doing: a shortage before all, then what is reserved (to be picked now when the
 * job lacks nothing and nothing hangs on a yes), then what nobody asked for yet; a line with none of these is done:
 * issued, or cancelled when nothing was issued.
 */
export function lineState(line: DemandLine, { jobIsShort, heldForYes }: LineCircumstances): LineState {
  if (line.short > 0) return 'short';
  if (line.reserved > 0) return jobIsShort || heldForYes ? 'reserved' : 'pick now';
  if (line.notAsked > 0) return 'not asked';
  return line.issued > 0 ? 'issued' : 'cancelled';
}
