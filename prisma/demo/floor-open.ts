import { placeRings, prove, pull } from './assembly.ts';
import type { BayKey } from './bays.ts';
import { type Bench, benchOf } from './bench.ts';
import { answer, labour, sendQuote } from './counter.ts';
import type { Floor } from './floor.ts';
import { measureUndecided } from './floor-measured.ts';
import { follow, type Run, startProcedure } from './following.ts';
import { accept, offer } from './handovers.ts';
import { issue, type JobParts, partsOf, reserve, wantKit } from './job-parts.ts';
import { beforeOpening, lashes, measure, topEnd } from './measuring.ts';
import { decide } from './obligations.ts';
import type { PersonKey } from './people.ts';
import { close, cover, type Opening, open, putBack, strip } from './tally.ts';
import { assignBay, fitPart, moveWithTrays, promise, takeIn, type Visit } from './visit.ts';
import { known } from './world.ts';

export interface Arrival {
  readonly serial: string;
  readonly number: number;
  readonly hours: number;
  readonly day: number;
  readonly time: string;
  readonly complaint: string;
  readonly wishes?: string;
  readonly bay?: BayKey;
}

export interface Told {
  readonly visit: Visit;
  readonly bench: Bench;
  readonly parts: JobParts;
}

const minutes = (count: number): number => count * 60_000;

export function arrive(floor: Floor, of: Arrival): Told {
  const { world, stock, when } = floor;
  const at = when(of.day, of.time);
  const visit = takeIn(world, known(floor.engines, of.serial), {
    number: of.number,
    hours: of.hours,
    complaint: of.complaint,
    bay: of.bay ?? 'rack',
    at,
    by: 'idris',
    ...(of.wishes === undefined ? {} : { wishes: of.wishes }),
  });
  const bench = benchOf(visit, 22.5);
  measure(bench, { dimensions: beforeOpening, round: 'as received', at: at + minutes(12), by: 'oskar' });
  return { visit, bench, parts: partsOf(visit, stock) };
}

export interface Opened {
  readonly opening: Opening;
  readonly run: Run;
}

export interface Opens {
  readonly by: PersonKey;
  readonly at: number;
  readonly bay?: BayKey;
  /** How far the lash has closed; left out: a little. */
  readonly lashWorn?: number;
  /** The last step of the strip procedure that is done; left out: all are. */
  readonly until?: string;
  /** Minutes for all of it. */
  readonly within?: number;
  readonly answers?: Readonly<Record<string, string>>;
  readonly fewer?: Readonly<Record<string, number>>;
}

/** Taken to the strip bay and opened as far as said, lash read on the way. */
export function openUp({ visit, bench }: Told, of: Opens): Opened {
  const { by, at } = of;
  const bay = of.bay ?? 'strip';
  moveWithTrays(visit, { person: by, in: bay }, { at: at - minutes(2), by }, { reason: 'taken from the bay' });
  const opening = open(visit, { at, by });
  const run = startProcedure(visit, 'STRIP', { at: at + minutes(1), by });
  const times = strip(opening, run, {
    at: at + minutes(2),
    by,
    within: of.within ?? 90,
    holder: { person: by, in: bay },
    ...(of.until === undefined ? {} : { until: of.until }),
    ...(of.answers === undefined ? {} : { answers: of.answers }),
    ...(of.fewer === undefined ? {} : { fewer: of.fewer }),
  });
  const lashAt = times.get('Measure the lash');
  if (lashAt !== undefined)
    measure(bench, {
      dimensions: lashes,
      round: 'as received',
      at: lashAt - minutes(5),
      by,
      apart: 1,
      worn: of.lashWorn ?? 0.3,
    });
  return { opening, run };
}

/** Dimensions with an obligation still open. */
export const undecidedOf = ({ bench }: Told): readonly string[] => [
  ...new Set(bench.obligations.filter(({ discharged }) => !discharged).map(({ dimension }) => dimension)),
];

/** Halden 388 0122: cover off in the strip bay, left uncovered. */
export function coverOffUncovered(floor: Floor): void {
  const { when } = floor;
  const told = arrive(floor, {
    serial: 'H388-0122',
    number: 2421,
    hours: 176,
    day: -1,
    time: '14:20',
    complaint: 'Down on power since the last race, ticks when hot',
  });
  promise(told.visit, floor.world.clock.day(11), { at: when(-1, '14:40'), by: 'idris' });
  assignBay(told.visit, 'strip', { at: when(-1, '14:41'), by: 'idris' });
  const { opening } = openUp(told, {
    by: 'oskar',
    at: when(0, '08:40') + minutes(2),
    until: 'Measure the lash',
    within: 64,
  });
  cover(opening, true, { at: when(0, '09:36'), by: 'oskar' });
  cover(opening, false, { at: when(0, '10:28'), by: 'oskar' });
}

