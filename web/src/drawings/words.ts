import type { SectionDepth } from '#domain/section/depth.ts';
import type { StockState } from './stock-state.ts';
import type { VerdictKind } from './verdict-kind.ts';

/** Every word a drawing says or letters. The app passes its own; these are the English ones. */
export type DrawingWords = {
  readonly section: {
    readonly fourStroke: string;
    readonly twoStroke: string;
    readonly depth: Readonly<Record<SectionDepth, string>>;
    readonly covered: string;
    readonly uncovered: string;
  };
  readonly verdict: Readonly<Record<VerdictKind, string>>;
  readonly stock: Readonly<Record<StockState, string>>;
  readonly strip: {
    readonly standard: (from: string, to: string) => string;
    readonly atLeast: (limit: string) => string;
    readonly atMost: (limit: string) => string;
    readonly interval: (goes: string, doesNot: string) => string;
    readonly nothingGoes: (doesNot: string) => string;
    readonly allGo: (goes: string) => string;
  };
  readonly bore: {
    readonly map: (outOfRound: string, taper: string) => string;
    readonly nothingMeasured: string;
    readonly nominal: (size: string) => string;
    readonly heights: readonly [string, string];
    readonly taper: (value: string) => string;
    readonly outOfRound: (value: string, level: string | null) => string;
    readonly across: string;
    readonly along: string;
    readonly acrossShort: string;
    readonly alongShort: string;
    readonly form: (magnification: number) => string;
  };
  readonly rings: {
    readonly clock: (gaps: string) => string;
    readonly gap: (name: string, degrees: number) => string;
    readonly gapInZone: (name: string, degrees: number) => string;
    readonly exhaust: string;
    readonly intake: string;
    readonly pin: string;
  };
  readonly bolts: {
    readonly map: (count: number, stage: number, stages: number, next: string | null) => string;
    readonly bolt: (number: string, done: number, stages: number, next: boolean) => string;
  };
  readonly lash: {
    readonly board: (valves: string) => string;
    readonly exhaust: string;
    readonly intake: string;
    readonly lash: string;
    readonly out: string;
    readonly shimIn: string;
    readonly thenLash: string;
    readonly turn: string;
    readonly between: (from: string, to: string) => string;
  };
  readonly rack: {
    readonly board: (piece: string, places: string) => string;
    readonly filled: (place: string) => string;
    readonly empty: (place: string) => string;
    readonly hidden: (place: string) => string;
    readonly wrong: (place: string, from: string) => string;
    readonly elsewhere: (place: string, where: string) => string;
    readonly from: (place: string) => string;
    readonly exhaust: string;
    readonly intake: string;
  };
  readonly wear: {
    readonly chart: (limit: string, hours: string | null) => string;
    readonly limit: (value: string) => string;
    readonly hours: string;
    readonly left: (from: number, to: number) => string;
  };
  readonly position: {
    readonly now: string;
    readonly none: string;
    readonly asked: (what: string, position: string) => string;
    readonly allDone: (what: string) => string;
    readonly bore: string;
    readonly piston: string;
    readonly flatness: string;
    readonly ringGap: string;
    readonly pin: string;
  };
};

const between = (from: string, to: string) => `${from} – ${to}`;

export const englishWords: DrawingWords = {
  section: {
    fourStroke: 'four-stroke single',
    twoStroke: 'two-stroke single',
    depth: {
      closed: 'closed',
      cover: 'cover off',
      head: 'head off',
      cylinder: 'cylinder off',
      case: 'case open',
    },
    covered: 'covered',
    uncovered: 'uncovered',
  },
  verdict: {
    'within standard': 'within standard',
    'within service limit': 'within service limit',
    'past the limit': 'past the limit',
    undecided: 'undecided',
    'not measured': 'not measured',
  },
  stock: {
    'pick-now': 'pick now',
    reserved: 'reserved',
    short: 'short',
    issued: 'issued',
    cancelled: 'cancelled',
    'not-asked': 'not asked yet',
  },
  strip: {
    standard: (from, to) => `standard ${from} to ${to}`,
    atLeast: (limit) => `limit at least ${limit}`,
    atMost: (limit) => `limit at most ${limit}`,
    interval: (goes, doesNot) => `${goes} goes, ${doesNot} does not`,
    nothingGoes: (doesNot) => `${doesNot} does not go`,
    allGo: (goes) => `${goes} goes`,
  },
  bore: {
    map: (outOfRound, taper) => `bore map: out-of-round ${outOfRound}, taper ${taper}`,
    nothingMeasured: 'bore map: nothing measured yet',
    nominal: (size) => `⌀ nominal ${size}`,
    heights: ['section, heights in mm', 'from the deck'],
    taper: (value) => `taper ${value}`,
    outOfRound: (value, level) => (level === null ? `out-of-round ${value}` : `out-of-round ${value} at ${level}`),
    across: 'across the pin',
    along: 'along the pin',
    acrossShort: 'across',
    alongShort: 'along',
    form: (magnification) => `form × ${magnification}`,
  },
  rings: {
    clock: (gaps) => `ring gaps: ${gaps}`,
    gap: (name, degrees) => `${name} ${degrees}°`,
    gapInZone: (name, degrees) => `${name} ${degrees}°, in a forbidden zone`,
    exhaust: 'exhaust side',
    intake: 'intake side',
    pin: 'pin',
  },
  bolts: {
    map: (count, stage, stages, next) =>
      `bolt map, ${count} bolts, stage ${stage} of ${stages}${next === null ? ', done' : `, next ${next}`}`,
    bolt: (number, done, stages, next) => `bolt ${number}, ${done} of ${stages} stages done${next ? ', next' : ''}`,
  },
  lash: {
    board: (valves) => `lash board: ${valves}`,
    exhaust: 'exhaust',
    intake: 'intake',
    lash: 'lash',
    out: 'out',
    shimIn: 'shim in',
    thenLash: 'then lash',
    turn: 'turn the screw',
    between,
  },
  rack: {
    board: (piece, places) => `rack of ${piece}: ${places}`,
    filled: (place) => `${place}, filled`,
    empty: (place) => `${place}, empty`,
    hidden: (place) => `${place}, not shown before it is counted`,
    wrong: (place, from) => `${place} from ${from}: in the wrong place`,
    elsewhere: (place, where) => `${place}, filled, lies elsewhere: ${where}`,
    from: (place) => `from ${place}`,
    exhaust: 'exhaust',
    intake: 'intake',
  },
  wear: {
    chart: (limit, hours) => `wear over the hours, service limit ${limit}${hours === null ? '' : `, ${hours}`}`,
    limit: (value) => `service limit ${value}`,
    hours: 'engine hours',
    left: (from, to) => `${from} to ${to} h left`,
  },
  position: {
    now: 'now',
    none: '–',
    asked: (what, position) => `${what}: measure at ${position}`,
    allDone: (what) => `${what}: every position measured`,
    bore: 'bore',
    piston: 'piston',
    flatness: 'flatness',
    ringGap: 'ring end gap',
    pin: 'pin',
  },
};
