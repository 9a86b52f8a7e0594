import type { CountListed, CountSheet } from '#contracts/counts.ts';
import type { PartName } from '#contracts/parts.ts';
import type { LineHistory } from '#domain/stock/counting.ts';
import type { Sql } from '#platform/database/client.ts';
import { partName } from '../ledger/queries.ts';

export type SheetRead = Omit<CountSheet, 'state' | 'lines'>;

export async function findSheet(sql: Sql, id: string): Promise<SheetRead | undefined> {
  const [sheet] = await sql<SheetRead[]>`
    select s.id, s.number, json_build_object('id', o.id, 'name', o.name) as "openedBy", s.opened_at as "openedAt",
      (select json_build_object('number', r.round, 'counter', json_build_object('id', p.id, 'name', p.name),
         'begunAt', r.begun_at, 'handedInAt', c.committed_at)
       from count_round r join person p on p.id = r.counter_id left join count_commit c on c.sheet_id = r.sheet_id and c.round = r.round
       where r.sheet_id = s.id order by r.round desc limit 1) as round,
      (select json_agg(json_build_object('id', b.id, 'code', b.code, 'endedAt', sb.ended_at) order by b.walk_order, b.code)
       from count_sheet_bin sb join bin b on b.id = sb.bin_id where sb.sheet_id = s.id) as bins,
      (select json_build_object('reason', w.reason, 'by', p.name, 'at', w.withdrawn_at)
       from count_withdrawal w join person p on p.id = w.withdrawn_by_id where w.sheet_id = s.id) as "givenUp"
    from count_sheet s join person o on o.id = s.opened_by_id where s.id = ${id}`;
  return sheet;
}

export interface LineRead extends LineHistory {
  readonly id: string;
  readonly bin: { readonly id: string; readonly code: string };
  readonly part: PartName;
  readonly unit: CountSheet['lines'][number]['unit'];
  readonly lotId: string | null;
  readonly lotCode: string;
  readonly serial: string | null;
  readonly condition: string;
  readonly found: boolean;
  /** Keyed in the round that is open. */
  readonly keyed: number | null;
  readonly moved: boolean;
  readonly counts: readonly { round: number; counted: number; books: number; by: string; at: string }[];
  readonly settlement: {
    readonly how: 'right' | 'within tolerance' | 'decided';
    readonly difference: number;
    readonly reason: string;
    readonly valueMinor: number;
    readonly by: string;
    readonly at: string;
  } | null;
}

/** Every line of a sheet with all that was ever counted of it; what of that may be told is the service's to say. */
export async function findLines(sql: Sql, sheetId: string): Promise<readonly LineRead[]> {
  return sql<LineRead[]>`
    select l.id, json_build_object('id', b.id, 'code', b.code) as bin, ${partName(sql)} as part, p.unit,
      l.lot_id as "lotId", l.code as "lotCode", l.serial, coalesce(t.condition, '') as condition, l.found,
      n.settled, n.last_round as "lastRound", n.wanted_again as "wantedAgain",
      (select e.counted from count_entry e where e.line_id = l.id and not exists (
         select from count_commit c where c.sheet_id = l.sheet_id and c.round = e.round) order by e.id desc limit 1) as keyed,
      exists (select from count_round r join count_commit c on c.sheet_id = r.sheet_id and c.round = r.round
              join stock_movement m on m.lot_id = l.lot_id and m.on_hand_change <> 0 and m.moved_at between r.begun_at and c.committed_at
              where r.sheet_id = l.sheet_id and r.round = n.last_round) as moved,
      coalesce((select json_agg(json_build_object('round', c.round, 'counted', c.counted, 'books', c.books, 'by', c.by, 'at', c.at) order by c.round)
        from (select distinct on (e.round) e.round, e.counted, e.books, w.name as by, e.counted_at as at
              from count_entry e join person w on w.id = e.counted_by_id
                join count_commit c on c.sheet_id = l.sheet_id and c.round = e.round
              where e.line_id = l.id order by e.round, e.id desc) c), '[]'::json) as counts,
      (select json_build_object('how', s.how, 'difference', s.difference, 'reason', s.reason, 'valueMinor', s.value_minor,
         'by', w.name, 'at', s.settled_at)
       from count_settlement s join person w on w.id = s.settled_by_id where s.line_id = l.id) as settlement
    from count_line l join count_line_now n on n.line_id = l.id join bin b on b.id = l.bin_id join part p on p.id = l.part_id
      left join stock_lot t on t.id = l.lot_id
    where l.sheet_id = ${sheetId} order by b.walk_order, b.code, l.found, p.number, l.code, l.id`;
}

