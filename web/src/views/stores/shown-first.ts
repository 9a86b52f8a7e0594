import { useState } from 'react';

/**
 * How much of a long list stands on the page: the first so many, more when they are asked for, and always up to the one at
 * `upTo`. All of it is there to be counted and found; only drawing thousands of rows would be slow.
 */
export function useShownFirst<Item>(all: readonly Item[], atATime: number, upTo = -1) {
  const [wanted, setWanted] = useState(atATime);
  const shown = all.slice(0, Math.max(wanted, upTo + 1));
  return { shown, more: () => setWanted(shown.length + atATime) };
}
