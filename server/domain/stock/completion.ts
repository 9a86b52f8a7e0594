import { type Coming, coverLacks, type Lack } from './cover.ts';
import { daysLater } from './promise.ts';

/** What holds a line back: nothing (it lies in stock), what is on order, what would have to be ordered, or who knows. */
export type Basis = 'in stock' | 'on order' | 'if ordered' | 'no date';

export interface LineReady {
  readonly lackId: string;
  /** The day on which all of it can be here; null: nothing tells. */
  readonly on: string | null;
  readonly basis: Basis;
}

export interface PartFacts {
  readonly today: string;
  /** Pieces of the part that are free now. */
  readonly free: number;
  readonly coming: readonly Coming[];
  /** How long the part took from order to delivery, on the average; null when none was ever delivered. */
  readonly leadDays: number | null;
}

/**
 * When what jobs still want of one part can be here, in the order given (earliest promise first): from free stock, then
 * from what is on order (coverLacks), then as if it were ordered today. A line on order whose day has passed has no day
 * any more.
 */
export function readyDays(lacks: readonly Lack[], { today, free, coming, leadDays }: PartFacts): readonly LineReady[] {
  let left = free;
  const rest = lacks.map((lack) => {
    const got = Math.min(left, lack.short);
    left -= got;
    return { ...lack, short: lack.short - got };
  });
  const dated = coming.map((line) => (line.promisedOn !== null && line.promisedOn < today ? undated(line) : line));
  return coverLacks(rest, dated).map(({ lackId, from, uncovered, completeOn }, at): LineReady => {
    if (rest[at]?.short === 0) return { lackId, on: today, basis: 'in stock' };
    if (completeOn !== null) return { lackId, on: completeOn, basis: 'on order' };
    const unknown = from.some(({ promisedOn }) => promisedOn === null);
    if (unknown || uncovered === 0 || leadDays === null) return { lackId, on: null, basis: 'no date' };
    const ordered = daysLater(today, leadDays);
    return { lackId, on: from.reduce((last, { promisedOn }) => later(last, promisedOn), ordered), basis: 'if ordered' };
  });
}

const undated = (line: Coming): Coming => ({ ...line, promisedOn: null });
const later = (a: string, b: string | null): string => (b !== null && b > a ? b : a);

const weakest: readonly Basis[] = ['in stock', 'on order', 'if ordered', 'no date'];

/** When a kit is complete: on the last day of its lines, with no more certainty than the least certain of them. */
export function kitReady(
  today: string,
  lines: readonly LineReady[],
): { readonly on: string | null; readonly basis: Basis } {
  const basis = weakest.findLast((word) => lines.some((line) => line.basis === word)) ?? 'in stock';
  if (basis === 'no date') return { on: null, basis };
  return { on: lines.reduce((last, { on }) => later(last, on), today), basis };
}
