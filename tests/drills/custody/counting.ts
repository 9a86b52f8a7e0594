import type { Counting } from './acts.ts';

export interface ToCount {
  readonly key: string;
  readonly there: number;
}
interface Keyed {
  readonly key: string;
  readonly counted: number;
}

/** What somebody keys of some lines, by the way they count. The key of a piece that is nowhere: 'nothing'. */
export function keyedCounts(lines: readonly ToCount[], counting: Counting): readonly Keyed[] {
  const right = lines.map(({ key, there }) => ({ key, counted: there }));
  const [first, ...others] = right;
  if (counting === 'foreign') return [...right, { key: 'nothing', counted: 1 }];
  if (first === undefined) return right;
  switch (counting) {
    case 'right':
      return right;
    case 'short':
      return [{ ...first, counted: Math.max(0, first.counted - 1) }, ...others];
    case 'over':
      return [{ ...first, counted: first.counted + 1 }, ...others];
    case 'left out':
      return others;
    case 'twice':
      return [...right, first];
    case 'negative':
      return [{ ...first, counted: -1 }, ...others];
  }
}

/** What is wrong with a count as such, whatever it finds. */
export function faultOfCounting(lines: readonly ToCount[], counting: Counting): 400 | 422 | undefined {
  if (counting === 'foreign') return 422;
  if (lines.length === 0) return undefined;
  if (counting === 'negative') return 400;
  return counting === 'left out' || counting === 'twice' ? 422 : undefined;
}

/** The lines on which what was keyed and the book disagree. */
export const differing = (lines: readonly ToCount[], keyed: readonly Keyed[]): readonly (Keyed & { there: number })[] =>
  keyed.flatMap(({ key, counted }) => {
    const there = lines.find((line) => line.key === key)?.there ?? 0;
    return counted === there ? [] : [{ key, counted, there }];
  });