/** Halden 355 0417: cylinder off in the measuring bay, its bore too near the limit to tell. */
export function boreUndecided(floor: Floor): void {
  const { when, world } = floor;
  const told = arrive(floor, {
    serial: 'H355-0417',
    number: 2418,
    hours: 243,
    day: -2,
    time: '07:31',
    complaint: 'Hard to start hot, smokes on the overrun',
    wishes: 'Keep it cheap if the bore allows it',
    bay: 'rack',
  });
  const { visit, bench } = told;
  promise(visit, world.clock.day(7), { at: when(-2, '07:36'), by: 'idris' });
  const { opening } = openUp(told, { by: 'oskar', at: when(-2, '07:44'), within: 95 });
  cover(opening, true, { at: when(-2, '09:24'), by: 'oskar' });
  moveWithTrays(visit, { bay: 'wash' }, { at: when(-2, '09:30'), by: 'oskar' }, { reason: 'left in the bay' });
  moveWithTrays(
    visit,
    { person: 'oskar', in: 'wash' },
    { at: when(-1, '16:10'), by: 'oskar' },
    { reason: 'taken from the bay' },
  );
  assignBay(visit, 'measuring', { at: when(-1, '17:02'), by: 'maren' });
  const offered = offer(visit, opening, {
    to: 'nadia',
    by: 'oskar',
    bay: 'measuring',
    withEngine: true,
    at: when(0, '09:02'),
    state: 'cylinder off, covered, washed and dry',
  });
  accept(visit, offered, { at: when(0, '09:15') });
  measureUndecided(bench, floor);
}

/** Ostrel 125 T 0931: in assembly, offered to another technician and not counted yet. */
export function handoverPending(floor: Floor): void {
  const { when, world } = floor;
  const told = arrive(floor, {
    serial: 'O125-0931',
    number: 2419,
    hours: 83,
    day: -2,
    time: '08:10',
    complaint: 'Due by the hours, kicks back',
  });
  const { visit, bench, parts } = told;
  promise(visit, world.clock.day(2), { at: when(-2, '08:15'), by: 'idris' });
  const { opening } = openUp(told, { by: 'nadia', at: when(-1, '10:35'), within: 34 });
  cover(opening, true, { at: when(-1, '11:13'), by: 'nadia' });
  moveWithTrays(
    visit,
    { person: 'nadia', in: 'measuring' },
    { at: when(-1, '11:16'), by: 'nadia' },
    { reason: 'taken to the measuring bay' },
  );
  measure(bench, {
    dimensions: topEnd(bench, false),
    round: 'as received',
    at: when(-1, '11:22'),
    by: 'nadia',
    apart: 2,
  });
  decide(bench, {
    kind: 'replace',
    dimensions: [...new Set(bench.obligations.map(({ dimension }) => dimension))],
    at: when(-1, '12:10'),
    by: 'maren',
  });
  wantKit(parts, 'Top end', { at: when(-1, '12:20'), by: 'idris' }, { 'O125-P-A': 'O125-P-B' });
  reserve(parts, { at: when(-1, '12:21'), by: 'idris' });
  answer(
    sendQuote(parts, { at: when(-1, '12:40'), by: 'idris' }, { items: [labour('Top end', 5)] }),
    { at: when(-1, '13:30'), by: 'idris' },
    { yes: true, how: 'by telephone' },
  );
  moveWithTrays(
    visit,
    { person: 'nadia', in: 'assembly' },
    { at: when(-1, '14:10'), by: 'nadia' },
    { reason: 'taken to the assembly bay' },
  );
  startProcedure(visit, 'BUILD', { at: when(-1, '14:20'), by: 'nadia' });
  issue(parts, { at: when(0, '10:12'), by: 'hetty' }, ['O125-CL', 'O125-PP']);
  offer(visit, opening, {
    to: 'tomasz',
    by: 'nadia',
    bay: 'assembly',
    withEngine: true,
    at: when(0, '10:38'),
    state: 'cylinder off, covered',
    loose: 'base studs, not torqued',
  });
}

