import { useMedia, useWall } from '../../app/use-media.ts';
import type { SheetName } from './measure-dialogs.tsx';
import type { Measuring } from './use-measuring.ts';

/** What every way of keying a reading is given. */
export interface EntryProps {
  readonly measuring: Measuring;
  readonly open: (sheet: SheetName) => void;
}

/** How wide a strip is drawn, so that its lettering is never scaled. */
export function useStripWidth(): number {
  const wall = useWall();
  const narrow = useMedia('(max-width: 420px)');
  return wall ? 420 : narrow ? 340 : 380;
}
