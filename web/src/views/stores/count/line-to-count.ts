import type { CountLine } from '#contracts/counts.ts';

export interface LineToCount {
  readonly line: CountLine;
  /** What was keyed, sent or not yet. */
  readonly counted: number | null;
}
