import { placeRings, prove, pull } from './assembly.ts';
import { type Bench, benchOf, type Obligation } from './bench.ts';
import type { Hand } from './clock.ts';
import { isoOf } from './clock.ts';
import { answer, labour, type QuoteItem, sendQuote } from './counter.ts';
import { follow, startProcedure } from './following.ts';
import { accept, offer } from './handovers.ts';
import { issue, partsOf, reserve, wantKit } from './job-parts.ts';
import { beforeOpening, lashes, measure, readingsFor, topEnd } from './measuring.ts';
import { decide } from './obligations.ts';
import { complaints, demoEngines, type PastEngine, type PastWork } from './past-engines.ts';
import type { PersonKey } from './people.ts';
import { chance } from './random.ts';
import { shimValves } from './shims.ts';
import type { Stock } from './stock.ts';
import { close, cover, type Opening, open, putBack, strip } from './tally.ts';
import {
  addEngine,
  addOwner,
  assignBay,
  type Engine,
  fitPart,
  handBack,
  moveTray,
  moveWithTrays,
  promise,
  takeIn,
  tell,
  type Visit,
} from './visit.ts';
import { known, type World } from './world.ts';

/** Working days from one past visit to the next, and that of the first. */
const spacing = 10;
const firstDay = -508;

interface Slot {
  readonly engine: Engine;
  readonly hours: number;
  readonly work: PastWork;
}

export interface Past {
  readonly engines: ReadonlyMap<string, Engine>;
  /** How many visits were handed back. */
  readonly visits: number;
}

/** Two years of visits, one after the other, each told from take-in to hand-back. */
export function tellThePast(world: World, stock: Stock): Past {
  const owners = new Map<string, string>();
  const engines = new Map<string, Engine>();
  const slots: { readonly slot: Slot; readonly when: number }[] = [];
  demoEngines.forEach((data, index) => {
    const engine = meet(world, data, owners);
    engines.set(data.serial, engine);
    const first = (index % 7) / 7;
    data.visits.forEach(([hours, work], visit) => {
      slots.push({ slot: { engine, hours, work }, when: (visit + 0.3 + 0.6 * first) / data.visits.length });
    });
  });
  slots.sort((a, b) => a.when - b.when || (a.slot.engine.serial < b.slot.engine.serial ? -1 : 1));
  slots.forEach(({ slot }, index) => {
    const number = 2405 - slots.length + index;
    if (slot.work === 'top end') topEndVisit(world, stock, { ...slot, number, day: firstDay + index * spacing });
    else lashVisit(world, stock, { ...slot, number, day: firstDay + index * spacing });
  });
  return { engines, visits: slots.length };
}

function meet(world: World, data: PastEngine, owners: Map<string, string>): Engine {
  const owner = owners.get(data.owner) ?? addOwner(world, data.owner, data.contact);
  owners.set(data.owner, owner);
  const note = data.note === undefined ? {} : { note: data.note };
  return addEngine(world, {
    family: data.family,
    serial: data.serial,
    owner: [owner, data.owner],
    at: world.origin,
    ...note,
  });
}

interface Telling extends Slot {
  readonly number: number;
  readonly day: number;
}

function begin(world: World, of: Telling, hand: Hand) {
  const luck = chance(`visit ${of.number}`);
  const revision = of.engine.family.revisions.length > 1 && of.day < -300 ? 0 : of.engine.family.revisions.length - 1;
  const visit = takeIn(world, of.engine, {
    number: of.number,
    hours: of.hours,
    complaint: luck.pick(complaints[of.work]),
    bay: 'rack',
    revision,
    at: hand.now(),
    by: 'idris',
  });
  promise(visit, world.clock.day(of.day + 9), { at: hand.pass(12), by: 'idris' });
  assignBay(visit, 'strip', { at: hand.pass(4), by: 'idris' });
  const bench = benchOf(visit, 19.5 + luck.whole(0, 40) / 10);
  measure(bench, { dimensions: beforeOpening, round: 'as received', at: hand.pass(60), by: 'oskar' });
  return { visit, bench, luck };
}

