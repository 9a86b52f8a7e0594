import type { WearHistory } from '#contracts/engines.ts';
import type { Words } from '../../words/words.tsx';

const whole = (hours: string): number => Math.max(0, Math.round(Number(hours)));

/** What the wear chart says, in a sentence; or why it says nothing. */
export function wearSentence(history: Pick<WearHistory, 'limit' | 'line' | 'points'>, words: Words['engine']): string {
  const { limit, line, points } = history;
  if (limit === null) return words.wearNoLimit;
  if (line === null) return points.length < 3 ? words.wearTooFew(points.length) : words.wearAlike;
  const { estimate, earliest, latest } = line.hoursLeft;
  if (latest !== null && whole(latest) === 0) return words.wearReached;
  if (earliest !== null && latest !== null) return words.wearIn(String(whole(earliest)), String(whole(latest)));
  if (earliest !== null && whole(earliest) === 0) return words.wearReached;
  if (earliest !== null) return words.wearNotBefore(String(whole(earliest)));
  return estimate !== null && whole(estimate) === 0 ? words.wearReached : words.wearNotInSight;
}
