import fc from 'fast-check';
import type { RoomName, StaffName } from '../../support/shop.ts';

/** How a count is keyed: as it is, one too few, one too many, or not as a count may be keyed at all. */
export const countings = ['right', 'short', 'over', 'left out', 'twice', 'foreign', 'negative'] as const;
export type Counting = (typeof countings)[number];

/** Counts of trays that are moved: of every loose line, keyed in one way. */
interface Counted {
  readonly trays: readonly string[];
  readonly withEngine: boolean;
  readonly counting: Counting;
  readonly withDifference: boolean;
}

/** Pieces of a line, out of one tray (WITH_ENGINE: from beside the engine), or wherever they lie when none is said. */
interface Taken {
  readonly line: string;
  readonly from: string | undefined;
}
/** The places of its rack that pieces of a line go into or come out of; undefined: nobody says. */
type Places = readonly string[] | undefined;

export const thingActs = ['taken out', 'not found', 'turned up'] as const;
export type ThingAct = (typeof thingActs)[number];

/** One act of one person, resolved: what is asked of the service, in the drill's own keys. */
export type Act = { readonly who: StaffName; readonly engine: 0 | 1 } & (
  | ({ readonly kind: 'take'; readonly bay: RoomName; readonly toBay: RoomName } & Counted)
  | ({ readonly kind: 'leave'; readonly bay: RoomName } & Counted)
  | ({ readonly kind: 'move'; readonly bay: RoomName; readonly to: StaffName | null } & Counted)
  | {
      readonly kind: 'offer';
      readonly receiver: StaffName;
      readonly place: RoomName;
      readonly trays: readonly string[];
      readonly withEngine: boolean;
    }
  | { readonly kind: 'count'; readonly offer: string; readonly tray: string; readonly counting: Counting }
  | { readonly kind: 'accept' | 'withdraw'; readonly offer: string }
  | { readonly kind: 'decline'; readonly offer: string; readonly reason: string }
  | { readonly kind: 'make tray'; readonly alone: boolean }
  | { readonly kind: 'open' }
  | { readonly kind: 'cover'; readonly covered: boolean }
  | {
      readonly kind: 'count off';
      readonly line: string | null;
      readonly layer: boolean;
      readonly oneTime: boolean;
      readonly count: number;
      readonly short: number;
      readonly tray: string | null;
      readonly reason: string;
      /** A new line: its pieces must go back where they came from. */
      readonly inOrder: boolean;
      readonly places: Places;
    }
  | { readonly kind: 'found'; readonly line: string; readonly count: number; readonly places: Places }
  | { readonly kind: 'never there' | 'possibly inside'; readonly line: string; readonly count: number }
  | ({ readonly kind: 'fitted' | 'renewed' | 'accounted'; readonly count: number; readonly places: Places } & Taken)
  | {
      readonly kind: 'fill';
      readonly line: string;
      readonly filled: readonly string[];
      readonly emptied: readonly string[];
    }
  | {
      readonly kind: 'swap';
      readonly line: string;
      readonly one: string;
      readonly other: string;
      readonly reason: string;
    }
  | ({
      readonly kind: 'moved';
      readonly count: number | undefined;
      readonly tray: string;
      readonly places: Places;
    } & Taken)
  | { readonly kind: 'put in'; readonly opening: string; readonly count: number }
  | { readonly kind: ThingAct; readonly thing: string; readonly count: number }
  | { readonly kind: 'look'; readonly search: string; readonly step: string }
  | { readonly kind: 'decide'; readonly search: string }
  | { readonly kind: 'check'; readonly lines: readonly string[] }
  | { readonly kind: 'close'; readonly opening: string; readonly override: boolean }
  | {
      readonly kind: 'send out';
      readonly tray: string | null;
      readonly counting: Counting;
      readonly withDifference: boolean;
    }
  | {
      readonly kind: 'back';
      readonly away: string;
      readonly bay: RoomName;
      readonly counting: Counting;
      readonly withDifference: boolean;
    }
  | { readonly kind: 'discharge'; readonly duty: string }
  | { readonly kind: 'begin run' }
  | { readonly kind: 'leave run' | 'resume run'; readonly run: string }
  | { readonly kind: 'read'; readonly round: 'as received' | 'after work' | 'as built' }
);
export type ActKind = Act['kind'];

/** An act as it is drawn: numbers that are read against what stands when its turn comes, so that a history can shrink. */
export interface Draw {
  readonly kind: ActKind;
  readonly engine: 0 | 1;
  /** The person whose turn it is by the rules; false: whoever `who` says. */
  readonly apt: boolean;
  readonly who: StaffName;
  readonly other: StaffName;
  readonly bay: RoomName;
  readonly otherBay: RoomName;
  readonly pick: number;
  readonly second: number;
  readonly count: number;
  readonly counting: Counting;
  /** Now and then a thing of the other engine: it must be refused. */
  readonly foreign: boolean;
  readonly flag: boolean;
  readonly otherFlag: boolean;
}

/** How often each kind of act is drawn. */
const weights: readonly (readonly [ActKind, number])[] = [
  ['take', 8],
  ['leave', 5],
  ['move', 4],
  ['offer', 10],
  ['count', 16],
  ['accept', 12],
  ['decline', 6],
  ['withdraw', 6],
  ['make tray', 4],
  ['open', 5],
  ['cover', 2],
  ['count off', 16],
  ['found', 6],
  ['never there', 5],
  ['possibly inside', 4],
  ['moved', 7],
  ['put in', 5],
  ['taken out', 6],
  ['not found', 3],
  ['turned up', 3],
  ['look', 12],
  ['decide', 5],
  ['fitted', 6],
  ['fill', 7],
  ['swap', 4],
  ['renewed', 4],
  ['accounted', 7],
  ['check', 7],
  ['close', 12],
  ['send out', 3],
  ['back', 4],
  ['discharge', 9],
  ['read', 1],
  ['begin run', 2],
  ['leave run', 4],
  ['resume run', 5],
];

const staffNames = ['technician', 'colleague', 'lead', 'writer', 'clerk'] as const;
const staff = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom<StaffName>('technician', 'colleague', 'lead') },
  { weight: 1, arbitrary: fc.constantFrom<StaffName>(...staffNames) },
);
const room = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom<RoomName>('assembly', 'rack') },
  { weight: 2, arbitrary: fc.constantFrom<RoomName>('strip', 'measuring') },
);
const counting = fc.oneof(
  { weight: 8, arbitrary: fc.constant<Counting>('right') },
  { weight: 3, arbitrary: fc.constantFrom<Counting>('short', 'over') },
  { weight: 1, arbitrary: fc.constantFrom<Counting>(...countings) },
);
const mostly = (weight: number) =>
  fc.oneof({ weight, arbitrary: fc.constant(true) }, { weight: 1, arbitrary: fc.constant(false) });

export const draws: fc.Arbitrary<Draw> = fc.record<Draw>({
  kind: fc.oneof(...weights.map(([kind, weight]) => ({ weight, arbitrary: fc.constant(kind) }))),
  engine: fc.constantFrom(0, 1),
  apt: mostly(5),
  who: staff,
  other: staff,
  bay: room,
  otherBay: room,
  pick: fc.nat({ max: 999 }),
  second: fc.nat({ max: 999 }),
  count: fc.oneof(
    { weight: 12, arbitrary: fc.integer({ min: 1, max: 5 }) },
    { weight: 1, arbitrary: fc.integer({ min: -2, max: 0 }) },
  ),
  counting,
  foreign: mostly(25).map((usual) => !usual),
  flag: fc.boolean(),
  otherFlag: fc.boolean(),
});
