import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface SheetHead {
  readonly id: string;
  readonly number: number;
  readonly ended: boolean;
  readonly givenUp: boolean;
  readonly round: number;
  readonly counterId: string;
  readonly counter: string;
  readonly begunAt: string;
  readonly handedIn: boolean;
}

/** How a write about a sheet holds it: entries beside each other, whatever ends a round alone. */
export type SheetLock = 'to key' | 'to end';

/** Holds a sheet for the rest of the act. The first lock of a count; then engines, lots, lines. */
export async function lockSheet(sql: Sql, id: string, lock: SheetLock): Promise<SheetHead | undefined> {
  await sql`select id from count_sheet where id = ${id} ${lock === 'to key' ? sql`for share` : sql`for no key update`}`;
  const [sheet] = await sql<SheetHead[]>`
    select s.id, s.number, w.sheet_id is not null as "givenUp", r.round, r.counter_id as "counterId", p.name as counter,
      r.begun_at as "begunAt", c.sheet_id is not null as "handedIn",
      not exists (select from count_sheet_bin b where b.sheet_id = s.id and b.ended_at is null) as ended
    from count_sheet s join count_round r on r.sheet_id = s.id join person p on p.id = r.counter_id
      left join count_commit c on c.sheet_id = s.id and c.round = r.round
      left join count_withdrawal w on w.sheet_id = s.id
    where s.id = ${id} order by r.round desc limit 1`;
  return sheet;
}

export interface BinToCount {
  readonly id: string;
  readonly code: string;
  readonly closed: boolean;
  /** The sheet on which it is being counted already. */
  readonly sheet: number | null;
  readonly counter: string | null;
}

export async function findBinsToCount(sql: Sql, ids: readonly string[]): Promise<readonly BinToCount[]> {
  return sql<BinToCount[]>`
    select b.id, b.code, b.closed_at is not null as closed, s.number as sheet, s.counter
    from bin b left join lateral (
      select s.number, p.name as counter from count_sheet_bin o join count_sheet s on s.id = o.sheet_id
        join count_round r on r.sheet_id = s.id join person p on p.id = r.counter_id
      where o.bin_id = b.id and o.ended_at is null order by r.round desc limit 1) s on true
    where b.id = any(${ids}::uuid[]) order by b.walk_order, b.code`;
}

/** Begins a sheet: its bins, in one order for all who begin one, its first round, and a line a lot that lies there. */
export async function insertSheet(sql: Sql, of: { binIds: readonly string[]; byId: string }) {
  const [sheet] = await sql<{ id: string; number: number }[]>`
    insert into count_sheet (id, opened_by_id) values (${newId()}, ${of.byId}) returning id, number`;
  if (sheet === undefined) throw new Error('a sheet that was put in is not there');
  for (const binId of of.binIds.toSorted()) {
    await sql`insert into count_sheet_bin (sheet_id, bin_id) values (${sheet.id}, ${binId})`;
  }
  await insertRound(sql, { sheetId: sheet.id, round: 1, counterId: of.byId });
  const lots = await sql<{ id: string; partId: string; binId: string; code: string; serial: string | null }[]>`
    select id, part_id as "partId", bin_id as "binId", code, serial from stock_lot
    where bin_id = any(${of.binIds}::uuid[]) and on_hand > 0 order by id`;
  for (const lot of lots) await insertLine(sql, { sheetId: sheet.id, ...lot, lotId: lot.id, found: false });
  return { ...sheet, lines: lots.length };
}

export async function insertRound(sql: Sql, of: { sheetId: string; round: number; counterId: string }): Promise<void> {
  await sql`insert into count_round (sheet_id, round, counter_id) values (${of.sheetId}, ${of.round}, ${of.counterId})`;
}

interface NewLine {
  readonly sheetId: string;
  readonly binId: string;
  readonly partId: string;
  readonly lotId: string | null;
  readonly code: string;
  readonly serial: string | null;
  readonly found: boolean;
}

export async function insertLine(sql: Sql, line: NewLine): Promise<string> {
  const id = newId();
  await sql`
    insert into count_line (id, sheet_id, bin_id, part_id, lot_id, code, serial, found)
    values (${id}, ${line.sheetId}, ${line.binId}, ${line.partId}, ${line.lotId}, ${line.code}, ${line.serial}, ${line.found})`;
  return id;
}

