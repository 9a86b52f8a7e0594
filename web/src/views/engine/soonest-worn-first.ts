import type { WearHistory } from '#contracts/engines.ts';

/** Hours until the limit could be reached at the soonest; what has no date in sight comes last. */
function hoursAtTheSoonest({ line, limit }: WearHistory): number {
  if (limit === null || line === null) return Number.POSITIVE_INFINITY;
  const { earliest, estimate } = line.hoursLeft;
  return Number(earliest ?? estimate ?? Number.POSITIVE_INFINITY);
}

/** The part that is worn out first stands first; among those alike, the order of the sheet. */
export const soonestWornFirst = (histories: readonly WearHistory[]): WearHistory[] =>
  histories
    .map((history) => ({ history, hours: hoursAtTheSoonest(history) }))
    .sort((a, b) => (a.hours === b.hours ? 0 : a.hours - b.hours))
    .map(({ history }) => history);
