import { availableToPromise, type Dated, type PromiseDay } from './promise.ts';

/** Pieces of one part that are free on a day, or come in then. */
export interface Supply extends Dated {
  readonly partId: string;
}

/** Pieces that are wanted by a day, and the parts that may serve them, in the order in which they are used up. */
export interface ChainWish extends Dated {
  readonly servedBy: readonly string[];
}

export interface ChainFacts {
  readonly today: string;
  /** The parts that serve the one asked about: along the chain of what replaced it. */
  readonly servedBy: readonly string[];
  /** All that is free (today) or comes in, of every part that shares a chain with it. */
  readonly supplies: readonly Supply[];
  /** All that jobs want of those parts. */
  readonly wishes: readonly ChainWish[];
}

/** Served whenever it comes in. */
const anyDay = '9999-12-31';

/**
 * What can be promised of a part, day by day, where other numbers serve in its place: as many more pieces as the parts of
 * its chain can give for a day, while every wish that is served in time without them still is, and one that is not has
 * its turn before them. For a part alone this is `availableToPromise`.
 */
export function chainToPromise({ today, servedBy, supplies, wishes }: ChainFacts): readonly PromiseDay[] {
  const due = wishes.map((wish) => ({ ...wish, on: notBefore(today, wish.on) }));
  const inTime = serve(due, supplies);
  const late = serve(
    due.map((wish, at) => ({ ...wish, quantity: wish.quantity - countOf(inTime.served[at]), on: anyDay })),
    inTime.left,
  );
  const ofChain = new Set(servedBy);
  const elsewhere = (at: number): number =>
    [inTime, late]
      .flatMap(({ served }) => served[at] ?? [])
      .reduce((sum, { partId, quantity }) => sum + (ofChain.has(partId) ? 0 : quantity), 0);
  const days = availableToPromise({
    today,
    free: 0,
    coming: supplies.filter(({ partId }) => ofChain.has(partId)),
    wanted: due.flatMap(({ on, quantity, servedBy: parts }, at) =>
      parts.some((id) => ofChain.has(id)) ? [{ on, quantity: quantity - elsewhere(at) }] : [],
    ),
  });
  const kept = due.map((wish, at) => ({ ...wish, quantity: countOf(inTime.served[at]) }));
  const overdue = due.map((wish, at) => ({ ...wish, quantity: wish.quantity - countOf(inTime.served[at]) }));
  return days.map((day) => {
    const before = [...kept, ...overdue.map((wish) => ({ ...wish, on: notBefore(day.on, wish.on) }))];
    const more = { servedBy, on: day.on, quantity: Number.POSITIVE_INFINITY };
    return { ...day, promisable: totalOf(serve([...before, more], supplies)) - totalOf(serve(before, supplies)) };
  });
}

const notBefore = (first: string, on: string): string => (on < first ? first : on);

interface Taken {
  readonly partId: string;
  readonly quantity: number;
}

interface Served {
  /** What each wish gets, in the order in which the wishes were given. */
  readonly served: readonly (readonly Taken[])[];
  readonly left: readonly Supply[];
}

/**
 * Serves as many pieces in time as can be: the wish that is due earliest takes first, of its oldest part first. What it
 * takes so, a wish that is due later could use no better than it: one for an older number may be served by all that one
 * for a newer may, and a later day by all that an earlier one is (an exchange of two pieces never serves more).
 */
function serve(wishes: readonly ChainWish[], supplies: readonly Supply[]): Served {
  const left = supplies.map(({ quantity }) => quantity);
  const byPart = new Map<string, number[]>();
  supplies.forEach(({ partId }, at) => {
    byPart.set(partId, [...(byPart.get(partId) ?? []), at]);
  });
  const served = wishes.map((): Taken[] => []);
  const turns = wishes.map((wish, at) => ({ wish, at })).toSorted((a, b) => a.wish.on.localeCompare(b.wish.on));
  for (const { wish, at } of turns) {
    let open = wish.quantity;
    for (const from of wish.servedBy.flatMap((partId) => byPart.get(partId) ?? [])) {
      const supply = supplies[from];
      const quantity = Math.min(open, left[from] ?? 0);
      if (supply === undefined || quantity <= 0 || supply.on > wish.on) continue;
      open -= quantity;
      left[from] = (left[from] ?? 0) - quantity;
      served[at]?.push({ partId: supply.partId, quantity });
    }
  }
  return { served, left: supplies.map((supply, at) => ({ ...supply, quantity: left[at] ?? 0 })) };
}

const countOf = (taken: readonly Taken[] | undefined): number =>
  (taken ?? []).reduce((sum, { quantity }) => sum + quantity, 0);
const totalOf = ({ served }: Served): number => served.reduce((sum, taken) => sum + countOf(taken), 0);
