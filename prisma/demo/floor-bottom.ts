import { assemble } from './assembling.ts';
import { answer, labour, sendQuote } from './counter.ts';
import type { Floor } from './floor.ts';
import { arrive, openUp } from './floor-open.ts';
import { interrupt, startProcedure } from './following.ts';
import { issue, reserve, want } from './job-parts.ts';
import { measure } from './measuring.ts';
import { cover, strip, takeOut } from './tally.ts';
import { assignBay, moveWithTrays, promise } from './visit.ts';

/** The step of its assembly that has a drawing in place of a photo. */
export const balancerStep = 'Balancer on its mark';

/** Halden 355 0310: its bottom end half together, covered on the rack until the assembly bay is free again. */
export function bottomEndHalfTogether(floor: Floor): void {
  const { when, world } = floor;
  const told = arrive(floor, {
    serial: 'H355-0310',
    number: 2407,
    hours: 176,
    day: -8,
    time: '13:10',
    complaint: 'Oil behind the alternator, clutch drags when hot',
  });
  const { visit, bench, parts } = told;
  promise(visit, world.clock.day(6), { at: when(-8, '13:25'), by: 'idris' });
  const oskar = { person: 'oskar', in: 'strip' } as const;
  const { opening } = openUp(told, { by: 'oskar', at: when(-7, '12:40'), within: 90 });
  const apart = startProcedure(visit, 'CASE', { at: when(-7, '14:20'), by: 'oskar' });
  measure(bench, {
    dimensions: ['crank-end-float'],
    round: 'as received',
    at: when(-7, '15:08'),
    by: 'oskar',
    worn: 0.3,
  });
  strip(opening, apart, { at: when(-7, '14:24'), by: 'oskar', holder: oskar, within: 140 });
  measure(bench, {
    dimensions: ['rod-side', 'rod-radial', 'crank-runout-left', 'crank-runout-right'],
    round: 'as received',
    at: when(-7, '16:32'),
    by: 'oskar',
    worn: 0.3,
  });
  // As the steps of that strip say, before the chain and before the halves come apart.
  takeOut(opening, { at: when(-7, '15:02'), by: 'oskar' }, ['chain tunnel', 'case mouth']);
  cover(opening, true, { at: when(-7, '16:55'), by: 'oskar' });
  moveWithTrays(visit, { bay: 'rack' }, { at: when(-7, '17:00'), by: 'oskar' }, { reason: 'left in the bay' });
  want(
    parts,
    [
      { part: 'H355-CG', quantity: 1, words: 'case open' },
      { part: 'H355-CS', quantity: 1, words: 'seal behind the alternator weeps' },
      { part: 'H355-CP', quantity: 1, words: 'friction plates burnt' },
      { part: 'H355-CSP', quantity: 1, words: 'springs go with the plates' },
    ],
    { at: when(-6, '09:00'), by: 'idris' },
  );
  reserve(parts, { at: when(-6, '09:01'), by: 'idris' });
  const quote = sendQuote(parts, { at: when(-6, '09:30'), by: 'idris' }, { items: [labour('Bottom end', 13)] });
  answer(quote, { at: when(-5, '09:20'), by: 'idris' }, { yes: true, how: 'by telephone' });
  issue(parts, { at: when(-2, '15:10'), by: 'hetty' });
  together(floor, { told, opening });
}

type Half = Pick<ReturnType<typeof openUp>, 'opening'> & { readonly told: ReturnType<typeof arrive> };

/** A morning in the assembly bay, until that was needed for another. */
function together({ when }: Floor, { told: { visit, bench }, opening }: Half): void {
  const by = 'bea';
  const bea = { person: by, in: 'assembly' } as const;
  moveWithTrays(visit, bea, { at: when(-1, '07:55'), by }, { reason: 'taken to the assembly bay' });
  cover(opening, false, { at: when(-1, '07:58'), by });
  const run = startProcedure(visit, 'BOTTOM', { at: when(-1, '08:00'), by });
  assemble(
    { opening, bench, run },
    {
      ...{ at: when(-1, '08:05'), by, within: 320, before: 'Oil pump on, primed' },
      skipped: { 'Parts laid out against the job': 'Hetty laid them out beside the old ones when she issued them' },
    },
  );
  interrupt(
    run,
    'Oil pump on, primed',
    { at: when(-1, '13:40'), by },
    {
      why: 'Bay 4 goes to the Ostrel 0931, which is promised first',
      loose: 'Pump rotors lie oiled in their bag; shift linkage, primary gear and clutch are still off',
    },
  );
  cover(opening, true, { at: when(-1, '13:46'), by });
  moveWithTrays(visit, { bay: 'rack' }, { at: when(-1, '13:50'), by }, { reason: 'left in the bay' });
  assignBay(visit, 'assembly', { at: when(-1, '13:55'), by: 'maren' });
}
