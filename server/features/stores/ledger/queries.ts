import type { LotRule } from '#domain/stock/lot-rule.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

/**
 * Locks here: first lots, by id, then demand lines, by id. A lot's balances change under the lot's lock, a line and its
 * reservations under the line's. Whoever releases another job's reservation (a count, an expiry) holds the lot it is
 * from, so a write that has locked all lots of a line's reservations reads the line undisturbed.
 */
export interface LockedLot {
  readonly id: string;
  readonly partId: string;
  readonly receivedAt: string;
  readonly onHand: number;
  readonly reserved: number;
  /** Measured, where the lot was; nominal else, of a shim. */
  readonly thickness: number | null;
  /** Its own mark, or that of its part. */
  readonly grade: string;
}

export interface Move {
  readonly lotId: string;
  readonly act:
    | 'receive'
    | 'reserve'
    | 'release'
    | 'issue'
    | 'return'
    | 'adjust'
    | 'scrap'
    | 'transfer out'
    | 'transfer in'
    | 'send back';
  readonly onHand?: number;
  readonly reserved?: number;
  /** What goods that come in cost, or were worth when they went out; what goes out is valued by the database. */
  readonly value?: number;
  readonly demandLineId?: string;
  readonly jobId?: string;
  readonly reason?: string;
}

/** Pieces of a lot promised to a line (count above zero), or taken back from it (below). */
export interface Hold {
  readonly demandLineId: string;
  readonly lotId: string;
  readonly count: number;
  /** Until when it lasts, where that is another time than the act's. */
  readonly until?: string | null;
}

/** Where a line's pieces stand after the write; they add up to what is wanted. */
export interface Standing {
  readonly id: string;
  /** Where the asking itself changes: as a whole or piece by piece, and until when it stands (null: until it is served). */
  readonly asking?: { readonly whole: boolean; readonly until: string | null };
  readonly reserved: number;
  readonly short: number;
  readonly issued: number;
  readonly cancelled: number;
  readonly notAsked: number;
}

export interface StockChange {
  readonly moves: readonly Move[];
  readonly holds: readonly Hold[];
  readonly standings: readonly Standing[];
  /** Null: the service itself. */
  readonly byId: string | null;
  /** Until when new holds last, as somebody said; firm without it. */
  readonly expiresAt?: string | undefined;
  /** Nobody said it: the day of the shop's rule. What the line has of the lot already keeps its own. */
  readonly usualUntil?: string | undefined;
}

/** Movements, reservations and lines of one act, in one statement; balances follow by the ledger's trigger. */
export async function recordStock(sql: Sql, change: StockChange): Promise<void> {
  const { moves, standings } = change;
  const usual = change.expiresAt === undefined ? (change.usualUntil ?? null) : null;
  const given = change.holds.filter(({ count }) => count > 0);
  const taken = change.holds.filter(({ count }) => count < 0);
  await sql`
    with moved as (
      insert into stock_movement (id, lot_id, act, on_hand_change, reserved_change, value_change, demand_line_id, job_id, reason, moved_by_id)
      select m.id, m.lot, m.act, m.on_hand, m.reserved, m.value, m.line, m.job, m.reason, ${change.byId}
      from unnest(
        ${moves.map(newId)}::uuid[], ${moves.map((m) => m.lotId)}::uuid[], ${moves.map((m) => m.act)}::text[],
        ${moves.map((m) => m.onHand ?? 0)}::int[], ${moves.map((m) => m.reserved ?? 0)}::int[], ${moves.map((m) => m.value ?? 0)}::bigint[],
        ${moves.map((m) => m.demandLineId ?? null)}::uuid[], ${moves.map((m) => m.jobId ?? null)}::uuid[], ${moves.map((m) => m.reason ?? '')}::text[]
      ) m (id, lot, act, on_hand, reserved, value, line, job, reason)
    ), given as (
      insert into reservation as r (id, demand_line_id, lot_id, quantity, expires_at)
      select g.id, g.line, g.lot, g.count, coalesce(g.until, ${change.expiresAt ?? usual}::timestamptz)
      from unnest(${given.map(newId)}::uuid[], ${given.map((g) => g.demandLineId)}::uuid[], ${given.map((g) => g.lotId)}::uuid[],
                  ${given.map((g) => g.count)}::int[], ${given.map((g) => g.until ?? null)}::text[]::timestamptz[]) g (id, line, lot, count, until)
      on conflict (demand_line_id, lot_id) do update set
        expires_at = case when r.quantity > 0 and (r.expires_at is null or ${usual}::timestamptz is not null) then r.expires_at
                          else excluded.expires_at end,
        quantity = r.quantity + excluded.quantity,
        reserved_at = clock_timestamp()
    ), taken as (
      update reservation r set quantity = r.quantity + t.count
      from unnest(${taken.map((t) => t.demandLineId)}::uuid[], ${taken.map((t) => t.lotId)}::uuid[], ${taken.map((t) => t.count)}::int[])
             t (line, lot, count)
      where r.demand_line_id = t.line and r.lot_id = t.lot
    )
    update demand_line d set
      reserved = s.reserved, short = s.short, issued = s.issued, cancelled = s.cancelled, not_asked = s.not_asked,
      short_since = case when s.short > 0 then coalesce(d.short_since, clock_timestamp()) end,
      asked_whole = s.short + s.not_asked > 0 and coalesce(s.whole, d.asked_whole),
      asked_until = case when s.short + s.not_asked = 0 then null when s.whole is null then d.asked_until else s.until end
    from unnest(
      ${standings.map((s) => s.id)}::uuid[], ${standings.map((s) => s.reserved)}::int[], ${standings.map((s) => s.short)}::int[],
      ${standings.map((s) => s.issued)}::int[], ${standings.map((s) => s.cancelled)}::int[], ${standings.map((s) => s.notAsked)}::int[],
      ${standings.map((s) => s.asking?.whole.toString() ?? null)}::text[]::boolean[], ${standings.map((s) => s.asking?.until ?? null)}::text[]::timestamptz[]
    ) s (id, reserved, short, issued, cancelled, not_asked, whole, until)
    where d.id = s.id`;
}