/** Halden 355 0388: closed, proved, waiting for somebody's name under the leak-down. */
export function signOffPending(floor: Floor): void {
  const { when, world } = floor;
  const told = arrive(floor, {
    serial: 'H355-0388',
    number: 2409,
    hours: 322,
    day: -7,
    time: '08:05',
    complaint: 'Low compression, noisy top end',
  });
  const { visit, bench, parts } = told;
  promise(visit, world.clock.day(0), { at: when(-7, '08:20'), by: 'idris' });
  const { opening } = openUp(told, { by: 'oskar', at: when(-6, '08:12') });
  cover(opening, true, { at: when(-6, '10:30'), by: 'oskar' });
  accept(
    visit,
    offer(visit, opening, { to: 'nadia', by: 'oskar', bay: 'measuring', withEngine: true, at: when(-6, '11:00') }),
    { at: when(-6, '11:12') },
  );
  measure(bench, {
    dimensions: topEnd(bench, true),
    round: 'as received',
    at: when(-6, '11:20'),
    by: 'nadia',
    apart: 3,
  });
  decide(bench, {
    kind: 'replace',
    dimensions: [...new Set(bench.obligations.map(({ dimension }) => dimension))],
    at: when(-6, '15:20'),
    by: 'maren',
  });
  moveWithTrays(visit, { bay: 'rack' }, { at: when(-6, '15:40'), by: 'nadia' }, { reason: 'left in the bay' });
  wantKit(parts, 'Top end', { at: when(-5, '08:10'), by: 'idris' });
  reserve(parts, { at: when(-5, '08:11'), by: 'idris' });
  answer(
    sendQuote(parts, { at: when(-5, '08:40'), by: 'idris' }, { items: [labour('Top end', 9)] }),
    { at: when(-4, '09:10'), by: 'idris' },
    { yes: true, how: 'in writing' },
  );
  issue(parts, { at: when(-3, '08:30'), by: 'hetty' });
  moveWithTrays(
    visit,
    { person: 'tomasz', in: 'assembly' },
    { at: when(-3, '09:00'), by: 'tomasz' },
    { reason: 'taken to the assembly bay' },
  );
  buildUp(told, opening, when(-3, '09:20'));
  moveWithTrays(visit, { bay: 'rack' }, { at: when(-3, '12:30'), by: 'tomasz' }, { reason: 'left in the bay' });
  moveWithTrays(
    visit,
    { person: 'bea', in: 'run-up' },
    { at: when(0, '08:50'), by: 'bea' },
    { reason: 'taken from the bay' },
  );
  startProcedure(visit, 'PROVE', { at: when(0, '09:05'), by: 'bea' });
  measure(bench, { dimensions: beforeOpening, round: 'as built', at: when(0, '09:20'), by: 'bea', worn: 0.1 });
  const leak = [...bench.newest].find(([chain]) => chain.startsWith('leak-down|as built'))?.[1];
  prove(
    visit,
    'leak-down',
    { at: when(0, '09:46'), by: 'bea' },
    {
      words: 'within the sheet, past the rings only',
      signed: false,
      ...(leak === undefined ? {} : { findingId: leak }),
    },
  );
  moveWithTrays(visit, { bay: 'run-up' }, { at: when(0, '09:50'), by: 'bea' }, { reason: 'left in the bay' });
}

function buildUp({ visit, bench }: Told, opening: Opening, at: number): void {
  const by = 'tomasz';
  const run = startProcedure(visit, 'BUILD', { at, by });
  fitPart(visit, { place: 'piston', at: at + minutes(2), sizeClass: 'A', grade: 'A' });
  for (const place of ['ring-top', 'ring-second', 'ring-oil', 'pin']) fitPart(visit, { place, at: at + minutes(2) });
  const open = bench.obligations
    .filter(({ discharged }) => !discharged)
    .map(({ dimension }) => dimension)
    .filter((code) => !/^(bore|piston|clearance|ring-gap-(top|second)|lash)/.test(code));
  measure(bench, { dimensions: ['bore'], round: 'as built', at: at + minutes(10), by });
  measure(bench, {
    dimensions: ['piston', 'ring-gap-top', 'ring-gap-second'],
    round: 'as built',
    at: at + minutes(20),
    by,
    worn: 0,
  });
  decide(bench, {
    kind: 'reuse',
    reason: 'looked at once more and accepted',
    dimensions: open,
    at: at + minutes(40),
    by: 'maren',
  });
  placeRings(visit, { at: at + minutes(45), by });
  pull(visit, 'head-bolts', { at: at + minutes(70), by });
  pull(visit, 'oil-feed-bolts', { at: at + minutes(80), by });
  pull(visit, 'cam-caps', { at: at + minutes(95), by });
  pull(visit, 'tensioner-bolts', { at: at + minutes(110), by });
  measure(bench, { dimensions: lashes, round: 'as built', at: at + minutes(125), by, worn: 0 });
  pull(visit, 'coolant-drain-screw', { at: at + minutes(84), by });
  pull(visit, 'cover-bolts', { at: at + minutes(150), by });
  pull(visit, 'spark-plug', { at: at + minutes(153), by });
  pull(visit, 'exhaust-nuts', { at: at + minutes(154), by });
  pull(visit, 'drain-plug', { at: at + minutes(156), by });
  pull(visit, 'filter-cover-bolts', { at: at + minutes(157), by });
  follow(run, { at: at + minutes(5), by }, 150);
  putBack(
    opening,
    { at: at + minutes(160), by },
    { renewed: ['Piston', 'Piston pin', 'Compression ring', 'Oil rail', 'Oil spacer'] },
  );
  close(opening, { at: at + minutes(168), by });
}
