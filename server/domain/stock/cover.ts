/** Pieces a job lacks of one part. */
export interface Lack {
  readonly id: string;
  readonly jobId: string;
  readonly short: number;
}

/** Pieces of that part still to come on a purchase line: for one job, or for anybody (null). */
export interface Coming {
  readonly id: string;
  readonly jobId: string | null;
  readonly open: number;
  /** A day as `2026-11-27`; null: none was given. */
  readonly promisedOn: string | null;
}

export interface Cover {
  readonly lackId: string;
  /** From which lines how many come, in the order in which they come. */
  readonly from: readonly { readonly id: string; readonly quantity: number; readonly promisedOn: string | null }[];
  /** Pieces that nothing on order covers. */
  readonly uncovered: number;
  /** The day on which the last of them is promised; null when some have no day or are not on order. */
  readonly completeOn: string | null;
}

const byDay = (a: Coming, b: Coming): number =>
  (a.promisedOn ?? '9999').localeCompare(b.promisedOn ?? '9999') || a.id.localeCompare(b.id);

/**
 * Which lines on order fill which shortages of one part: what was bought for a job is its own; what comes for anybody goes
 * to the shortages in the order given (earliest promise first), the earliest day first. A line without a day comes last.
 */
export function coverLacks(lacks: readonly Lack[], coming: readonly Coming[]): readonly Cover[] {
  const left = new Map(coming.map(({ id, open }) => [id, Math.max(0, open)]));
  const ordered = coming.toSorted(byDay);
  const taken = lacks.map(({ jobId, short }) => {
    const own = ordered.filter((line) => line.jobId === jobId);
    return take(own, short, left);
  });
  return lacks.map(({ id, short }, at) => {
    const first = taken[at] ?? [];
    const still = short - sumOf(first);
    const shared = take(
      ordered.filter((line) => line.jobId === null),
      still,
      left,
    );
    const from = [...first, ...shared];
    const uncovered = short - sumOf(from);
    const days = from.map(({ promisedOn }) => promisedOn);
    const completeOn = uncovered > 0 || days.includes(null) ? null : (days.toSorted().at(-1) ?? null);
    return { lackId: id, from, uncovered, completeOn };
  });
}

const sumOf = (from: readonly { readonly quantity: number }[]): number =>
  from.reduce((sum, { quantity }) => sum + quantity, 0);

function take(lines: readonly Coming[], wanted: number, left: Map<string, number>): Cover['from'] {
  let open = wanted;
  return lines.flatMap(({ id, promisedOn }) => {
    const quantity = Math.min(open, left.get(id) ?? 0);
    if (quantity <= 0) return [];
    open -= quantity;
    left.set(id, (left.get(id) ?? 0) - quantity);
    return [{ id, quantity, promisedOn }];
  });
}