function topEndVisit(world: World, stock: Stock, of: Telling): void {
  const hand = world.clock.hand(of.day, '08:20');
  const { visit, bench, luck } = begin(world, of, hand);
  const stripper = luck.pick<PersonKey>(['oskar', 'bea']);
  const at = hand.pass(470);
  moveWithTrays(visit, { person: stripper, in: 'strip' }, { at, by: stripper }, { reason: 'taken from the bay' });
  const opening = open(visit, { at: hand.pass(10), by: stripper });
  const run = startProcedure(visit, 'STRIP', { at: hand.pass(1), by: stripper });
  strip(opening, run, {
    at: hand.pass(5),
    by: stripper,
    within: visit.revision.sheet.valves.length > 0 ? 85 : 50,
    holder: { person: stripper, in: 'strip' },
  });
  const fourStroke = visit.revision.sheet.valves.length > 0;
  if (fourStroke) measure(bench, { dimensions: lashes, round: 'as received', at: hand.pass(40), by: stripper });
  cover(opening, true, { at: hand.pass(60), by: stripper });
  accept(
    visit,
    offer(visit, opening, {
      to: 'nadia',
      by: stripper,
      bay: 'measuring',
      withEngine: true,
      at: hand.pass(60),
      state: 'cylinder off, covered',
    }),
    { at: hand.pass(14) },
  );
  const dimensions = topEnd(bench, of.number % 3 === 0);
  measure(bench, { dimensions, round: 'as received', at: hand.pass(15), by: 'nadia' });
  moveWithTrays(
    visit,
    { bay: 'rack' },
    { at: hand.pass(dimensions.length * 3 + 30), by: 'nadia' },
    { reason: 'left in the bay' },
  );
  const away = decideAll(bench, hand);
  const size = nextSize(visit);
  const parts = partsOf(visit, stock);
  const oversize: Readonly<Record<string, string>> =
    away && size !== 'standard'
      ? { 'T615-P-S': `T615-P-${size.slice(1)}`, 'T615-R': `T615-R-${size.slice(1)}` }
      : sameSize(visit);
  wantKit(parts, 'Top end', { at: hand.pass(20), by: 'idris' }, oversize);
  reserve(parts, { at: hand.pass(5), by: 'idris' });
  const items: QuoteItem[] = [labour('Strip, measure, assemble, prove', fourStroke ? 9 : 6)];
  if (away)
    items.push({
      kind: 'outside work',
      words: size === 'standard' ? 'Replate the cylinder, Saltmere Plating' : `Bore to ${size}, Lathbury Boring`,
      quantity: 1,
      each: size === 'standard' ? 29_500 : 11_800,
    });
  const quote = sendQuote(parts, { at: hand.pass(30), by: 'idris' }, { items });
  answer(
    quote,
    { at: hand.pass(luck.whole(60, 400)), by: 'idris' },
    { yes: true, how: luck.pick(['by telephone', 'at the counter', 'in writing']) },
  );
  if (away) sendCylinder(visit, hand, size);
  issue(parts, { at: hand.pass(120), by: 'hetty' });
  shimValves(bench, parts, hand);
  assemble({ bench, opening, hand, away, size });
  finish(bench, hand);
}

/** Every obligation gets its decision. True when the cylinder has to go out. */
function decideAll(bench: Bench, hand: Hand): boolean {
  const of = (obligation: Obligation): string => obligation.dimension;
  const open = bench.obligations.filter(({ discharged }) => !discharged);
  const at = hand.pass(45);
  const size = nextSize(bench.visit);
  const bore = open.filter((each) => each.dimension === 'bore');
  const past = bore.some(({ row }) => String(row.words).includes('past the upper limit'));
  if (bore.length > 0 && past) {
    decide(bench, {
      kind: size === 'standard' ? 'replate' : 'bore',
      ...(size === 'standard' ? {} : { sizeClass: size }),
      dimensions: ['bore', 'bore-taper', 'bore-out-of-round'],
      at,
      by: 'maren',
    });
  } else {
    decide(bench, {
      kind: 'reuse',
      reason: 'close to the limit, the owner wants one more season',
      dimensions: ['bore'],
      at,
      by: 'maren',
    });
  }
  const lash = open.map(of).filter((code) => code.startsWith('lash-'));
  decide(bench, { kind: 'shim', dimensions: lash, at: at + 60_000, by: 'maren' });
  const rest = open.map(of).filter((code) => !code.startsWith('bore') && !code.startsWith('lash-'));
  decide(bench, { kind: 'replace', dimensions: rest, at: at + 120_000, by: 'maren' });
  return past;
}

