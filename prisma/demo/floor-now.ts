import type { VendorKey } from './bays.ts';
import { type Instant, isoOf } from './clock.ts';
import type { Floor } from './floor.ts';
import { bottomEndHalfTogether } from './floor-bottom.ts';
import { boreUndecided, coverOffUncovered, handoverPending, signOffPending } from './floor-open.ts';
import { cylinderAway, engineAway } from './floor-outside.ts';
import {
  bayFull,
  bearingWithoutDate,
  dowelMissing,
  inTheWash,
  justIn,
  partsHeld,
  quoteSent,
  sealsDue,
} from './floor-waiting.ts';
import type { Past } from './past-visits.ts';
import { countDownTo, orderOf, type Stock } from './stock.ts';
import { known, type World } from './world.ts';

/** Everything that is in the shop on the anchor day, in the order in which it came. */
export function tellTheFloor(world: World, stock: Stock, past: Past): void {
  const floor: Floor = { world, stock, engines: past.engines, when: world.clock.at };
  emptyBins(world, stock);
  cylinderAway(floor);
  bearingWithoutDate(floor);
  bottomEndHalfTogether(floor);
  signOffPending(floor);
  dowelMissing(floor);
  partsHeld(floor);
  sealsDue(floor);
  quoteSent(floor);
  engineAway(floor);
  boreUndecided(floor);
  handoverPending(floor);
  inTheWash(floor);
  coverOffUncovered(floor);
  bayFull(floor);
  justIn(floor);
  orderComing(world, stock);
}

/** What was found short when the bins were last counted. */
function emptyBins(world: World, stock: Stock): void {
  const at = world.clock.at(-10, '16:10');
  countDownTo(world, stock, { part: 'T615-VS', available: 4, at });
  countDownTo(world, stock, { part: 'S95-230', available: 2, at: at + 60_000 });
  countDownTo(world, stock, { part: 'W-10', available: 42, at: at + 120_000 });
}

function orderComing(world: World, stock: Stock): void {
  const order = (
    part: string,
    of: {
      readonly quantity: number;
      readonly vendor: VendorKey;
      readonly at: Instant;
      readonly promised: number | null;
      /** When the vendor told of that date, later than the first. */
      readonly slipped?: Instant;
      readonly job?: number;
    },
  ): void => {
    const job = world.rows.of('job').find(({ number }) => number === of.job);
    const { id, data } = known(stock.parts, part);
    const lineId = orderOf(world, {
      vendor: of.vendor,
      partId: id,
      jobId: job === undefined ? null : String(job.id),
      quantity: of.quantity,
      pack: data.pack,
      promisedOn: of.promised === null ? null : world.clock.day(of.promised),
      unitCost: Math.round(data.price * 0.6),
      at: of.at,
    });
    if (of.slipped !== undefined)
      world.rows.add('purchase_promise', {
        id: world.id('purchase_promise', of.slipped),
        purchase_line_id: lineId,
        promised_on: of.promised === null ? null : world.clock.day(of.promised),
        words: 'two days later: waits for the foundry',
        told_by_id: known(world.people, 'hetty'),
        told_at: isoOf(of.slipped),
      });
  };
  const { at } = world.clock;
  order('T615-VS', { quantity: 8, vendor: 'gaskets', at: at(-1, '16:55'), promised: 1, job: 2415 });
  order('T615-CB', { quantity: 1, vendor: 'makers', at: at(-2, '10:20'), promised: null, job: 2411 });
  order('H388-HG', { quantity: 2, vendor: 'gaskets', at: at(-3, '08:40'), promised: 2 });
  order('H355-P-A', { quantity: 4, vendor: 'makers', at: at(-6, '08:15'), promised: 5 });
  order('S95-230', { quantity: 10, vendor: 'fasteners', at: at(-2, '14:05'), promised: 3 });
  order('W-12', { quantity: 50, vendor: 'fasteners', at: at(-2, '14:06'), promised: 3 });
  order('O125-R', { quantity: 6, vendor: 'makers', at: at(-9, '09:05'), promised: 4, slipped: at(-2, '11:15') });
  // Promised for last week and not seen yet.
  order('H355-TE', { quantity: 2, vendor: 'makers', at: at(-15, '09:30'), promised: -3 });
}
