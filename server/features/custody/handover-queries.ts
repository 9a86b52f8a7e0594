import { besideLabel } from '#domain/custody/counting.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export type Outcome = 'accepted' | 'accepted with a difference' | 'declined' | 'withdrawn';

export interface HandoverRow {
  readonly id: string;
  readonly jobId: string;
  readonly number: number;
  readonly engineId: string;
  readonly serial: string;
  readonly includesEngine: boolean;
  readonly giverId: string;
  readonly giver: string;
  readonly receiverId: string;
  readonly receiver: string;
  readonly placeId: string;
  readonly place: string;
  readonly stateWords: string;
  readonly looseWords: string;
  readonly offeredAt: string;
  readonly answerDueAt: string;
  readonly outcome: Outcome | null;
  readonly endedAt: string | null;
  readonly endedReason: string;
}

const handovers = (sql: Sql) => sql`
  select h.id, h.job_id as "jobId", j.number, j.engine_id as "engineId", e.serial, h.engine_id is not null as "includesEngine",
         h.giver_id as "giverId", g.name as giver, h.receiver_id as "receiverId", r.name as receiver,
         h.place_id as "placeId", b.name as place, h.state_words as "stateWords", h.loose_words as "looseWords",
         h.offered_at as "offeredAt", h.offered_at + answer_time() as "answerDueAt", h.outcome, h.ended_at as "endedAt", h.ended_reason as "endedReason"`;
const itsNames = (sql: Sql) => sql`
  join job j on j.id = h.job_id
  join engine e on e.id = j.engine_id
  join person g on g.id = h.giver_id
  join person r on r.id = h.receiver_id
  join bay b on b.id = h.place_id`;

export async function findHandover(sql: Sql, id: string): Promise<HandoverRow | undefined> {
  const [row] = await sql<HandoverRow[]>`${handovers(sql)} from handover h ${itsNames(sql)} where h.id = ${id}`;
  return row;
}

/** A handover's engine never changes, so it may be read before that engine is locked. */
export async function findEngineOfHandover(sql: Sql, id: string): Promise<string | undefined> {
  const [row] = await sql<{ engineId: string }[]>`
    select j.engine_id as "engineId" from handover h join job j on j.id = h.job_id where h.id = ${id}`;
  return row?.engineId;
}

/** A page of handovers, latest offer first, with how many of its trays are counted. */
export async function findHandovers(
  sql: Sql,
  of: { personId: string | undefined; openOnly: boolean; after: { at: string; id: string } | undefined; limit: number },
) {
  const mine = of.personId ?? null;
  return sql<(HandoverRow & { trays: number; traysCounted: number })[]>`
    ${handovers(sql)},
      ((select count(*) from handover_tray t where t.handover_id = h.id)
       + exists (select from handover_line l where l.handover_id = h.id and l.tray_id is null)::int)::int as trays,
      (select count(distinct coalesce(l.tray_id, h.engine_id)) from handover_line l join handover_count c on c.line_id = l.id
       where l.handover_id = h.id)::int as "traysCounted"
    from handover h ${itsNames(sql)}
    where (${mine}::uuid is null or h.giver_id = ${mine} or h.receiver_id = ${mine})
      and (not ${of.openOnly} or h.ended_at is null)
      and (${of.after?.at ?? null}::timestamptz is null
           or (h.offered_at, h.id) < (${of.after?.at ?? null}::timestamptz, ${of.after?.id ?? null}::uuid))
    order by h.offered_at desc, h.id desc limit ${of.limit}`;
}

export interface NewHandover {
  readonly jobId: string;
  readonly engineId: string | null;
  readonly giverId: string;
  readonly receiverId: string;
  readonly placeId: string;
  readonly stateWords: string;
  readonly looseWords: string;
}

export async function insertHandover(sql: Sql, of: NewHandover): Promise<string> {
  const id = newId();
  await sql`
    insert into handover (id, job_id, engine_id, giver_id, receiver_id, place_id, state_words, loose_words)
    values (${id}, ${of.jobId}, ${of.engineId}, ${of.giverId}, ${of.receiverId}, ${of.placeId}, ${of.stateWords}, ${of.looseWords})`;
  return id;
}

export interface NewLine {
  /** Null: beside the engine. */
  readonly trayId: string | null;
  readonly pieceId: string | null;
  readonly name: string;
  readonly given: number;
}

export async function insertHandoverTray(
  sql: Sql,
  of: { handoverId: string; trayId: string; lines: readonly NewLine[] },
): Promise<void> {
  await sql`insert into handover_tray (id, handover_id, tray_id) values (${newId()}, ${of.handoverId}, ${of.trayId})`;
  await insertLines(sql, of);
}

export async function insertLines(
  sql: Sql,
  { handoverId, lines }: { handoverId: string; lines: readonly NewLine[] },
): Promise<void> {
  for (const { trayId, pieceId, name, given } of lines) {
    await sql`
      insert into handover_line (id, handover_id, tray_id, piece_id, name, given)
      values (${newId()}, ${handoverId}, ${trayId}, ${pieceId}, ${name}, ${given})`;
  }
}

export interface LineRow {
  readonly lineId: string;
  /** Of what lies beside the engine in no tray: the engine's id. */
  readonly trayId: string;
  readonly label: string;
  readonly trayName: string;
  readonly pieceId: string;
  readonly name: string;
  readonly given: number;
  readonly attempts: number;
  readonly counted: number | null;
  readonly places: readonly string[];
  readonly alsoIn: readonly { readonly tray: { readonly id: string; readonly name: string } | null }[];
  /** What its first difference opened. */
  readonly obligationId: string | null;
}