export type SheetListed = Omit<CountListed, 'state'> & {
  readonly givenUp: boolean;
  readonly ended: boolean;
  readonly open: boolean;
  readonly again: number;
};

export async function findSheets(
  sql: Sql,
  asked: { readonly after: number | null; readonly open: boolean | null; readonly limit: number },
): Promise<readonly SheetListed[]> {
  return sql<SheetListed[]>`
    select s.id, s.number, s.opened_at as "openedAt", b.bins, b.ended, r.counter, r.open, n.lines, n.settled, n.right, n.again,
      exists (select from count_withdrawal w where w.sheet_id = s.id) as "givenUp"
    from count_sheet s
      join lateral (select array_agg(b.code order by b.walk_order, b.code) as bins, bool_and(sb.ended_at is not null) as ended
                    from count_sheet_bin sb join bin b on b.id = sb.bin_id where sb.sheet_id = s.id) b on true
      join lateral (select p.name as counter, c.sheet_id is null as open from count_round r join person p on p.id = r.counter_id
                    left join count_commit c on c.sheet_id = r.sheet_id and c.round = r.round
                    where r.sheet_id = s.id order by r.round desc limit 1) r on true
      join lateral (select count(*)::int as lines, (count(*) filter (where settled))::int as settled,
                      (count(*) filter (where how = 'right'))::int as right,
                      (count(*) filter (where not settled and last_round is not null and (last_round = 1 or wanted_again)))::int as again
                    from count_line_now where sheet_id = s.id) n on true
    where (${asked.after}::int is null or s.number < ${asked.after}) and (${asked.open}::boolean is null or b.ended <> ${asked.open})
    order by s.number desc limit ${asked.limit}`;
}

export interface SettledRow {
  readonly sheet: number;
  readonly bin: string;
  readonly number: string;
  readonly name: string;
  readonly lot: string;
  readonly serial: string | null;
  readonly books: number;
  readonly counted: number;
  readonly difference: number;
  readonly valueMinor: number;
  readonly how: string;
  readonly reason: string;
  readonly rounds: number;
  readonly countedBy: string;
  readonly settledBy: string;
  readonly settledAt: string;
}

/** Every line that a count settled, oldest first, for a file. */
export async function findSettled(sql: Sql): Promise<readonly SettledRow[]> {
  return sql<SettledRow[]>`
    select sh.number as sheet, b.code as bin, p.number, p.name, l.code as lot, l.serial, e.books, e.counted, s.difference,
      s.value_minor as "valueMinor", s.how, s.reason, s.round as rounds, c.name as "countedBy", w.name as "settledBy", s.settled_at as "settledAt"
    from count_settlement s join count_line l on l.id = s.line_id join count_sheet sh on sh.id = l.sheet_id
      join bin b on b.id = l.bin_id join part p on p.id = l.part_id join person w on w.id = s.settled_by_id
      join lateral (select books, counted, counted_by_id from count_entry e where e.line_id = l.id and e.round = s.round
                    order by e.id desc limit 1) e on true
      join person c on c.id = e.counted_by_id
    order by s.settled_at, l.id`;
}

export interface MonthOfCounts {
  readonly month: string;
  readonly lines: number;
  readonly right: number;
  readonly within: number;
  readonly up: number;
  readonly down: number;
}

/** The last twelve months in which anything was settled by a count, in the shop's zone, oldest first. */
export async function findMonths(sql: Sql): Promise<readonly MonthOfCounts[]> {
  return sql<MonthOfCounts[]>`
    select * from (
      select to_char(s.settled_at at time zone shop.zone, 'YYYY-MM') as month, count(*)::int as lines,
        (count(*) filter (where s.how = 'right'))::int as right, (count(*) filter (where s.how = 'within tolerance'))::int as within,
        coalesce(sum(s.value_minor) filter (where s.value_minor > 0), 0)::bigint as up,
        coalesce(-sum(s.value_minor) filter (where s.value_minor < 0), 0)::bigint as down
      from count_settlement s cross join shop group by 1 order by 1 desc limit 12) m
    order by month`;
}
