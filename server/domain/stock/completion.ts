import { type Coming, coverLacks, type Lack } from './cover.ts';
import { daysLater } from './promise.ts';

/** What holds a line back: nothing (it lies in stock), what is on order, what would have to be ordered, or who knows. */
export type Basis = 'in stock' | 'on order' | 'if ordered' | 'no date';

/** Pieces of one part that a line is promised; `partId` is the wanted part or one that serves in its place. */
export interface Promised {
  readonly partId: string;
  readonly quantity: number;
}

export interface LineReady {
  readonly lackId: string;
  /** The day on which all of it can be here; null: nothing tells. */
  readonly on: string | null;
  readonly basis: Basis;
  /** From stock and from what is on order, by part. */
  readonly from: readonly Promised[];
}

export interface StockFacts {
  readonly today: string;
  /** Pieces that are free now, by part. */
  readonly free: ReadonlyMap<string, number>;
  readonly coming: readonly Coming[];
  /** How long a part took from order to delivery, on the average; a part that was never delivered is left out. */
  readonly leadDays: ReadonlyMap<string, number>;
}

/**
 * When what jobs still want can be here, in the order given (earliest promise first): from free stock, each wish from the
 * parts that serve it as they are used up, then from what is on order (coverLacks), then as if the newest of its parts
 * were ordered today. A line on order whose day has passed has no day any more. No piece is promised twice, under
 * whichever number it is wanted.
 */
export function readyDays(lacks: readonly Lack[], facts: StockFacts): readonly LineReady[] {
  const { today, coming, leadDays } = facts;
  const left = new Map(facts.free);
  const inStock = lacks.map((lack) => takeFree(lack, left));
  const rest = lacks.map((lack, at) => ({ ...lack, short: lack.short - sumOf(inStock[at] ?? []) }));
  const dated = coming.map((line) => (line.promisedOn !== null && line.promisedOn < today ? undated(line) : line));
  return coverLacks(rest, dated).map(({ lackId, from: lines, uncovered, completeOn }, at): LineReady => {
    const from = together([...(inStock[at] ?? []), ...lines]);
    if (rest[at]?.short === 0) return { lackId, on: today, basis: 'in stock', from };
    if (completeOn !== null) return { lackId, on: completeOn, basis: 'on order', from };
    const lead = leadDays.get(rest[at]?.servedBy.at(-1) ?? '');
    const unknown = lines.some(({ promisedOn }) => promisedOn === null);
    if (unknown || uncovered === 0 || lead === undefined) return { lackId, on: null, basis: 'no date', from };
    const ordered = daysLater(today, lead);
    const on = lines.reduce((last, { promisedOn }) => later(last, promisedOn), ordered);
    return { lackId, on, basis: 'if ordered', from };
  });
}

function takeFree({ servedBy, short }: Lack, left: Map<string, number>): readonly Promised[] {
  let open = short;
  return servedBy.flatMap((partId) => {
    const quantity = Math.min(open, left.get(partId) ?? 0);
    if (quantity <= 0) return [];
    open -= quantity;
    left.set(partId, (left.get(partId) ?? 0) - quantity);
    return [{ partId, quantity }];
  });
}

function together(shares: readonly Promised[]): readonly Promised[] {
  const byPart = new Map<string, number>();
  for (const { partId, quantity } of shares) byPart.set(partId, (byPart.get(partId) ?? 0) + quantity);
  return [...byPart].map(([partId, quantity]) => ({ partId, quantity }));
}

const sumOf = (shares: readonly Promised[]): number => shares.reduce((sum, { quantity }) => sum + quantity, 0);
const undated = (line: Coming): Coming => ({ ...line, promisedOn: null });
const later = (a: string, b: string | null): string => (b !== null && b > a ? b : a);

const weakest: readonly Basis[] = ['in stock', 'on order', 'if ordered', 'no date'];

/** When a kit is complete: on the last day of its lines, with no more certainty than the least certain of them. */
export function kitReady(
  today: string,
  lines: readonly Omit<LineReady, 'from'>[],
): { readonly on: string | null; readonly basis: Basis } {
  const basis = weakest.findLast((word) => lines.some((line) => line.basis === word)) ?? 'in stock';
  if (basis === 'no date') return { on: null, basis };
  return { on: lines.reduce((last, { on }) => later(last, on), today), basis };
}
