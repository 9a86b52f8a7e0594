import type { Sql } from '../../server/platform/database/client.ts';
import { type Instant, isoOf } from './clock.ts';
import type { PersonKey } from './people.ts';
import type { Lot, Stock } from './stock.ts';
import { known, there, type World } from './world.ts';

/** Past counts, one bin each in the order of the walk; in two of them a piece was missing, and a recount missed it too. */
const counted = [
  { day: -118, missing: false },
  { day: -104, missing: false },
  { day: -90, missing: true },
  { day: -76, missing: false },
  { day: -62, missing: false },
  { day: -48, missing: false },
  { day: -35, missing: true },
  { day: -21, missing: false },
  { day: -9, missing: false },
] as const;

/** A piece less is told only of lots that never came so low after it that a job would have gone without. */
const plenty = 10;
const minute = 60_000;

interface Lying {
  readonly lot: Lot;
  readonly partId: string;
  readonly books: number;
}

/** Bins counted through the last half year, one that waits for its recount since the day before; the rest never were. */
export function tellTheCounts(world: World, stock: Stock): void {
  const bins = world.rows.of('bin');
  for (const [at, { day, missing }] of counted.entries()) {
    const binId = String(there(bins[at], 'a bin').id);
    countBin(world, stock, { binId, begun: world.clock.at(day, '15:40'), missing, recounted: true });
  }
  const last = String(there(bins[counted.length], 'a bin').id);
  countBin(world, stock, { binId: last, begun: world.clock.at(-1, '15:40'), missing: true, recounted: false });
}

interface OneCount {
  readonly binId: string;
  readonly begun: Instant;
  readonly missing: boolean;
  readonly recounted: boolean;
}

function countBin(world: World, stock: Stock, { binId, begun, missing, recounted }: OneCount): void {
  const lying = lyingIn(world, stock, { binId, at: begun });
  // What is not settled moves nothing, so any lot will do.
  const spare = ({ lot }: Lying) => !recounted || leastAfter(world, lot, begun) >= plenty;
  const short = missing ? lying.find(spare) : undefined;
  const sheetId = world.id('count_sheet', begun);
  const number = world.rows.of('count_sheet').length + 1;
  world.rows.add('count_sheet', {
    id: sheetId,
    number,
    opened_by_id: known(world.people, 'hetty'),
    opened_at: isoOf(begun),
  });
  world.rows.add('count_sheet_bin', { sheet_id: sheetId, bin_id: binId });
  const lines = lying.map((of) => ({ ...of, id: addLine(world, { sheetId, binId, of, begun }) }));
  const keyed = lines.map((line) => ({ ...line, counted: line.lot === short?.lot ? line.books - 1 : line.books }));
  countRound(world, { sheetId, round: 1, by: 'hetty', begun, lines: keyed });
  if (short === undefined || !recounted) return;
  const again = begun + 60 * minute;
  const end = countRound(world, {
    sheetId,
    round: 2,
    by: 'maren',
    begun: again,
    lines: keyed.filter(({ lot }) => lot === short.lot),
  });
  stock.move(short.lot, { act: 'adjust', onHand: -1, reserved: 0, by: 'maren', at: end, reason: missingWords });
}

const missingWords = 'counted twice, one short';

interface LineOf {
  readonly sheetId: string;
  readonly binId: string;
  readonly of: Lying;
  readonly begun: Instant;
}

function addLine(world: World, { sheetId, binId, of: { lot, partId }, begun }: LineOf): string {
  const id = world.id('count_line', begun);
  world.rows.add('count_line', {
    id,
    sheet_id: sheetId,
    bin_id: binId,
    part_id: partId,
    lot_id: there(lot.row.id, 'a lot'),
    code: lot.row.code ?? '',
    added_at: isoOf(begun),
  });
  return id;
}

interface Round {
  readonly sheetId: string;
  readonly round: number;
  readonly by: PersonKey;
  readonly begun: Instant;
  readonly lines: readonly { readonly id: string; readonly books: number; readonly counted: number }[];
}

/** A minute a line, then handed in; tells when. */
function countRound(world: World, { sheetId, round, by, begun, lines }: Round): Instant {
  const counterId = known(world.people, by);
  world.rows.add('count_round', { sheet_id: sheetId, round, counter_id: counterId, begun_at: isoOf(begun) });
  for (const [at, { id, books, counted: count }] of lines.entries()) {
    const keyedAt = begun + (at + 1) * minute;
    world.rows.add('count_entry', {
      id: world.id('count_entry', keyedAt),
      line_id: id,
      round,
      counted: count,
      books,
      counted_by_id: counterId,
      counted_at: isoOf(keyedAt),
    });
  }
  const end = begun + (lines.length + 1) * minute;
  world.rows.add('count_commit', { sheet_id: sheetId, round, committed_at: isoOf(end) });
  return end;
}

const movementsOf = (world: World, lot: Lot) =>
  world.rows.of('stock_movement').filter(({ lot_id }) => lot_id === lot.row.id);

/** What lay in a bin at an instant by the ledger, lot by lot. */
function lyingIn(world: World, stock: Stock, { binId, at }: { binId: string; at: Instant }): readonly Lying[] {
  return [...stock.parts.values()]
    .filter(({ bin }) => bin === binId)
    .flatMap(({ id, lots }) =>
      lots.map((lot) => ({
        lot,
        partId: id,
        books: movementsOf(world, lot)
          .filter(({ moved_at }) => String(moved_at) <= isoOf(at))
          .reduce((sum, { on_hand_change }) => sum + Number(on_hand_change), 0),
      })),
    )
    .filter(({ books }) => books > 0);
}

/** The fewest pieces of a lot that were there and promised to nobody at any time from an instant on. */
function leastAfter(world: World, lot: Lot, from: Instant): number {
  let available = 0;
  let least = Number.POSITIVE_INFINITY;
  const moves = movementsOf(world, lot).toSorted((a, b) => (String(a.moved_at) < String(b.moved_at) ? -1 : 1));
  for (const [at, { on_hand_change, reserved_change }] of moves.entries()) {
    available += Number(on_hand_change) - Number(reserved_change);
    const next = moves[at + 1];
    if (next === undefined || String(next.moved_at) > isoOf(from)) least = Math.min(least, available);
  }
  return least;
}

/** Settles what was counted, once the ledger has valued its movements, and lets go of the bins in which all is settled. */
export async function settleTheCounts(sql: Sql): Promise<void> {
  await sql`
    insert into count_settlement (line_id, round, how, difference, value_minor, reason, settled_by_id, settled_at)
    select l.id, e.round, case when e.counted = e.books then 'right' else 'decided' end, e.counted - e.books,
      coalesce((select m.value_change from stock_movement m
                where m.lot_id = l.lot_id and m.act = 'adjust' and m.moved_at = c.committed_at), 0),
      case when e.counted = e.books then 'counted' else ${missingWords} end, r.counter_id, c.committed_at
    from count_line l
      join lateral (select round, counted, books from count_entry where line_id = l.id order by round desc limit 1) e on true
      join count_round r on r.sheet_id = l.sheet_id and r.round = e.round
      join count_commit c on c.sheet_id = l.sheet_id and c.round = e.round
    where e.counted = e.books or e.round > 1`;
  await sql`
    update count_sheet_bin b set ended_at = (
      select max(c.committed_at) from count_commit c where c.sheet_id = b.sheet_id)
    where not exists (select from count_line l where l.sheet_id = b.sheet_id
      and not exists (select from count_settlement s where s.line_id = l.id))`;
  await sql`select setval(pg_get_serial_sequence('count_sheet', 'number'), (select max(number) from count_sheet))`;
}
