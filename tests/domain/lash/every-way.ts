import { chooseShim, type ShimCandidate } from '#domain/lash/choose-shim.ts';
import type { HeadsChoice, ShimmedHead, SizedValve, StoredShims } from '#domain/lash/heads.ts';
import { standingIn } from '#domain/lash/interval.ts';
import { lashWith, type ShimmedValve } from '#domain/lash/shim.ts';

/** What an answer comes to, the first aim first; the lower the better. */
export type Score = readonly number[];

export function compareScores(a: Score, b: Score): number {
  for (const [index, value] of a.entries()) if (value !== b[index]) return value - (b[index] ?? 0);
  return 0;
}

interface Shim {
  /** Which real shim or lot it comes out of. */
  readonly stock: string;
  readonly told: string;
  readonly candidate: ShimCandidate;
}

interface Place {
  readonly head: ShimmedHead;
  readonly valve: SizedValve;
}

const after = (valve: ShimmedValve, shim: ShimCandidate) =>
  shim.source.kind === 'stays' ? valve.lash : lashWith(valve, shim.thickness);

/** The shims that could go into one valve, in the order in which `chooseShim` would take them one after another. */
function inTurn({ head, valve }: Place, stored: readonly StoredShims[]): readonly Shim[] {
  if (valve.lash.high === null) return [];
  const engine = head.valves
    .filter(({ lash }) => lash.high !== null)
    .map((from): Shim => {
      const stays = from.code === valve.code;
      return {
        stock: `${head.name} ${from.code}`,
        told: stays ? `${valve.code} stays` : `${valve.code} from ${from.code}`,
        candidate: {
          source: stays ? { kind: 'stays' } : { kind: 'engine', valve: from.code },
          thickness: from.fitted.measured,
          shimDiameter: from.shimDiameter,
          count: 1,
        },
      };
    });
  const others = stored.map((candidate): Shim => {
    const { source } = candidate;
    return source.kind === 'bin'
      ? { stock: source.lotId, told: `${valve.code} from bin ${source.lotId}`, candidate }
      : { stock: source.partId, told: `${valve.code} bought ${source.partId}`, candidate };
  });
  const found: Shim[] = [];
  let left = [...engine, ...others];
  for (;;) {
    const choice = chooseShim(
      valve,
      left.map(({ candidate }) => candidate),
      valve.makersSizes,
    );
    if (!choice.ok) return found;
    found.push(...left.filter(({ candidate }) => candidate === choice.chosen));
    left = left.filter(({ candidate }) => candidate !== choice.chosen);
  }
}

interface Way {
  readonly score: Score;
  readonly told: readonly string[];
}

/** The best of every way to give each valve a shim or none, told as `IL from bin x`; none is told with its reason. */
export function byTrying(heads: readonly ShimmedHead[], stored: readonly StoredShims[]): readonly string[] {
  const places = heads.flatMap((head) => head.valves.map((valve) => ({ head, valve })));
  const options = places.map((place) => inTurn(place, stored));
  const left = new Map<string, number>();
  for (const shim of options.flat()) left.set(shim.stock, shim.candidate.count);
  let best: Way | undefined;
  const given: (number | undefined)[] = [];
  const goOn = (index: number): void => {
    if (index === places.length) {
      const way = weigh(places, options, given);
      if (best === undefined || compareScores(way.score, best.score) < 0) best = way;
      return;
    }
    for (const [rank, { stock }] of (options[index] ?? []).entries()) {
      const there = left.get(stock) ?? 0;
      if (there === 0) continue;
      left.set(stock, there - 1);
      given[index] = rank;
      goOn(index + 1);
      left.set(stock, there);
    }
    given[index] = undefined;
    goOn(index + 1);
  };
  goOn(0);
  return best?.told ?? [];
}

function weigh(
  places: readonly Place[],
  options: readonly (readonly Shim[])[],
  given: readonly (number | undefined)[],
): Way {
  const shims = places.map((_, index) => options[index]?.[given[index] ?? -1]);
  const told = places.map(
    (place, index) => shims[index]?.told ?? `${place.valve.code}: ${whyNot(place, options[index])}`,
  );
  const ranks = places.map((_, index) => given[index] ?? Number.MAX_SAFE_INTEGER);
  const served = places.map((place, index) => ({ ...place, candidate: shims[index]?.candidate }));
  return { told, score: [...aims(served), ...ranks] };
}

function whyNot({ valve }: Place, options: readonly Shim[] | undefined): string {
  if (valve.lash.high === null) return 'lash-has-no-upper-bound';
  if (options !== undefined && options.length > 0) return 'others-have-them';
  const choice = chooseShim(valve, [], valve.makersSizes);
  return choice.ok ? '' : choice.reason.kind;
}

interface Served extends Place {
  readonly candidate: ShimCandidate | undefined;
}

function aims(served: readonly Served[]): Score {
  const got = served.flatMap(({ valve, candidate }) => {
    if (candidate === undefined) return [];
    const { low, high } = after(valve, candidate);
    const standing = standingIn({ low, high }, valve.range);
    const above = (low + (high ?? 0)) / 2 - valve.wanted;
    const middle = (low + (high ?? 0)) / 2;
    const centred = middle >= valve.range.low && middle <= valve.range.high;
    return standing === 'out' ? [] : [{ from: candidate.source.kind, standing, centred, above }];
  });
  const count = (of: (one: (typeof got)[number]) => boolean) => got.filter(of).length;
  return [
    -count(({ standing }) => standing === 'guaranteed'),
    -got.length,
    -count(({ centred }) => centred),
    count(({ from }) => from === 'buy'),
    count(({ from }) => from === 'bin'),
    got.reduce((sum, { above }) => sum + Math.abs(above), 0),
    -got.reduce((sum, { above }) => sum + above, 0),
    -count(({ from }) => from === 'stays'),
  ];
}

/** What an answer comes to by the aims, without the order of the valves. */
export function countsOf({ valves }: HeadsChoice, heads: readonly ShimmedHead[]): Score {
  const places = heads.flatMap((head) => head.valves.map((valve) => ({ head, valve })));
  return aims(
    places.map((place, index) => {
      const choice = valves[index];
      return { ...place, candidate: choice?.ok ? choice.chosen : undefined };
    }),
  );
}