/** The oversize a bored cylinder goes to next; plated ones stay at standard. */
function nextSize(visit: Visit): string {
  const bored = visit.revision.sheet.dimensions.find(({ code }) => code === 'bore')?.limits ?? {};
  const classes = Object.keys(bored);
  const now = String(visit.engine.fitted.get('cylinder')?.size_class ?? 'standard');
  return classes[classes.indexOf(now) + 1] ?? now;
}

const sameSize = (visit: Visit): Readonly<Record<string, string>> => {
  const now = String(visit.engine.fitted.get('cylinder')?.size_class ?? 'standard');
  return now === 'standard' ? {} : { 'T615-P-S': `T615-P-${now.slice(1)}`, 'T615-R': `T615-R-${now.slice(1)}` };
};

function sendCylinder(visit: Visit, hand: Hand, size: string): void {
  const { world } = visit;
  const tray = known(visit.trays, 'Cylinder');
  const vendor = size === 'standard' ? 'saltmere' : 'lathbury';
  const work = size === 'standard' ? 'Strip the old plating, replate, hone' : `Bore to ${size}, hone for cross-hatch`;
  const name = size === 'standard' ? 'Saltmere Plating' : 'Lathbury Boring';
  const sentAt = hand.pass(30);
  moveTray(visit, tray, { to: { vendor }, act: { at: sentAt, by: 'idris' }, reason: work });
  const dueOn = world.clock.dayAfter(sentAt, 9);
  tell(
    visit,
    'outside.sent',
    { at: sentAt, by: 'idris' },
    { what: 'the cylinder', vendor: name, work, dueOn, differences: [] },
  );
  const backAt = hand.pass(600 * 7 + 90);
  moveTray(visit, tray, { to: { bay: 'rack' }, act: { at: backAt, by: 'idris' }, reason: `back from ${name}` });
  world.rows.add('outside_work', {
    id: world.id('outside_work', sentAt),
    job_id: visit.jobId,
    tray_id: tray.id,
    engine_id: null,
    vendor_id: known(world.vendors, vendor),
    work,
    due_on: dueOn,
    sent_by_id: known(world.people, 'idris'),
    sent_at: isoOf(sentAt),
    back_by_id: known(world.people, 'idris'),
    back_at: isoOf(backAt),
  });
  tell(
    visit,
    'outside.back',
    { at: backAt, by: 'idris' },
    { what: 'the cylinder', vendor: name, work, bay: 'Rack', differences: [] },
  );
}

interface Assembling {
  readonly bench: Bench;
  readonly opening: Opening;
  readonly hand: Hand;
  readonly away: boolean;
  readonly size: string;
}

function fitNewParts({ bench, away, size, hand }: Assembling): void {
  const { visit } = bench;
  const at = hand.pass(5);
  const cylinder = visit.engine.fitted.get('cylinder');
  const now = away ? size : String(cylinder?.size_class ?? 'standard');
  if (away) fitPart(visit, { place: 'cylinder', at, sizeClass: now });
  const grade = visit.engine.family.code === 'T615' ? now : 'A';
  fitPart(visit, { place: 'piston', at, sizeClass: grade, grade: grade === 'A' ? 'A' : '' });
  for (const place of ['ring-top', 'ring-second', 'ring-oil', 'pin'])
    if (visit.engine.fitted.has(place)) fitPart(visit, { place, at });
}

function assemble(of: Assembling): void {
  const { bench, opening, hand } = of;
  const { visit } = bench;
  const by: PersonKey = 'tomasz';
  moveWithTrays(visit, { person: by, in: 'assembly' }, { at: hand.pass(60), by }, { reason: 'taken from the bay' });
  const run = startProcedure(visit, 'BUILD', { at: hand.pass(5), by });
  fitNewParts(of);
  if (of.away) measure(bench, { dimensions: ['bore'], round: 'as built', at: hand.pass(10), by, worn: 0.02 });
  else measure(bench, { dimensions: ['bore'], round: 'as built', at: hand.pass(10), by });
  measure(bench, {
    dimensions: ['piston', 'ring-gap-top', 'ring-gap-second'],
    round: 'as built',
    at: hand.pass(20),
    by,
    worn: 0,
  });
  const open = bench.obligations.filter(({ discharged }) => !discharged).map(({ dimension }) => dimension);
  const again = [...new Set(open.flatMap((code) => readingsFor(bench, code)))].filter(
    (code) => !['bore', 'piston', 'leak-down', 'compression', ...lashes].includes(code),
  );
  measure(bench, { dimensions: again, round: 'as built', at: hand.pass(20), by, worn: 0.05 });
  placeRings(visit, { at: hand.pass(again.length * 3 + 15), by });
  for (const { code, positions } of visit.revision.sheet.fasteners.filter((set) => set.code !== 'case-bolts')) {
    if (run.procedure.steps.some(({ data }) => data.fastenerSet === code))
      pull(visit, code, { at: hand.pass(positions.length > 2 ? 20 : 4), by });
  }
  if (visit.revision.sheet.valves.length > 0)
    measure(bench, { dimensions: lashes, round: 'as built', at: hand.pass(20), by, worn: 0 });
  follow(run, { at: hand.pass(4), by }, 40);
  hand.pass(36);
  putBack(
    opening,
    { at: hand.pass(20), by },
    { renewed: ['Piston', 'Piston pin', 'Compression ring', 'Oil rail', 'Oil spacer', 'Ring', 'Small-end bearing'] },
  );
  close(opening, { at: hand.pass(10), by });
}