export interface LineToKey {
  readonly id: string;
  readonly sheetId: string;
  readonly lotId: string | null;
  readonly serial: string | null;
  readonly bin: string;
  readonly name: string;
  readonly binEnded: boolean;
  readonly settled: boolean;
  readonly lastRound: number | null;
  readonly wantedAgain: boolean;
}

const lineToKey = (sql: Sql) => sql`
  l.id, l.sheet_id as "sheetId", l.lot_id as "lotId", l.serial, b.code as bin, p.name, sb.ended_at is not null as "binEnded",
  n.settled, n.last_round as "lastRound", n.wanted_again as "wantedAgain"
  from count_line l join count_line_now n on n.line_id = l.id join bin b on b.id = l.bin_id join part p on p.id = l.part_id
    join count_sheet_bin sb on sb.sheet_id = l.sheet_id and sb.bin_id = l.bin_id`;

export async function findLineToKey(sql: Sql, id: string): Promise<LineToKey | undefined> {
  const [line] = await sql<LineToKey[]>`select ${lineToKey(sql)} where l.id = ${id}`;
  return line;
}

/**
 * Takes down what was counted, and what the ledger said at that moment: the lot is held, so a movement is either wholly
 * before the entry or wholly after it. An entry kept while the network was down is compared with the books of then.
 */
export async function insertEntry(
  sql: Sql,
  of: { line: { id: string; lotId: string | null }; round: number; counted: number; byId: string; at: string | null },
): Promise<void> {
  await sql`select id from stock_lot where id = ${of.line.lotId} for no key update`;
  await sql`
    insert into count_entry (id, line_id, round, counted, books, counted_by_id, counted_at)
    select ${newId()}, ${of.line.id}, ${of.round}, ${of.counted},
      greatest(0, coalesce((select on_hand from stock_lot where id = ${of.line.lotId}), 0) - coalesce((
        select sum(on_hand_change)::int from stock_movement where lot_id = ${of.line.lotId} and moved_at > m.at), 0)),
      ${of.byId}, m.at
    from (select greatest(coalesce(${of.at}::timestamptz, clock_timestamp()), r.begun_at) as at
          from count_round r join count_line l on l.sheet_id = r.sheet_id where l.id = ${of.line.id} and r.round = ${of.round}) m`;
}

/** A lot of the bin that a found piece belongs to: same part, lot code and serial, unused. */
export async function findLotLike(
  sql: Sql,
  of: { binId: string; partId: string; code: string; serial: string | null },
): Promise<string | undefined> {
  const [lot] = await sql<{ id: string }[]>`
    select id from stock_lot where bin_id = ${of.binId} and part_id = ${of.partId} and code = ${of.code}
      and serial is not distinct from ${of.serial} and not used order by on_hand > 0 desc, received_at desc limit 1`;
  return lot?.id;
}

export async function findLineOfLot(sql: Sql, sheetId: string, lotId: string): Promise<string | undefined> {
  const [line] = await sql<
    { id: string }[]
  >`select id from count_line where sheet_id = ${sheetId} and lot_id = ${lotId}`;
  return line?.id;
}

/** Where a piece with this serial is by the books: in a bin, or out with a job that is still in the shop. */
export async function findSerial(sql: Sql, partId: string, serial: string) {
  const [lies] = await sql<{ binId: string; bin: string }[]>`
    select l.bin_id as "binId", b.code as bin from stock_lot l join bin b on b.id = l.bin_id
    where l.part_id = ${partId} and l.serial = ${serial} and l.on_hand > 0`;
  const [out] = await sql<{ job: number }[]>`
    select j.number as job
    from stock_lot l join stock_movement m on m.lot_id = l.id and m.act in ('issue', 'return') join job j on j.id = m.job_id
    where l.part_id = ${partId} and l.serial = ${serial} and j.handed_back_at is null
    group by j.id having sum(m.on_hand_change) < 0`;
  return { lies, out };
}

export async function findPartToCount(sql: Sql, id: string) {
  const [part] = await sql<{ id: string; name: string; number: string; bySerial: boolean }[]>`
    select id, name, number, by_serial as "bySerial" from part where id = ${id}`;
  return part;
}

export async function insertCommit(sql: Sql, sheetId: string, round: number): Promise<void> {
  await sql`insert into count_commit (sheet_id, round) values (${sheetId}, ${round})`;
}