/** As it lay when it was offered: the places of a rack whose pieces lay in the line's tray. */
const placesThen = (sql: Sql) => sql`
  array(select there.name
        from piece_position mine
        join lateral (select f.laid, f.tray_id from position_fill f
                      where f.piece_id = mine.piece_id and f.code = mine.code and f.filled_at <= h.offered_at
                      order by f.filled_at desc, f.id desc limit 1) f on f.laid and f.tray_id is not distinct from l.tray_id
        left join lateral (select m.at_code from position_move m
                           where m.piece_id = mine.piece_id and m.code = mine.code and m.moved_at <= h.offered_at
                           order by m.moved_at desc, m.id desc limit 1) m on true
        join piece_position there on there.piece_id = mine.piece_id and there.code = coalesce(m.at_code, mine.code)
        where mine.piece_id = l.piece_id order by there.ordinal)`;

/** As it lay when it was offered: the other trays that held more of the same line. */
const traysThen = (sql: Sql) => sql`
  (select coalesce(json_agg(json_build_object('tray', case when o.id is not null then json_build_object('id', o.id, 'name', o.label) end)
                            order by o.label nulls first), '[]')
   from (select m.tray_id from (
           select tray_id, count from piece_movement
           where piece_id = l.piece_id and act in ('off', 'found', 'moved') and moved_at <= h.offered_at
           union all
           select from_tray_id, -count from piece_movement
           where piece_id = l.piece_id and act in ('moved', 'fitted', 'renewed', 'accounted') and moved_at <= h.offered_at) m
         where m.tray_id is distinct from l.tray_id group by m.tray_id having sum(m.count) > 0) lay
   left join tray o on o.id = lay.tray_id)`;

/** Every line of a handover with the receiver's latest count of it, and where the rest of it lay. */
export async function findLines(sql: Sql, handoverId: string): Promise<readonly LineRow[]> {
  return sql<LineRow[]>`
    select l.id as "lineId", coalesce(l.tray_id, h.engine_id) as "trayId", coalesce(t.label, ${besideLabel}) as label,
           coalesce(t.name, 'In no tray, with the engine') as "trayName", l.piece_id as "pieceId", l.name, l.given,
           coalesce(c.attempt, 0) as attempts, c.counted, ${placesThen(sql)} as places, ${traysThen(sql)} as "alsoIn",
           (select o.id from obligation o where o.handover_line_id = l.id) as "obligationId"
    from handover_line l
    join handover h on h.id = l.handover_id
    left join tray t on t.id = l.tray_id
    left join lateral (select attempt, counted from handover_count where line_id = l.id order by attempt desc limit 1) c on true
    where l.handover_id = ${handoverId} order by t.made_at nulls last, t.id, l.id`;
}

export async function insertCounts(
  sql: Sql,
  of: { attempt: number; countedById: string; lines: readonly { lineId: string; counted: number }[] },
): Promise<void> {
  for (const { lineId, counted } of of.lines) {
    await sql`
      insert into handover_count (id, line_id, attempt, counted, counted_by_id)
      values (${newId()}, ${lineId}, ${of.attempt}, ${counted}, ${of.countedById})`;
  }
}

/** Ends an offer; a trigger takes its trays out of it, and refuses to end it twice. */
export async function endOffer(
  sql: Sql,
  of: { id: string; outcome: Outcome; byId: string; reason: string },
): Promise<void> {
  await sql`
    update handover set outcome = ${of.outcome}, ended_at = clock_timestamp(), ended_by_id = ${of.byId}, ended_reason = ${of.reason}
    where id = ${of.id}`;
}

/** The obligations of a job that stand open now. */
export async function findOpenObligations(sql: Sql, jobId: string): Promise<readonly { id: string; words: string }[]> {
  return sql<{ id: string; words: string }[]>`
    select id, words from obligation where job_id = ${jobId} and discharged_at is null order by opened_at, id limit 200`;
}

export interface LooseSet {
  readonly set: string;
  readonly name: string;
  readonly stage: number;
  readonly positions: readonly number[];
}

/** Keeps what stood open and what was loose at the moment of the offer. */
export async function insertOfferedState(
  sql: Sql,
  of: { handoverId: string; obligations: readonly { id: string; words: string }[]; loose: readonly LooseSet[] },
): Promise<void> {
  for (const [index, { id, words }] of of.obligations.entries()) {
    await sql`
      insert into handover_obligation (handover_id, obligation_id, ordinal, words)
      values (${of.handoverId}, ${id}, ${index + 1}, ${words})`;
  }
  for (const { set, name, stage, positions } of of.loose) {
    await sql`
      insert into handover_fastener (handover_id, set_code, name, stage, positions)
      values (${of.handoverId}, ${set}, ${name}, ${stage}, ${[...positions]}::integer[])`;
  }
}

export async function findOfferedState(sql: Sql, handoverId: string) {
  const obligations = await sql<{ id: string; words: string }[]>`
    select obligation_id as id, words from handover_obligation where handover_id = ${handoverId} order by ordinal`;
  const loose = await sql<{ set: string; name: string; stage: number; positions: number[] }[]>`
    select set_code as set, name, stage, positions from handover_fastener
    where handover_id = ${handoverId} order by set_code, stage`;
  return { obligations, loose };
}
