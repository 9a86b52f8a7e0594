import type { LineHistory } from '#domain/stock/counting.ts';
import type { Sql } from '#platform/database/client.ts';

/** A line as it is judged: its last count in a round, and what it is about. */
export interface CountedNow extends LineHistory {
  readonly id: string;
  readonly binId: string;
  readonly bin: string;
  readonly partId: string;
  readonly name: string;
  readonly lotId: string | null;
  readonly code: string;
  readonly serial: string | null;
  /** Null: not counted in that round. */
  readonly counted: number | null;
  readonly books: number | null;
  readonly moved: boolean;
}

/** What was found joins a lot of its kind that lies in the bin, also one that came in meanwhile. */
export async function joinFoundToLots(sql: Sql, sheetId: string): Promise<void> {
  await sql`
    update count_line c set lot_id = m.lot_id
    from (select distinct on (c.id) c.id, l.id as lot_id from count_line c
          join stock_lot l on l.bin_id = c.bin_id and l.part_id = c.part_id and l.code = c.code
            and l.serial is not distinct from c.serial and not l.used
          where c.sheet_id = ${sheetId} and c.lot_id is null
            and not exists (select from count_line o where o.sheet_id = c.sheet_id and o.lot_id = l.id)
          order by c.id, l.on_hand > 0 desc, l.received_at desc) m
    where c.id = m.id`;
}

/** All lines of a sheet, each with its last entry of one round. */
export async function findCounted(sql: Sql, of: { sheetId: string; round: number; lineId?: string }) {
  return sql<CountedNow[]>`
    select l.id, l.bin_id as "binId", b.code as bin, l.part_id as "partId", p.name, l.lot_id as "lotId", l.code, l.serial,
      n.settled, n.last_round as "lastRound", n.wanted_again as "wantedAgain", e.counted, e.books,
      exists (select from stock_movement m where m.lot_id = l.lot_id and m.on_hand_change <> 0 and m.moved_at >= r.begun_at
              and m.moved_at <= coalesce(c.committed_at, 'infinity')) as moved
    from count_line l join count_line_now n on n.line_id = l.id join bin b on b.id = l.bin_id join part p on p.id = l.part_id
      join count_round r on r.sheet_id = l.sheet_id and r.round = ${of.round}
      left join count_commit c on c.sheet_id = r.sheet_id and c.round = r.round
      left join lateral (select counted, books from count_entry e where e.line_id = l.id and e.round = r.round
                         order by e.id desc limit 1) e on true
    where l.sheet_id = ${of.sheetId} and (${of.lineId ?? null}::uuid is null or l.id = ${of.lineId ?? null})
    order by b.walk_order, b.code, l.found, p.number, l.code, l.id`;
}

export async function setLotOfLine(sql: Sql, lineId: string, lotId: string): Promise<void> {
  await sql`update count_line set lot_id = ${lotId} where id = ${lineId}`;
}

/** What the adjustment that was just made of a held lot was worth. */
export async function findValueOfLastAdjustment(sql: Sql, lotId: string): Promise<number> {
  const [move] = await sql<{ value: number }[]>`
    select value_change as value from stock_movement where lot_id = ${lotId} and act = 'adjust' order by moved_at desc limit 1`;
  return move?.value ?? 0;
}

export interface NewSettlement {
  readonly lineId: string;
  readonly round: number;
  readonly how: 'right' | 'within tolerance' | 'decided';
  readonly difference: number;
  readonly valueMinor: number;
  readonly reason: string;
  readonly byId: string;
}

export async function insertSettlement(sql: Sql, of: NewSettlement): Promise<void> {
  await sql`
    insert into count_settlement (line_id, round, how, difference, value_minor, reason, settled_by_id)
    values (${of.lineId}, ${of.round}, ${of.how}, ${of.difference}, ${of.valueMinor}, ${of.reason}, ${of.byId})`;
}

export async function insertAgain(sql: Sql, of: { lineId: string; round: number; reason: string; byId: string }) {
  await sql`insert into count_again (line_id, round, reason, asked_by_id) values (${of.lineId}, ${of.round}, ${of.reason}, ${of.byId})`;
}

/** Lets go of the bins in which nothing is unsettled any more. */
export async function endSettledBins(sql: Sql, sheetId: string): Promise<void> {
  await sql`
    update count_sheet_bin b set ended_at = clock_timestamp()
    where b.sheet_id = ${sheetId} and b.ended_at is null and not exists (
      select from count_line l where l.sheet_id = b.sheet_id and l.bin_id = b.bin_id
        and not exists (select from count_settlement s where s.line_id = l.id))`;
}

export async function giveUp(sql: Sql, of: { sheetId: string; reason: string; byId: string }): Promise<void> {
  await sql`insert into count_withdrawal (sheet_id, reason, withdrawn_by_id) values (${of.sheetId}, ${of.reason}, ${of.byId})`;
  await sql`update count_sheet_bin set ended_at = clock_timestamp() where sheet_id = ${of.sheetId} and ended_at is null`;
}
