import { type Instant, isoOf } from './clock.ts';
import type { Row } from './insert.ts';
import { type DemoPart, demoAlternatives, demoCompanions, demoKits, demoParts, demoReplacements } from './parts.ts';
import type { PersonKey } from './people.ts';
import { chance } from './random.ts';
import { baseOf } from './spec-sheet.ts';
import { known, there, type World } from './world.ts';

export interface Lot {
  readonly row: Row;
  readonly receivedAt: Instant;
  readonly unitCost: number;
  onHand: number;
  reserved: number;
}

/** The stores as they fill: what a job takes is taken from here, so that balance and ledger are one. */
export interface Stock {
  readonly parts: ReadonlyMap<
    string,
    { readonly id: string; readonly data: DemoPart; readonly lots: Lot[]; readonly bin: string }
  >;
  readonly kits: ReadonlyMap<string, { readonly id: string; readonly lines: readonly (readonly [string, number])[] }>;
  readonly move: (lot: Lot, movement: Movement) => void;
  /** Lots that have pieces to give at an instant, oldest first. */
  readonly lotsAt: (part: string, at: Instant) => readonly Lot[];
}

export interface Movement {
  readonly act: 'receive' | 'reserve' | 'release' | 'issue' | 'return' | 'adjust' | 'scrap';
  readonly onHand: number;
  readonly reserved: number;
  readonly by: PersonKey;
  readonly at: Instant;
  readonly demandLineId?: string;
  readonly jobId?: string;
  readonly reason?: string;
}

const shimNm = (value: number | null): number | null => (value === null ? null : baseOf(value, 'mm'));

export function fillStores(world: World): Stock {
  const bins = addBins(world);
  const parts: Map<
    string,
    { readonly id: string; readonly data: DemoPart; readonly lots: Lot[]; readonly bin: string }
  > = new Map();
  for (const data of demoParts) {
    const id = world.id('part', world.origin);
    const by = demoReplacements.find(([old]) => old === data.number);
    world.rows.add('part', {
      id,
      number: data.number,
      name: data.name,
      family_id: data.family === null ? null : known(world.families, data.family).id,
      place_code: data.place,
      size_class: data.sizeClass,
      grade: data.grade,
      shim_nm: shimNm(data.shimMm),
      shim_diameter_nm: shimNm(data.shimDiameterMm),
      one_time: data.oneTime,
      fastener_set: data.fastenerSet ?? null,
      price_minor: data.price,
      reorder_point: data.reorder,
      core_minor: coreOf(data),
      superseded_by_id: by === undefined ? null : known(parts, by[1]).id,
      interchangeable: by === undefined || by[2] === 'use up',
      retired_at: null,
    });
    parts.set(data.number, { id, data, lots: [], bin: known(bins, data.number) });
  }
  for (const [part, companion, quantity] of demoCompanions) {
    world.rows.add('part_companion', {
      part_id: known(parts, part).id,
      companion_id: known(parts, companion).id,
      quantity,
    });
  }
  for (const [part, other, condition] of demoAlternatives) {
    world.rows.add('part_alternative', {
      id: world.id('part_alternative', world.origin),
      part_id: known(parts, part).id,
      other_id: known(parts, other).id,
      condition,
      told_by_id: known(world.people, 'hetty'),
      told_at: isoOf(world.origin),
    });
  }
  const kits = new Map(
    demoKits.map(({ family, name, lines }) => {
      const id = world.id('kit', world.origin);
      world.rows.add('kit', { id, family_id: known(world.families, family).id, name });
      for (const [part, quantity] of lines)
        world.rows.add('kit_line', { kit_id: id, part_id: known(parts, part).id, quantity });
      return [`${family} ${name}`, { id, lines }] as const;
    }),
  );
  const move = (lot: Lot, movement: Movement): void => {
    lot.onHand += movement.onHand;
    lot.reserved += movement.reserved;
    if (lot.onHand < 0 || lot.reserved < 0 || lot.reserved > lot.onHand)
      throw new Error(`The demo takes more of lot ${String(lot.row.code)} than there is`);
    world.rows.add('stock_movement', {
      id: world.id('stock_movement', movement.at),
      lot_id: there(lot.row.id, 'a lot'),
      act: movement.act,
      on_hand_change: movement.onHand,
      reserved_change: movement.reserved,
      value_change: movement.onHand * lot.unitCost,
      demand_line_id: movement.demandLineId ?? null,
      job_id: movement.jobId ?? null,
      reason: movement.reason ?? '',
      moved_by_id: known(world.people, movement.by),
      moved_at: isoOf(movement.at),
    });
  };
  const stock: Stock = {
    parts,
    kits,
    move,
    lotsAt: (part, at) => known(parts, part).lots.filter((lot) => lot.receivedAt <= at && lot.onHand > lot.reserved),
  };
  receiveDeliveries(world, stock);
  return stock;
}

