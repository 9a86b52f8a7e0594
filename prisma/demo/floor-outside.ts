import { isoOf } from './clock.ts';
import { answer, labour, sendQuote } from './counter.ts';
import type { Floor } from './floor.ts';
import { arrive, openUp, undecidedOf } from './floor-open.ts';
import { accept, offer } from './handovers.ts';
import { reserve, wantKit } from './job-parts.ts';
import { measure, topEnd } from './measuring.ts';
import { decide } from './obligations.ts';
import { cover } from './tally.ts';
import { moveEngine, moveTray, moveWithTrays, promise, tell, type Visit } from './visit.ts';
import { known } from './world.ts';

function sendAway(
  visit: Visit,
  floor: Floor,
  of: {
    readonly vendor: 'saltmere' | 'brannock';
    readonly name: string;
    readonly work: string;
    readonly due: number;
    readonly at: number;
  },
): void {
  const { world } = floor;
  const tray = of.vendor === 'saltmere' ? known(visit.trays, 'Cylinder') : undefined;
  const act = { at: of.at, by: 'idris' } as const;
  if (tray === undefined) moveEngine(visit, { vendor: of.vendor }, act, of.work);
  else moveTray(visit, tray, { to: { vendor: of.vendor }, act, reason: of.work });
  world.rows.add('outside_work', {
    id: world.id('outside_work', of.at),
    job_id: visit.jobId,
    tray_id: tray?.id ?? null,
    engine_id: tray === undefined ? visit.engine.id : null,
    vendor_id: known(world.vendors, of.vendor),
    work: of.work,
    due_on: world.clock.day(of.due),
    sent_by_id: known(world.people, 'idris'),
    sent_at: isoOf(of.at),
    back_by_id: null,
    back_at: null,
  });
  tell(visit, 'outside.sent', act, {
    what: tray === undefined ? 'the engine' : 'the cylinder',
    vendor: of.name,
    work: of.work,
    dueOn: world.clock.day(of.due),
    differences: [],
  });
}

/** Halden 388 0119: the engine on the rack, its cylinder at the platers. */
export function cylinderAway(floor: Floor): void {
  const { when, world } = floor;
  const told = arrive(floor, {
    serial: 'H388-0119',
    number: 2406,
    hours: 290,
    day: -9,
    time: '08:30',
    complaint: 'Low compression, uses oil',
  });
  const { visit, bench, parts } = told;
  promise(visit, world.clock.day(6), { at: when(-9, '08:40'), by: 'idris' });
  const { opening } = openUp(told, {
    by: 'bea',
    at: when(-5, '09:42'),
    within: 48,
    answers: { 'bore-seen': 'through' },
  });
  cover(opening, true, { at: when(-5, '10:40'), by: 'bea' });
  accept(
    visit,
    offer(visit, opening, { to: 'nadia', by: 'bea', bay: 'measuring', withEngine: true, at: when(-5, '10:45') }),
    { at: when(-5, '10:52') },
  );
  measure(bench, {
    dimensions: topEnd(bench, false),
    round: 'as received',
    at: when(-5, '11:00'),
    by: 'nadia',
    apart: 2,
  });
  decide(bench, {
    kind: 'replate',
    dimensions: ['bore', 'bore-taper', 'bore-out-of-round'],
    at: when(-5, '13:05'),
    by: 'maren',
  });
  decide(bench, {
    kind: 'replace',
    dimensions: undecidedOf(told).filter((code) => !code.startsWith('bore')),
    at: when(-5, '13:06'),
    by: 'maren',
  });
  wantKit(parts, 'Top end', { at: when(-5, '13:20'), by: 'idris' });
  reserve(parts, { at: when(-5, '13:21'), by: 'idris' });
  const quote = sendQuote(
    parts,
    { at: when(-5, '13:30'), by: 'idris' },
    {
      items: [
        labour('Top end', 9),
        { kind: 'outside work', words: 'Replate the cylinder, Saltmere Plating', quantity: 1, each: 29_500 },
      ],
    },
  );
  answer(quote, { at: when(-5, '14:10'), by: 'idris' }, { yes: true, how: 'by telephone' });
  moveWithTrays(visit, { bay: 'rack' }, { at: when(-5, '14:30'), by: 'nadia' }, { reason: 'left in the bay' });
  sendAway(visit, floor, {
    vendor: 'saltmere',
    name: 'Saltmere Plating',
    work: 'Strip the old plating, replate to 92.006, hone',
    due: 2,
    at: when(-4, '15:10'),
  });
}

/** Ostrel 125 T 0888: gone whole to the crank works. */
export function engineAway(floor: Floor): void {
  const { when, world } = floor;
  const told = arrive(floor, {
    serial: 'O125-0888',
    number: 2417,
    hours: 79,
    day: -3,
    time: '10:10',
    complaint: 'Vibrates, crank seal weeps',
  });
  promise(told.visit, world.clock.day(9), { at: when(-3, '10:20'), by: 'idris' }, 3);
  const quote = sendQuote(
    told.parts,
    { at: when(-3, '11:00'), by: 'idris' },
    {
      items: [
        { kind: 'outside work', words: 'Crank trued and new rod, Brannock Crank Works', quantity: 1, each: 24_800 },
        labour('Take out and fit', 4),
      ],
    },
  );
  answer(quote, { at: when(-3, '15:25'), by: 'idris' }, { yes: true, how: 'at the counter' });
  sendAway(told.visit, floor, {
    vendor: 'brannock',
    name: 'Brannock Crank Works',
    work: 'True the crank, new rod and pin',
    due: 4,
    at: when(-2, '08:15'),
  });
}