/**
 * The lots that a line has or had pieces reserved of, locked by id: what is issued came from one of them. Another that
 * was chosen for it is locked in its order.
 */
export async function lockLotsOfLine(sql: Sql, lineId: string, also?: string): Promise<readonly LockedLot[]> {
  return sql<LockedLot[]>`
    select l.id, l.part_id as "partId", l.received_at as "receivedAt", l.on_hand as "onHand", l.reserved, ${lotMarks(sql)}
    from stock_lot l join part p on p.id = l.part_id
    where l.id in (select r.lot_id from reservation r where r.demand_line_id = ${lineId}) or l.id = ${also ?? null}
    order by l.id for no key update of l`;
}

/** A lot `t` that is like a lot `s` but for its bin: same part, code, thickness, grade, serial, condition and day it came in. */
export const isLike = (sql: Sql) => sql`
  (t.id <> s.id and t.part_id = s.part_id and t.code = s.code and t.shim_nm is not distinct from s.shim_nm and t.grade = s.grade
   and t.received_at = s.received_at and t.serial is not distinct from s.serial and t.used = s.used and t.condition = s.condition)`;

/** Lots that a line ever had some of, and into which bin their pieces are carried, where into another. */
export interface LotsOfLine {
  readonly lineId: string;
  readonly toBinId: string | undefined;
}

/** In the bin, what is like the lots of the line. */
const likesOfLine = (sql: Sql, of: LotsOfLine | undefined) => sql`
  select t.id from reservation o join stock_lot s on s.id = o.lot_id join stock_lot t on ${isLike(sql)}
  where o.demand_line_id = ${of?.lineId ?? null} and t.bin_id = ${of?.toBinId ?? null}`;

export async function findLikesOfLine(sql: Sql, of: LotsOfLine): Promise<readonly string[]> {
  return (await sql<{ id: string }[]>`${likesOfLine(sql, of)}`).map(({ id }) => id);
}

/** The lots that a job has pieces reserved of, those that a line of it ever had some of, and their like, locked by id. */
export async function lockLotsOfJob(sql: Sql, jobId: string, alsoOf?: LotsOfLine): Promise<readonly LockedLot[]> {
  return sql<LockedLot[]>`
    select l.id, l.part_id as "partId", l.received_at as "receivedAt", l.on_hand as "onHand", l.reserved, ${lotMarks(sql)}
    from stock_lot l join part p on p.id = l.part_id
    where l.id in (select r.lot_id from reservation r join demand_line d on d.id = r.demand_line_id where d.job_id = ${jobId} and (r.quantity > 0 or d.id = ${alsoOf?.lineId ?? null}))
      or l.id in (${likesOfLine(sql, alsoOf)})
    order by l.id for no key update of l`;
}

export interface LineToServe extends Standing {
  /** What it has not got yet was asked for all or nothing, and until when that asking stands (null: until it is served). */
  readonly askedWhole: boolean;
  readonly askedUntil: string | null;
  readonly jobId: string;
  readonly partId: string;
  readonly number: string;
  readonly name: string;
  /** The parts that serve it, in the order in which they are used up: its own, unless it was replaced. */
  readonly servedBy: readonly string[];
  /** By which rule its lots are chosen; null: the oldest first. */
  readonly lotRule: LotRule;
  /** Under a rule by thickness: those of the pieces that it has, reserved or handed out. */
  readonly gotNm: readonly number[];
}

/** Of a lot `l` of a part `p`: how thick its shims are, and of which grade its pieces. */
export const lotMarks = (sql: Sql) => sql`
  coalesce(l.shim_nm, p.shim_nm) as thickness, coalesce(nullif(l.grade, ''), p.grade) as grade`;

