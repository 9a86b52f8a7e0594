import { type Arc, assign, type Cost, columnOf } from './assignment.ts';
import { byAims, type NoShim, type ShimCandidate, type Trial, tried, whyNone } from './choose-shim.ts';
import { settleInOrder } from './first-in-order.ts';
import { type AllowedRange, type LengthInterval, type RangeStanding, standingIn } from './interval.ts';
import { type ShimmedValve, shimsThatCouldDo, wantedShim } from './shim.ts';

/** A valve, and the thinnest and thickest shim that the maker has for it (nm). */
export interface SizedValve extends ShimmedValve {
  readonly makersSizes: AllowedRange;
}

/** The valves of one head; their codes are unique in it. */
export interface ShimmedHead {
  readonly name: string;
  readonly valves: readonly SizedValve[];
}

/** A place on the shelf or the price list: a bin's lot, or a size that could be bought. */
export type StoredShims = ShimCandidate & { readonly source: { readonly kind: 'bin' | 'buy' } };

export interface ValveName {
  readonly head: string;
  readonly valve: string;
}

export type NoShimInHead =
  | NoShim
  /** Shims that would do are there, but these valves have them, since more valves are in range that way. */
  | { readonly kind: 'others-have-them'; readonly needed: LengthInterval; readonly others: readonly ValveName[] }
  /** Even the thickest blade went in, so nothing can be said: measure again. Its shim stays where it is. */
  | { readonly kind: 'lash-has-no-upper-bound' };

interface Measured extends ValveName {
  readonly wanted: LengthInterval;
  /** How the lash stands as it was measured. */
  readonly before: RangeStanding;
}

export type ChoiceInHead =
  | (Measured & {
      readonly ok: true;
      readonly chosen: ShimCandidate;
      readonly after: LengthInterval;
      readonly standing: Exclude<RangeStanding, 'out'>;
      /** What else would do and is nobody's, the best first; at most three. */
      readonly alternatives: readonly Trial[];
    })
  | (Measured & { readonly ok: false; readonly reason: NoShimInHead });

export interface HeadsChoice {
  /** One for each valve, heads and valves in the order given. */
  readonly valves: readonly ChoiceInHead[];
  /** Valves whose shim comes out and goes into no other. */
  readonly comeOut: readonly ValveName[];
}

const MOST_ALTERNATIVES = 3;

/**
 * One shim for each valve of one head, or of several that draw on the same bins, by these aims in this order: most valves
 * guaranteed in range; most possibly in range; most with the middle of the lash in range; fewest bought; fewest from bins;
 * least Σ|middle of the lash interval − wanted|; looser rather than tighter (greatest Σ(middle − wanted)); most shims left
 * where they are, so that none is moved for nothing; and then the valves in their order, each as well served as
 * `chooseShim` would, so that the answer is unique. A shim moves within its own head only: engines have owners. A valve that nothing brings into range is given none, and counts for no other aim. For shims under and on the bucket
 * alike. Optimal; lengths up to 1 m and 1000 valves stay exact (whole nm). Sources in `stored` must differ from each
 * other. The order of aims is the shop's own; the arithmetic is in `lashWith`.
 */
export function chooseForHeads(heads: readonly ShimmedHead[], stored: readonly StoredShims[]): HeadsChoice {
  const places = placesOf(heads);
  const columns: readonly Column[] = [
    ...places.map(({ valve }) => ({ candidate: undefined, count: open(valve) ? 0 : 1 })),
    ...stored.map((candidate) => ({ candidate, count: candidate.count })),
  ];
  const trials = places.map((place) => trialsAt(place, places, columns));
  const none = (index: number) => columns.length + index;
  const rows = trials.map((tries, index): readonly Arc[] => [
    ...tries.map(({ trial, column }) => ({ column, cost: costOf(trial, places[index], places.length) })),
    { column: none(index), cost: costOf(undefined, places[index], places.length) },
  ]);
  const assignment = assign(rows, [...columns.map(({ count }) => count), ...places.map(() => 1)]);
  settleInOrder(assignment);
  const taken = places.map((_, index) => columnOf(assignment, index));
  return answerOf({ places, columns, trials, taken });
}

interface Place {
  readonly head: ShimmedHead;
  readonly valve: SizedValve;
}

/** Where shims come from: first the valves in their order, then what is stored. */
interface Column {
  readonly candidate: StoredShims | undefined;
  readonly count: number;
}

interface TrialAt {
  readonly trial: Trial;
  readonly column: number;
}

