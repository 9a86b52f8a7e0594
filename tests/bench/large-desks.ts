import { cursorOf } from '#platform/cursor.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { findChoices } from '../../server/features/labels/queries.ts';
import { findComingOf, findLacks, findPicks } from '../../server/features/stores/desks/queries.ts';
import { findOut } from '../../server/features/stores/issuing/queries.ts';
import { findMovements } from '../../server/features/stores/parts/queries.ts';
import { chainFacts } from '../../server/features/stores/promising/ready-lines.ts';
import { findServable } from '../../server/features/stores/reservations/round-queries.ts';
import { serveWaiting } from '../../server/features/stores/reservations/waiting.ts';
import { findExpectedLines, findExpectingVendors } from '../../server/features/stores/supply/delivery-queries.ts';
import { findOrders } from '../../server/features/stores/supply/order-list-queries.ts';
import { missedMost } from '../support/crowded-stores.ts';
import type { BenchShop } from './bench-shop.ts';
import { type Figure, median, medians, timed } from './figures.ts';
import { busiestPart } from './large-stores.ts';

export interface View {
  readonly path: string;
  readonly bare: () => Promise<unknown>;
}

const idOf = async (sql: SqlPool, number: string): Promise<string> =>
  (await sql<{ id: string }[]>`select id from part where number = ${number}`)[0]?.id ?? '';

/** What stores look at while three hundred jobs are in the shop: the walk, what is short, a promise, a life, what is found. */
export async function deskViews(sql: SqlPool): Promise<Readonly<Record<string, View>>> {
  const [busy, missed] = [await idOf(sql, busiestPart), await idOf(sql, missedMost)];
  const [job] = await sql<
    { id: string }[]
  >`select id from job where handed_back_at is null order by number desc limit 1`;
  const [vendor] = await sql<{ id: string }[]>`
    select vendor_id as id from purchase_line where received < quantity group by vendor_id order by count(*) desc limit 1`;
  const [before] = await sql<{ at: string; id: string }[]>`
    select moved_at as at, id from stock_movement where part_id = ${busy} order by moved_at, id offset 200 limit 1`;
  const jobId = job?.id ?? '';
  const orders = { open: undefined, sent: undefined, vendorId: undefined, afterId: undefined, limit: 41 } as const;
  const earliest = { at: before?.at ?? '', id: before?.id ?? '' };
  return {
    walk: { path: '/stores/pick-walk', bare: () => findPicks(sql, undefined) },
    'walk-of-a-job': { path: `/stores/pick-walk?jobId=${jobId}`, bare: () => findPicks(sql, jobId) },
    short: {
      path: '/stores/short',
      bare: async () => {
        const lacks = await findLacks(sql);
        await findComingOf(sql, [...new Set(lacks.map(({ part }) => part.id))]);
      },
    },
    promise: { path: `/parts/${missed}/promise`, bare: () => chainFacts(sql, [missed]) },
    'life-at-its-beginning': {
      path: `/parts/${busy}?limit=100&after=${encodeURIComponent(cursorOf(earliest))}`,
      bare: () => findMovements(sql, { partId: busy, after: earliest, limit: 101 }),
    },
    'orders-with-a-part': {
      path: '/purchase-orders?limit=40&search=lg-0451',
      bare: () => findOrders(sql, { ...orders, words: ['lg-0451'], sort: 'newest' }),
    },
    'labels-of-a-name': {
      path: '/labels?kind=part&search=gasket%205',
      bare: () => findChoices(sql, { kind: 'part', search: 'gasket 5', limit: 201 }),
    },
    'labels-of-nothing': {
      path: '/labels?kind=part&search=nothing-such',
      bare: () => findChoices(sql, { kind: 'part', search: 'nothing-such', limit: 201 }),
    },
    expected: {
      path: `/stores/expected?vendorId=${vendor?.id}`,
      bare: () => Promise.all([findExpectingVendors(sql), findExpectedLines(sql, vendor?.id ?? '')]),
    },
  };
}

/** How many terminals read the same view anew after an act. */
const TERMINALS = 8;

/** What every terminal of a shop asks for in the same moment, against one that asks alone. */
export async function readByAll({ get }: BenchShop): Promise<readonly Figure[]> {
  const figures: Figure[] = [];
  for (const view of ['board', 'floor']) {
    const path = view === 'board' ? '/stores/board' : '/floor';
    const taken = await medians(RUNS, {
      alone: () => get(path),
      atOnce: () => Promise.all(Array.from({ length: TERMINALS }, () => get(path))),
    });
    figures.push({ name: `large-stores.${view}.eight-at-once`, value: taken.atOnce, unit: 'ms' });
    figures.push({ name: `large-stores.${view}.eight-at-once.ratio`, value: taken.atOnce / taken.alone, unit: '' });
  }
  return figures;
}

/** A round while hundreds of lines wait: with nothing for them, and after pieces came in; and what a return looks up. */
export async function waitingRound({ sql, post }: BenchShop): Promise<readonly Figure[]> {
  const missed = await idOf(sql, missedMost);
  const [bin] = await sql<{ id: string }[]>`select id from bin where code = 'L-0001'`;
  const [waiting] = await sql<{ count: number }[]>`select count(*)::int as count from demand_line where short > 0`;
  const looks = await medians(RUNS, { none: () => serveWaiting(sql), looking: () => findServable(sql) });
  const served: number[] = [];
  for (let round = 0; round < 5; round += 1) {
    await post('/receipts', { partId: missed, binId: bin?.id, quantity: PIECES });
    served.push((await timed(() => serveWaiting(sql))) / PIECES);
  }
  const [line] = await sql<{ id: string }[]>`
    select r.demand_line_id as id from reservation r join stock_lot l on l.id = r.lot_id join part p on p.id = l.part_id
    where p.number = ${busiestPart} limit 1`;
  const out = await medians(RUNS, { out: () => findOut(sql, line?.id ?? '') });
  const ms = (name: string, value: number): Figure => ({ name: `large-stores.${name}`, value, unit: 'ms' });
  return [
    { name: 'large-stores.round.lines-waiting', value: waiting?.count ?? 0, unit: '' },
    ms('round.nothing-free', looks.none),
    { name: 'large-stores.round.nothing-free.ratio', value: looks.none / looks.looking, unit: '' },
    ms('round.a-line-served', median(served)),
    ms('return.what-is-out', out.out),
  ];
}

const RUNS = 10;
const PIECES = 40;
