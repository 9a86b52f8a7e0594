import type { Tray } from '#contracts/custody.ts';
import type { Counts } from './counts.ts';

/** What is counted, and where it goes. It outlives the step on screen. */
export interface TallyAtHand {
  readonly trays: readonly Tray[];
  /** Null: not said yet. */
  readonly trayId: string | null;
  readonly onTray: (trayId: string) => void;
  readonly counts: Counts;
}
