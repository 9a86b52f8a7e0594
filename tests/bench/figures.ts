/** One figure of a benchmark, as `--json` prints it. */
export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
}

export const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
};

/** Milliseconds that something took. */
export async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

/**
 * Median milliseconds of several ways to do the same thing, taken in turns so that a noisy machine disturbs them alike.
 * `before` runs ahead of each try and is not timed.
 */
export async function medians<Name extends string>(
  runs: number,
  ways: Readonly<Record<Name, () => Promise<unknown>>>,
  before: () => Promise<unknown> = async () => undefined,
): Promise<Record<Name, number>> {
  const names = Object.keys(ways) as Name[];
  const taken = new Map<Name, number[]>(names.map((name) => [name, []]));
  for (let run = -20; run < runs; run += 1) {
    for (const name of names) {
      await before();
      const milliseconds = await timed(ways[name]);
      if (run >= 0) taken.get(name)?.push(milliseconds);
    }
  }
  return Object.fromEntries(names.map((name) => [name, median(taken.get(name) ?? [])])) as Record<Name, number>;
}
