/** Pieces a job lacks of a part. */
export interface Lack {
  readonly id: string;
  readonly jobId: string;
  /** The parts that may serve it, in the order in which they are used up: its own, and what replaced that. */
  readonly servedBy: readonly string[];
  readonly short: number;
}

/** Pieces of a part still to come on a purchase line: for one job first, or for anybody (null). */
export interface Coming {
  readonly id: string;
  readonly partId: string;
  readonly jobId: string | null;
  readonly open: number;
  /** A day as `2026-11-27`; null: none was given. */
  readonly promisedOn: string | null;
}

export interface Share {
  readonly id: string;
  readonly partId: string;
  readonly quantity: number;
  readonly promisedOn: string | null;
}

export interface Cover {
  readonly lackId: string;
  /** From which lines how many come, in the order in which they come. */
  readonly from: readonly Share[];
  /** Pieces that nothing on order covers. */
  readonly uncovered: number;
  /** The day on which the last of them is promised; null when some have no day or are not on order. */
  readonly completeOn: string | null;
}

const byDay = (a: Coming, b: Coming): number =>
  (a.promisedOn ?? '9999').localeCompare(b.promisedOn ?? '9999') || a.id.localeCompare(b.id);

/**
 * Which lines on order fill which shortages: what was bought for a job is that job's first; what comes for anybody, and
 * what is over of that, goes to the shortages in the order given (earliest promise first), the earliest day first. A line without a day comes last. A
 * shortage is filled by any part that may serve it, and no piece is given twice, under whichever number it is wanted.
 */
export function coverLacks(lacks: readonly Lack[], coming: readonly Coming[]): readonly Cover[] {
  const left = new Map(coming.map(({ id, open }) => [id, Math.max(0, open)]));
  const byPart = new Map<string, Coming[]>();
  for (const line of coming) byPart.set(line.partId, [...(byPart.get(line.partId) ?? []), line]);
  const fitting = ({ servedBy }: Lack): readonly Coming[] =>
    servedBy.flatMap((partId) => byPart.get(partId) ?? []).toSorted(byDay);
  const own = lacks.map((lack) => {
    const bought = fitting(lack).filter(({ jobId }) => jobId === lack.jobId);
    return take(bought, lack.short, left);
  });
  return lacks.map((lack, at) => {
    const first = own[at] ?? [];
    const from = [...first, ...take(fitting(lack), lack.short - sumOf(first), left)];
    const uncovered = lack.short - sumOf(from);
    const completeOn = uncovered > 0 ? null : lastOf(from.map(({ promisedOn }) => promisedOn));
    return { lackId: lack.id, from, uncovered, completeOn };
  });
}

/** The last of ISO days; null when one of them is not known (null), or there are none. */
export const lastOf = (days: readonly (string | null)[]): string | null =>
  days.includes(null) ? null : (days.toSorted().at(-1) ?? null);

const sumOf = (from: readonly Share[]): number => from.reduce((sum, { quantity }) => sum + quantity, 0);

function take(lines: readonly Coming[], wanted: number, left: Map<string, number>): readonly Share[] {
  let open = wanted;
  return lines.flatMap(({ id, partId, promisedOn }) => {
    const quantity = Math.min(open, left.get(id) ?? 0);
    if (quantity <= 0) return [];
    open -= quantity;
    left.set(id, (left.get(id) ?? 0) - quantity);
    return [{ id, partId, quantity, promisedOn }];
  });
}
