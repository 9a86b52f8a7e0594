import { useSyncExternalStore } from 'react';

/** Whether a media query holds: for what a style sheet can't do, as the size at which a drawing is drawn. */
export function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (changed) => {
      const media = matchMedia(query);
      media.addEventListener('change', changed);
      return () => media.removeEventListener('change', changed);
    },
    () => matchMedia(query).matches,
  );
}

/** A screen on the wall, read from metres away. */
export const useWall = (): boolean => useMedia('(min-width: 2200px)');

/** One of two to draw at: the second on a wall, half as large again where the wall screen has the pixels. */
export function useDrawnSize(desk: number, wall: number): number {
  const onWall = useWall();
  const fine = useMedia('(min-width: 3400px) and (min-height: 1800px)');
  return fine ? wall * 1.5 : onWall ? wall : desk;
}