/** Four to a bin, numbered as one walks past them. */
function addBins(world: World): ReadonlyMap<string, string> {
  const places = new Map<string, string>();
  let walk = 0;
  for (const aisle of ['A', 'B', 'C', 'D', 'S'] as const) {
    const here = demoParts.filter((part) => part.aisle === aisle);
    const perBin = aisle === 'S' ? 2 : 4;
    let binId = '';
    here.forEach((part, index) => {
      if (index % perBin === 0) {
        walk += 1;
        binId = world.id('bin', world.origin);
        const number = String(index / perBin + 1).padStart(2, '0');
        world.rows.add('bin', { id: binId, code: `${aisle}-${number}`, walk_order: walk * 10, closed_at: null });
      }
      places.set(part.number, binId);
    });
  }
  return places;
}

/** Every part's deliveries spread over two years; each is a lot, most with a purchase line that brought it. */
function receiveDeliveries(world: World, stock: Stock): void {
  const { clock } = world;
  let lotNumber = 4_000;
  const due = demoParts
    .flatMap((data) => {
      const luck = chance(`deliveries of ${data.number}`);
      return Array.from({ length: data.deliveries }, (_, index) => ({
        data,
        luck,
        grade: data.lotGrades?.[index % data.lotGrades.length] ?? '',
        day:
          index === 0
            ? -521 + luck.whole(0, 10)
            : -510 + Math.round((index / data.deliveries) * 490) + luck.whole(-6, 6),
      }));
    })
    .sort((a, b) => a.day - b.day || (a.data.number < b.data.number ? -1 : 1));
  for (const { data, luck, day, grade } of due) {
    const at = clock.at(day, `${luck.whole(9, 11)}:${String(luck.whole(10, 59))}`);
    const part = known(stock.parts, data.number);
    lotNumber += 1;
    const row = world.rows.add('stock_lot', {
      id: world.id('stock_lot', at),
      part_id: part.id,
      bin_id: part.bin,
      code: `L${lotNumber}`,
      shim_nm: data.shimMm === null ? null : baseOf(data.shimMm + luck.whole(-4, 4) / 1_000, 'mm'),
      grade,
      received_at: isoOf(at),
    });
    const lot: Lot = {
      row,
      receivedAt: at,
      unitCost: Math.round(data.price * luck.between(0.55, 0.65)),
      onHand: 0,
      reserved: 0,
    };
    part.lots.push(lot);
    stock.move(lot, { act: 'receive', onHand: data.lot, reserved: 0, by: 'hetty', at, reason: '' });
    if (data.aisle !== 'S' && (luck.next() < 0.25 || coreOf(data) > 0))
      addOldPurchase(world, { partId: part.id, data, receivedDay: day, at, lot });
    if (luck.next() < 0.2) {
      world.events.push({
        at,
        kind: 'stock.received',
        actor: 'hetty',
        terminal: 'stores',
        engine: null,
        jobId: null,
        data: { part: data.number, name: data.name, quantity: data.lot, reserved: 0 },
      });
    }
  }
}

interface OldPurchase {
  readonly partId: string;
  readonly data: DemoPart;
  readonly receivedDay: number;
  readonly at: Instant;
  readonly lot: Lot;
}

