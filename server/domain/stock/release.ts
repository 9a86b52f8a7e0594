/** A promise of pieces of one lot to one job. `promised` is the job's promised day (ISO 8601), null when none is told. */
export interface LotReservation {
  readonly id: string;
  readonly jobId: string;
  readonly count: number;
  readonly promised: string | null;
}

export interface Release {
  readonly reservationId: string;
  readonly jobId: string;
  readonly count: number;
}

/** What a count makes of a lot: the ledger's correction, and what has to be taken back from whom. */
export interface CountOutcome {
  readonly adjustment: number;
  readonly releases: readonly Release[];
}

/**
 * What follows when a lot is counted (or scrapped down) to `counted` pieces while some are reserved: reservations are
 * released until no more are promised than there are. The job promised latest gives first, a job without a promise
 * before all others, of equals the one with the later id (ids grow with time). The last one may keep a part.
 * Counts whole and ≥ 0; a lot counted up, or still covering its reservations, releases nothing.
 */
export function releasesAfterCount(
  onHand: number,
  counted: number,
  reservations: readonly LotReservation[],
): CountOutcome {
  const reserved = reservations.reduce((sum, { count }) => sum + count, 0);
  let toRelease = Math.max(0, reserved - counted);
  const releases: Release[] = [];
  for (const reservation of reservations.toSorted(firstToGive)) {
    if (toRelease === 0) break;
    const count = Math.min(reservation.count, toRelease);
    toRelease -= count;
    if (count > 0) releases.push({ reservationId: reservation.id, jobId: reservation.jobId, count });
  }
  return { adjustment: counted - onHand, releases };
}

function firstToGive(a: LotReservation, b: LotReservation): number {
  if (a.promised !== b.promised) {
    if (a.promised === null) return -1;
    if (b.promised === null) return 1;
    return a.promised > b.promised ? -1 : 1;
  }
  return a.id > b.id ? -1 : 1;
}
