import type { RoomName, StaffName } from '../../support/shop.ts';
import type { RackedPiece } from './rack.ts';

/** What the drill believes: everything named by keys of its own, since the service's ids are not known before it answers. */
export type Holder = { readonly person: StaffName } | { readonly bay: RoomName } | { readonly vendor: true };

export interface Held {
  readonly holder: Holder;
  readonly place: RoomName | null;
}

export interface TrayBelief {
  readonly key: string;
  readonly alone: boolean;
  held: Held;
}

/** Where loose pieces lie that are in no tray. */
export const WITH_ENGINE = '';

/** One line of the tally. `lies`: how many of its loose pieces lie in which tray, or with the engine. */
export interface LineBelief {
  readonly key: string;
  readonly opening: string;
  readonly layer: 'cover' | null;
  readonly oneTime: boolean;
  expected: number;
  off: number;
  fitted: number;
  renewed: number;
  accounted: number;
  /** Declared possibly inside: the search for them goes on. */
  inside: number;
  lies: Map<string, number>;
  /** Its places, when its pieces are kept in order. */
  readonly rack: RackedPiece[];
  /** Who put back, renewed or accounted for any of it, or changed places of its rack. */
  workedBy: StaffName[];
  /** Ticked in the closing check since anything was last done to it. */
  checked: boolean;
  /** When it last came off, among the lines of this engine. */
  offAt: number;
}

/** Rags, plugs or tools put into an open engine. */
export interface ThingBelief {
  readonly key: string;
  readonly opening: string;
  readonly count: number;
  cameOut: number;
  notFound: number;
  actedBy: StaffName[];
  checked: boolean;
  readonly offAt: number;
}

/** A search for what may be inside: for a line of the tally, or for a thing put in. */
export interface SearchBelief {
  readonly key: string;
  readonly of: string;
  /** The obligation that goes with it, and ends with it. */
  readonly duty: string;
  readonly ticks: string[];
  ended: 'found' | 'not inside' | null;
}

export interface OfferedLine {
  readonly line: string | null;
  readonly given: number;
  counted: number | null;
  /** Whether a count of it differed: that opened an obligation, whatever was counted after. */
  differed: boolean;
}

export interface OfferBelief {
  readonly key: string;
  readonly giver: StaffName;
  readonly receiver: StaffName;
  readonly place: RoomName;
  readonly engine: boolean;
  readonly trays: { readonly tray: string; attempts: number; readonly lines: OfferedLine[] }[];
  ended: boolean;
}

/** An obligation nobody has discharged. `miscount`: which count of which piece in which tray, said once while it stands. */
export interface DutyBelief {
  readonly key: string;
  readonly inside: boolean;
  /** The line whose shortness raised it on the tally: it ends when the line is whole. */
  readonly tallyLine: string | null;
  readonly miscount: string | null;
}

export interface AwayBelief {
  readonly key: string;
  /** The tray that is away; null: the engine itself. */
  readonly tray: string | null;
  back: boolean;
}

/** The procedure that runs on the engine's job, and whether it was left in the middle. */
export interface RunBelief {
  readonly key: string;
  left: boolean;
}

export interface EngineBelief {
  held: Held;
  opening: { readonly key: string; covered: boolean } | null;
  readonly closed: string[];
  readonly lines: LineBelief[];
  readonly things: ThingBelief[];
  readonly searches: SearchBelief[];
  readonly trays: TrayBelief[];
  readonly offers: OfferBelief[];
  duties: DutyBelief[];
  /** Counts kept as something moved: each that differed, and those after it while that is not settled. */
  countsKept: number;
  readonly away: AwayBelief[];
  readonly rounds: string[];
  run: RunBelief | null;
  turns: number;
}

export interface Belief {
  readonly engines: readonly [EngineBelief, EngineBelief];
}

export const BENCH: ReadonlySet<StaffName> = new Set(['technician', 'colleague', 'lead']);

export const freshBelief = (): Belief => ({ engines: [freshEngine(), freshEngine()] });

const freshEngine = (): EngineBelief => ({
  held: { holder: { bay: 'rack' }, place: 'rack' },
  opening: null,
  closed: [],
  lines: [],
  things: [],
  searches: [],
  trays: [],
  offers: [],
  duties: [],
  countsKept: 0,
  away: [],
  rounds: [],
  run: null,
  turns: 0,
});

export const looseOf = (line: LineBelief): number => line.off - line.fitted - line.renewed - line.accounted;
export const missingOf = (line: LineBelief): number => Math.max(0, line.expected - line.off);

/** Whoever puts a line back or changes places of its rack does not tick it in the closing check. */
export const workedOn = (line: LineBelief, who: StaffName): void => {
  if (!line.workedBy.includes(who)) line.workedBy.push(who);
};

/** What lies loose in a tray, line by line, whatever opening it came from. */
export const looseIn = (engine: EngineBelief, tray: string): readonly LineBelief[] =>
  engine.lines.filter((line) => lyingIn(line, tray) > 0);

export const lyingIn = (line: LineBelief, tray: string): number => line.lies.get(tray) ?? 0;

/** A line of the closing check: pieces that came off, or something put in. */
interface CheckLine {
  readonly of: LineBelief | ThingBelief;
  readonly open: number;
  readonly doneBy: readonly StaffName[];
}

/** What came off or was put in since the engine was opened, the last first; of some lines nothing was there to come off. */
export const lastOffFirst = ({ opening, lines, things }: EngineBelief): readonly (LineBelief | ThingBelief)[] =>
  [...lines, ...things].filter((each) => each.opening === opening?.key).toSorted((a, b) => b.offAt - a.offAt);

/** The closing check of the opening that stands, the last removed first. */
export function toCheck(engine: EngineBelief): readonly CheckLine[] {
  const isHere = ({ opening }: { readonly opening: string }) => opening === engine.opening?.key;
  const lines = engine.lines
    .filter((line) => isHere(line) && line.off > 0)
    .map((line) => ({ of: line, open: looseOf(line) + missingOf(line), doneBy: line.workedBy }));
  const things = engine.things
    .filter(isHere)
    .map((thing) => ({ of: thing, open: thing.count - thing.cameOut, doneBy: thing.actedBy }));
  return [...lines, ...things].toSorted((a, b) => b.of.offAt - a.of.offAt);
}

export const openOffers = (engine: EngineBelief): readonly OfferBelief[] => engine.offers.filter(({ ended }) => !ended);

export const isOffered = (engine: EngineBelief, of: { engine: boolean; trays: readonly string[] }): boolean =>
  openOffers(engine).some(
    (offer) => (of.engine && offer.engine) || offer.trays.some(({ tray }) => of.trays.includes(tray)),
  );

export const isHeldBy = (held: Held, person: StaffName): boolean =>
  'person' in held.holder && held.holder.person === person;

/** Trays whose counts somebody must not see: offered, not counted by their receiver yet, and not their own offer. */
export const blindTo = (engine: EngineBelief, who: StaffName): readonly OfferBelief['trays'][number][] =>
  openOffers(engine)
    .filter(({ giver }) => giver !== who)
    .flatMap(({ trays }) => trays.filter(({ attempts }) => attempts === 0));