/** An order of one line that came in whole, sent the day it was written. */
function addOldPurchase(world: World, of: OldPurchase): void {
  const orderedAt = world.clock.at(Math.max(of.receivedDay - 8, -522), '08:20');
  const lineId = orderOf(world, {
    vendor: of.data.vendor,
    partId: of.partId,
    jobId: null,
    quantity: of.data.lot,
    pack: of.data.pack,
    promisedOn: world.clock.day(of.receivedDay),
    unitCost: of.lot.unitCost,
    at: orderedAt,
  });
  world.rows.add('purchase_fact', {
    id: world.id('purchase_fact', of.at),
    purchase_line_id: lineId,
    kind: 'received',
    quantity: of.data.lot,
    lot_id: there(of.lot.row.id, 'a lot'),
    words: '',
    done_by_id: known(world.people, 'hetty'),
    done_at: isoOf(of.at),
  });
  if (coreOf(of.data) > 0)
    world.rows.add('core_owed', {
      id: world.id('core_owed', of.at),
      purchase_line_id: lineId,
      quantity: of.data.lot,
      charge_minor: coreOf(of.data),
      owed_at: isoOf(of.at),
    });
}

/** Cylinders are bought against their worn ones, for a third of the price until those come back. */
const coreOf = ({ place, price }: DemoPart): number => (place === 'cylinder' ? Math.round(price / 300) * 100 : 0);

/** Writes and sends an order of one line, at a price its vendor gave that day. */
export function orderOf(
  world: World,
  of: {
    readonly vendor: DemoPart['vendor'];
    readonly partId: string;
    readonly jobId: string | null;
    readonly quantity: number;
    readonly pack: number | undefined;
    readonly promisedOn: string | null;
    readonly unitCost: number;
    readonly at: Instant;
  },
): string {
  const packSize = of.pack ?? 1;
  const packPrice = of.unitCost * packSize;
  const vendorId = known(world.vendors, of.vendor);
  const byId = known(world.people, 'hetty');
  world.rows.add('vendor_price', {
    id: world.id('vendor_price', of.at),
    vendor_id: vendorId,
    part_id: of.partId,
    price_minor: packPrice,
    pack_size: packSize,
    valid_from: isoOf(of.at).slice(0, 10),
    their_number: '',
    told_by_id: byId,
    told_at: isoOf(of.at),
  });
  const orderId = world.id('purchase_order', of.at);
  world.rows.add('purchase_order', {
    id: orderId,
    number: 501 + world.rows.of('purchase_order').length,
    vendor_id: vendorId,
    words: '',
    opened_by_id: byId,
    opened_at: isoOf(of.at),
  });
  world.rows.add('purchase_order_mark', {
    id: world.id('purchase_order_mark', of.at),
    order_id: orderId,
    mark: 'sent',
    words: '',
    marked_by_id: byId,
    marked_at: isoOf(of.at),
  });
  const id = world.id('purchase_line', of.at);
  world.rows.add('purchase_line', {
    id,
    order_id: orderId,
    vendor_id: vendorId,
    part_id: of.partId,
    job_id: of.jobId,
    quantity: of.quantity,
    received: 0,
    promised_on: of.promisedOn,
    price_minor: packPrice,
    pack_size: packSize,
    replaced_reason: isReplaced(world, of.partId) ? 'in use until the new one was in' : null,
    ordered_by_id: byId,
    ordered_at: isoOf(of.at),
  });
  return id;
}

const isReplaced = (world: World, partId: string): boolean =>
  world.rows.of('part').some(({ id, superseded_by_id: next }) => id === partId && next !== null);

/** A bin count that leaves exactly so many of a part available, as the floor of today shows them. */
export function countDownTo(
  world: World,
  stock: Stock,
  of: { readonly part: string; readonly available: number; readonly at: Instant },
): void {
  let over = known(stock.parts, of.part).lots.reduce((sum, lot) => sum + lot.onHand - lot.reserved, 0) - of.available;
  for (const lot of stock.lotsAt(of.part, of.at)) {
    const count = Math.min(over, lot.onHand - lot.reserved);
    if (count <= 0) continue;
    over -= count;
    stock.move(lot, { act: 'adjust', onHand: -count, reserved: 0, by: 'hetty', at: of.at, reason: 'bin counted' });
  }
  if (over !== 0) throw new Error(`The demo cannot count ${of.part} down to ${of.available}`);
  world.events.push({
    at: of.at,
    kind: 'stock.moved',
    actor: 'hetty',
    terminal: 'stores',
    engine: null,
    jobId: null,
    data: { act: 'adjust', part: of.part, left: of.available, reason: 'bin counted', short: [] },
  });
}
