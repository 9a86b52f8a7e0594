import { certainty } from './certainty.ts';

type WrittenVerdict = 'within standard' | 'within service limit' | 'undecided' | 'past the limit';

type Bounds = readonly [low: number, high: number];

/** One dimension on paper. */
export interface Line {
  readonly name: string;
  /** What hands do, in order, parted by ";"; none: it is worked out of others. */
  readonly steps: readonly string[];
  /** As it must be shown. */
  readonly found: string;
  readonly u: number;
  readonly standard: Bounds;
  readonly service: Bounds;
  readonly verdict: WrittenVerdict;
  /** How the verdict comes about, written out. */
  readonly arithmetic: string;
}

const boundsOf = (text: string): Bounds => {
  const [low = '', high = ''] = text.split('..');
  return [low === '' ? Number.NEGATIVE_INFINITY : Number(low), high === '' ? Number.POSITIVE_INFINITY : Number(high)];
};

/**
 * A worksheet, one dimension a line, its columns parted by "|": name, what is keyed ("=": worked out), what is found,
 * what u is of (certainty.ts), standard range, service limits ("..": none), verdict, arithmetic with g = 1.65 u.
 */
export const worksheet = (text: string): readonly Line[] =>
  text
    .trim()
    .split('\n')
    .map((line) => {
      const [name = '', keyed = '', found = '', of = '', standard = '', service = '', verdict = '', arithmetic = ''] =
        line.split(' | ');
      const u = certainty[of];
      if (u === undefined) throw new Error(`${name}: nothing is known of ${of}`);
      return {
        name,
        steps: keyed === '=' ? [] : keyed.split(';').map((step) => step.trim()),
        found,
        u,
        standard: boundsOf(standard),
        service: boundsOf(service),
        verdict: verdict as WrittenVerdict,
        arithmetic,
      };
    });

const endsOf = (found: string): Bounds => {
  const [low = Number.NaN, high] = [...found.matchAll(/\d+(\.\d+)?/g)].map(([figure]) => Number(figure));
  return [low, found.endsWith('or more') ? Number.POSITIVE_INFINITY : (high ?? low)];
};

const lessThan = (a: number, b: number) => b - a > 1e-9;

/**
 * The verdict of a line from its own figures, g = 1.65 u kept off (ISO 14253-1:2017): past when even g in its
 * favour leaves it beyond a limit; within when g against it leaves it inside. On a side without a service limit the
 * standard bound is the limit. A span counts by its upper end above and its lower end below, blades by both ends.
 */
export function verdictOf({ found, u, standard, service }: Line): WrittenVerdict {
  if (found === 'play felt') return 'past the limit';
  if (found === 'no play felt') return 'within service limit';
  const [low, high] = endsOf(found);
  const g = 1.65 * u;
  const limit: Bounds = [
    Number.isFinite(service[0]) ? service[0] : standard[0],
    Number.isFinite(service[1]) ? service[1] : standard[1],
  ];
  const blades = u === 0;
  const inside = ([least, most]: Bounds) => !lessThan(most, high + g) && !lessThan(low - g, least);
  const [leastAbove, mostBelow] = blades ? [low, high] : [high, low];
  if (lessThan(limit[1], leastAbove - g) || lessThan(mostBelow + g, limit[0])) return 'past the limit';
  if (blades && high <= limit[0]) return 'past the limit';
  if (!inside(limit)) return 'undecided';
  return inside(standard) ? 'within standard' : 'within service limit';
}