/** The rule of a line whose rule in force is the row `lr`, as the domain knows it; null: the oldest first. */
export const lotRuleJson = (sql: Sql) => sql`
  case lr.rule
    when 'grade' then json_build_object('rule', lr.rule, 'grade', lr.grade)
    when 'exact thickness' then json_build_object('rule', lr.rule, 'thicknesses', lr.thickness_nm, 'othersAny', lr.others_any)
    else json_build_object('rule', 'oldest') end`;

/** Thicknesses of the pieces that a line `d` has, where its rule `lr` asks for them. */
export const gotThicknesses = (sql: Sql) => sql`
  case when not lr.others_any or lr.id is null then '{}' else (
    select coalesce(array_agg(g.nm), '{}') from thicknesses_got(d.id, d.job_id) g cross join generate_series(1, g.pieces)) end`;

/**
 * A row `d` of demand_line whose asking stands (demand_line_short, demand_line_asked_whole): it is short, or what it has
 * not got yet was asked for all or nothing.
 */
export const stillAsked = (sql: Sql) => sql`(d.short > 0 or (d.asked_whole and d.not_asked > 0))`;

/** The parts that serve a wish for a row `p` of part, in the order in which they are used up. */
export const servedBy = (sql: Sql) => sql`
  (case when p.superseded_by_id is null then array[p.id] else parts_serving(p.id) end)`;

/** The part as which a row `p` of part is bought: the newest of those that replaced it. */
export const boughtAs = (sql: Sql) => sql`
  case when p.superseded_by_id is null then ${partName(sql)} else (
    select json_build_object('id', n.id, 'number', n.number, 'name', n.name)
    from unnest(parts_serving(p.id)) with ordinality s (id, nth) join part n on n.id = s.id order by s.nth desc limit 1) end`;

/** What there is to know of a line of `lineTables` when its pieces are moved. */
export const lineColumns = (sql: Sql) => sql`
  d.id, d.job_id as "jobId", d.part_id as "partId", d.reserved, d.short, d.issued, d.cancelled, d.not_asked as "notAsked",
  d.asked_whole as "askedWhole", d.asked_until as "askedUntil", p.number, p.name,
  ${servedBy(sql)} as "servedBy",
  ${lotRuleJson(sql)} as "lotRule", ${gotThicknesses(sql)} as "gotNm"`;

/** A demand line `d`, its part `p` and its rule `lr`. */
export const lineTables = (sql: Sql) => sql`
  demand_line d join part p on p.id = d.part_id left join demand_lot_rule lr on lr.id = d.lot_rule_id`;

/** Lines by id, and all of a job where one is named, locked in the order of their ids. */
export async function lockLines(sql: Sql, ids: readonly string[], jobId?: string): Promise<readonly LineToServe[]> {
  return sql<LineToServe[]>`
    select ${lineColumns(sql)} from ${lineTables(sql)}
    where d.id = any(${ids}::uuid[]) or d.job_id = ${jobId ?? null} order by d.id for no key update of d`;
}

/** The lines of a job, or those of them that are named, locked in the order of their ids. */
export async function lockLinesOfJob(
  sql: Sql,
  of: { readonly jobId: string; readonly lineIds: readonly string[] | undefined },
): Promise<readonly LineToServe[]> {
  return sql<LineToServe[]>`
    select ${lineColumns(sql)} from ${lineTables(sql)}
    where d.job_id = ${of.jobId} and (${of.lineIds ?? null}::uuid[] is null or d.id = any(${of.lineIds ?? null}::uuid[]))
    order by d.id for no key update of d`;
}

export async function findJobOfLine(sql: Sql, lineId: string): Promise<string | undefined> {
  const [row] = await sql<{ jobId: string }[]>`select job_id as "jobId" from demand_line where id = ${lineId}`;
  return row?.jobId;
}

export interface HeldPieces {
  readonly lotId: string;
  readonly quantity: number;
  /** Until when they are held; null: firm. */
  readonly until: string | null;
}

export async function findHeld(sql: Sql, lineId: string): Promise<readonly HeldPieces[]> {
  return sql<HeldPieces[]>`
    select lot_id as "lotId", quantity, expires_at as until from reservation where demand_line_id = ${lineId} and quantity > 0`;
}

/** The job as stores speak of it, as a JSON object, for a row `j` of job. */
export const jobName = (sql: Sql) => sql`
  (select json_build_object('id', j.id, 'number', j.number, 'engineId', e.id, 'serial', e.serial, 'family', f.name)
   from engine e join family f on f.id = e.family_id where e.id = j.engine_id)`;

/** A part's name, as a JSON object, for a row `p` of part. */
export const partName = (sql: Sql) => sql`json_build_object('id', p.id, 'number', p.number, 'name', p.name)`;

export async function findCurrency(sql: Sql): Promise<string> {
  const [shop] = await sql<{ currency: string }[]>`select currency::text as currency from shop`;
  return shop?.currency.trim() ?? 'EUR';
}