/** Run-up, proofs and hand-back. What is still open is accepted by the lead, by name and with a reason. */
function finish(bench: Bench, hand: Hand): void {
  const { visit } = bench;
  const by: PersonKey = 'tomasz';
  moveWithTrays(visit, { bay: 'run-up' }, { at: hand.pass(30), by }, { reason: 'left in the bay' });
  const run = startProcedure(visit, 'PROVE', { at: hand.pass(45), by: 'bea' });
  measure(bench, { dimensions: beforeOpening, round: 'as built', at: hand.pass(10), by: 'bea', worn: 0.05 });
  const leak = bench.newest.get([...bench.newest.keys()].find((chain) => chain.startsWith('leak-down|as built')) ?? '');
  for (const { code, name } of visit.revision.sheet.proofs) {
    prove(
      visit,
      code,
      { at: hand.pass(50), by: 'bea' },
      {
        words: `${name}: in order`,
        signed: true,
        ...(code === 'leak-down' && leak !== undefined ? { findingId: leak } : {}),
      },
    );
  }
  follow(run, { at: hand.pass(19), by: 'bea' }, 20);
  hand.pass(16);
  const rest = bench.obligations.filter(({ discharged }) => !discharged).map(({ dimension }) => dimension);
  decide(bench, {
    kind: 'reuse',
    reason: 'looked at once more and accepted for this season',
    dimensions: rest,
    at: hand.pass(30),
    by: 'maren',
  });
  handBack(visit, { at: hand.pass(150), by: 'idris' });
}

/** Cover off, lash read, shimmed or screwed, closed again within the day. */
function lashVisit(world: World, stock: Stock, of: Telling): void {
  const hand = world.clock.hand(of.day, '08:40');
  const { visit, bench, luck } = begin(world, of, hand);
  const parts = partsOf(visit, stock);
  wantKit(parts, 'Lash check', { at: hand.pass(20), by: 'idris' });
  reserve(parts, { at: hand.pass(5), by: 'idris' });
  answer(
    sendQuote(parts, { at: hand.pass(10), by: 'idris' }, { items: [labour('Check and set the lash', 3)] }),
    { at: hand.pass(50), by: 'idris' },
    { yes: true, how: 'by telephone' },
  );
  issue(parts, { at: hand.pass(30), by: 'hetty' });
  const by = luck.pick<PersonKey>(['oskar', 'bea']);
  moveWithTrays(visit, { person: by, in: 'strip' }, { at: hand.pass(240), by }, { reason: 'taken from the bay' });
  const opening = open(visit, { at: hand.pass(8), by });
  const run = startProcedure(visit, 'STRIP', { at: hand.pass(1), by });
  strip(opening, run, {
    at: hand.pass(4),
    by,
    within: 27,
    answers: { depth: 'lash' },
    holder: { person: by, in: 'strip' },
  });
  hand.pass(6);
  measure(bench, { dimensions: lashes, round: 'as received', at: hand.pass(35), by });
  decide(bench, { kind: 'shim', dimensions: lashes, at: hand.pass(25), by: 'maren' });
  shimValves(bench, parts, hand);
  measure(bench, { dimensions: lashes, round: 'as built', at: hand.pass(40), by, worn: 0 });
  pull(visit, 'cover-bolts', { at: hand.pass(20), by });
  pull(visit, 'spark-plug', { at: hand.pass(2), by });
  putBack(opening, { at: hand.pass(10), by }, { renewed: [] });
  close(opening, { at: hand.pass(6), by });
  finish(bench, hand);
}