const placesOf = (heads: readonly ShimmedHead[]): readonly Place[] =>
  heads.flatMap((head) => head.valves.map((valve) => ({ head, valve })));

const open = ({ lash }: ShimmedValve): boolean => lash.high === null;

function engineShim(from: Place, at: Place): ShimCandidate {
  const { code, fitted, shimDiameter } = from.valve;
  return {
    source: from === at ? { kind: 'stays' } : { kind: 'engine', valve: code },
    thickness: fitted.measured,
    shimDiameter,
    count: 1,
  };
}

/** Everything that could bring a valve into range, the best first. */
function trialsAt(at: Place, places: readonly Place[], columns: readonly Column[]): readonly TrialAt[] {
  if (open(at.valve)) return [];
  const trials: TrialAt[] = [];
  for (const [column, { candidate, count }] of columns.entries()) {
    const from = places[column];
    const shim = candidate ?? (from?.head === at.head ? engineShim(from, at) : undefined);
    if (shim === undefined || count < 1 || shim.shimDiameter !== at.valve.shimDiameter) continue;
    const trial = tried(at.valve, shim);
    if (trial.standing !== 'out') trials.push({ trial, column });
  }
  return trials.sort((a, b) => byAims(a.trial, b.trial, at.valve.wanted));
}

/** The aims as a cost: five counts in one number (each less than the base), twice the distance, tightness with who stays. */
function costOf(trial: Trial | undefined, place: Place | undefined, valves: number): Cost {
  const base = valves + 1;
  const places = (counts: readonly boolean[]) => counts.reduce((sum, counted) => sum * base + Number(counted), 0);
  if (trial === undefined || trial.after.high === null) return [places([true, true, true, false, false]), 0, 0];
  const { kind } = trial.candidate.source;
  const above = trial.after.low + trial.after.high - 2 * (place?.valve.wanted ?? 0);
  return [
    places([trial.standing !== 'guaranteed', false, !trial.centred, kind === 'buy', kind === 'bin']),
    Math.abs(above),
    -above * base - Number(kind === 'stays'),
  ];
}

interface Settled {
  readonly places: readonly Place[];
  readonly columns: readonly Column[];
  readonly trials: readonly (readonly TrialAt[])[];
  /** The column of each valve. */
  readonly taken: readonly number[];
}

function answerOf(settled: Settled): HeadsChoice {
  const { places, columns, taken } = settled;
  const left = columns.map(({ count }, column) => count - taken.filter((one) => one === column).length);
  // A shim is free for others only once another one is in its place.
  const comesOut = (index: number) => left[index] === 1 && (taken[index] ?? 0) < columns.length;
  const free = (column: number) => (column < places.length ? comesOut(column) : (left[column] ?? 0) > 0);
  return {
    valves: places.map((place, index) => choiceAt(settled, { place, index, free })),
    comeOut: places.filter((_, index) => comesOut(index)).map(nameOf),
  };
}

const nameOf = ({ head, valve }: Place): ValveName => ({ head: head.name, valve: valve.code });

function choiceAt(
  settled: Settled,
  of: { readonly place: Place; readonly index: number; readonly free: (column: number) => boolean },
): ChoiceInHead {
  const { place, index, free } = of;
  const { valve } = place;
  const trials = settled.trials[index] ?? [];
  const measured = {
    ...nameOf(place),
    wanted: wantedShim(valve.fitted.measured, valve.lash, valve.wanted),
    before: standingIn(valve.lash, valve.range),
  };
  const chosen = trials.find(({ column }) => column === settled.taken[index])?.trial;
  if (chosen === undefined || chosen.standing === 'out') {
    return { ok: false, ...measured, reason: reasonFor(settled, place, trials) };
  }
  const alternatives = trials
    .filter(({ trial, column }) => trial !== chosen && free(column))
    .slice(0, MOST_ALTERNATIVES)
    .map(({ trial }) => trial);
  const { candidate, after, standing } = chosen;
  return { ok: true, ...measured, chosen: candidate, after, standing, alternatives };
}

function reasonFor({ places, taken }: Settled, { valve }: Place, trials: readonly TrialAt[]): NoShimInHead {
  if (open(valve)) return { kind: 'lash-has-no-upper-bound' };
  if (trials.length === 0) return whyNone(valve, valve.makersSizes);
  const others = places.filter((_, index) => trials.some(({ column }) => column === taken[index])).map(nameOf);
  return { kind: 'others-have-them', needed: shimsThatCouldDo(valve), others };
}
