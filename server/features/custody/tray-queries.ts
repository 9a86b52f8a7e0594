import { besideLabel } from '#domain/custody/counting.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface TrayRow {
  readonly id: string;
  readonly jobId: string;
  readonly label: string;
  readonly name: string;
  readonly alone: boolean;
  readonly layer: 'cover' | 'head' | 'cylinder' | 'case' | null;
  readonly madeAt: string;
  readonly emptiedAt: string | null;
}

const trayColumns = (sql: Sql) => sql`
  t.id, t.job_id as "jobId", t.label, t.name, t.alone, t.layer, t.made_at as "madeAt", t.emptied_at as "emptiedAt"`;

const holderColumns = (sql: Sql) => sql`
  case when c.id is null then null when c.person_id is not null then 'person' when c.rest_bay_id is not null then 'bay'
       when c.vendor_id is not null then 'vendor' else 'owner' end as "holderKind",
  coalesce(c.person_id, c.rest_bay_id, c.vendor_id, c.owner_id) as "holderId",
  coalesce(p.name, b.name, v.name, w.name) as "holderName", c.place_id as "placeId", s.name as "placeName", c.from_at as since`;
const itsHolder = (sql: Sql) => sql`
  left join custody c on c.tray_id = t.id and c.until_at is null
  left join person p on p.id = c.person_id
  left join bay b on b.id = c.rest_bay_id
  left join vendor v on v.id = c.vendor_id
  left join owner w on w.id = c.owner_id
  left join bay s on s.id = c.place_id
  left join handover_tray o on o.tray_id = t.id and o.open`;

export interface HolderOfTray {
  readonly offeredIn: string | null;
  readonly holderKind: 'person' | 'bay' | 'vendor' | 'owner' | null;
  readonly holderId: string;
  readonly holderName: string;
  readonly placeId: string | null;
  readonly placeName: string | null;
  readonly since: string;
}

/** Every tray in use of a job in the shop, by job. */
export async function findTraysInShop(sql: Sql) {
  return sql<(TrayRow & HolderOfTray & { number: number; engineId: string; serial: string })[]>`
    select ${trayColumns(sql)}, j.number, e.id as "engineId", e.serial, o.handover_id as "offeredIn", ${holderColumns(sql)}
    from tray t join job j on j.id = t.job_id join engine e on e.id = j.engine_id ${itsHolder(sql)}
    where t.emptied_at is null and j.handed_back_at is null order by j.number, t.made_at, t.id`;
}

export async function findTrays(sql: Sql, jobId: string) {
  return sql<(TrayRow & HolderOfTray)[]>`
    select ${trayColumns(sql)}, o.handover_id as "offeredIn",
           ${holderColumns(sql)}
    from tray t ${itsHolder(sql)}
    where t.job_id = ${jobId} order by t.made_at, t.id`;
}

/** Locks some trays in the order of their ids, so that two acts on the same trays wait for each other. */
export async function lockTrays(sql: Sql, ids: readonly string[]): Promise<readonly TrayRow[]> {
  if (ids.length === 0) return [];
  return sql<
    TrayRow[]
  >`select ${trayColumns(sql)} from tray t where t.id = any(${[...ids]}::uuid[]) order by t.id for update`;
}

export async function insertTray(
  sql: Sql,
  tray: { jobId: string; label: string; name: string; alone: boolean; layer: string | null },
): Promise<string> {
  const id = newId();
  await sql`
    insert into tray (id, job_id, label, name, alone, layer)
    values (${id}, ${tray.jobId}, ${tray.label}, ${tray.name}, ${tray.alone}, ${tray.layer})`;
  return id;
}

/** The lowest number not yet used on a label of the form `<job number>·<n>`. */
export async function findNextTrayNumber(sql: Sql, job: { id: string; number: number }): Promise<number> {
  const [row] = await sql<{ next: number }[]>`
    select coalesce(max(substring(label from ${`^${job.number}·(\\d{1,4})$`})::int), 0) + 1 as next from tray where job_id = ${job.id}`;
  return row?.next ?? 1;
}

export interface LooseLine {
  /** Of what lies beside the engine in no tray: the engine's id. */
  readonly trayId: string;
  readonly pieceId: string;
  readonly name: string;
  readonly loose: number;
}

/** What is counted: some trays, and with the engine itself what lies beside it in no tray. */
export interface ToCount {
  readonly trayIds: readonly string[];
  readonly besideOf?: { readonly jobId: string } | undefined;
}

/** What the tally says is loose in some trays, and beside the engine of a job, line by line. */
export async function findLooseIn(sql: Sql, { trayIds, besideOf }: ToCount): Promise<readonly LooseLine[]> {
  return sql<LooseLine[]>`
    select l.counted_with as "trayId", p.id as "pieceId", l.count as loose,
           piece_name(p) as name
    from (select i.tray_id as counted_with, i.piece_id, i.count, false as beside from piece_in_tray i
          where i.tray_id = any(${[...trayIds]}::uuid[]) and i.count > 0
          union all
          select o.engine_id, b.id, b.with_engine, true from piece b join opening o on o.id = b.opening_id
          where o.job_id = ${besideOf?.jobId ?? null} and b.with_engine > 0) l
    join piece p on p.id = l.piece_id
    order by l.beside, l.counted_with, p.added_at, p.id`;
}

/** Whose trays are asked about: one job's, one engine's, or (neither named) the whole shop's. */
export interface ForViewer {
  readonly viewerId: string;
  readonly jobId?: string;
  readonly engineId?: string;
}

/**
 * What lies in trays the viewer must not know the count of yet: each tray at least once, its pieces by full name. What
 * lies in no tray comes with the id of the engine beside which it lies.
 */
export async function findBlindPieces(sql: Sql, { viewerId, jobId, engineId }: ForViewer) {
  const offers = sql`
    h.ended_at is null and h.giver_id <> ${viewerId}
    and (${jobId ?? null}::uuid is null or h.job_id = ${jobId ?? null}) and (${engineId ?? null}::uuid is null or j.engine_id = ${engineId ?? null})`;
  return sql<{ trayId: string; label: string; pieceId: string | null; name: string | null }[]>`
    select ht.tray_id as "trayId", t.label, p.id as "pieceId", piece_name(p) as name
    from handover h join job j on j.id = h.job_id join handover_tray ht on ht.handover_id = h.id join tray t on t.id = ht.tray_id
    left join piece_in_tray i on i.tray_id = t.id left join piece p on p.id = i.piece_id
    where ${offers}
      and not exists (select from handover_line l join handover_count c on c.line_id = l.id
                      where l.handover_id = h.id and l.tray_id = ht.tray_id)
    union all
    select j.engine_id, ${besideLabel}, l.piece_id, l.name
    from handover h join job j on j.id = h.job_id join handover_line l on l.handover_id = h.id and l.tray_id is null
    where ${offers}
      and not exists (select from handover_line o join handover_count c on c.line_id = o.id
                      where o.handover_id = h.id and o.tray_id is null)`;
}

/** Obligations whose words tell a count of what lies in such trays, or beside such engines. */
export async function findObligationsAbout(sql: Sql, trayIds: readonly string[]) {
  const ids = [...trayIds];
  return sql<{ id: string; label: string; piece: string }[]>`
    with lying as (
      select w.piece_id, coalesce(t.label, ${besideLabel}) as label
      from piece_counted_with w left join tray t on t.id = w.counted_with where w.counted_with = any(${ids}::uuid[]))
    select o.id, y.label, piece_name(p) as piece
    from lying y join piece p on p.id = y.piece_id join obligation o on o.piece_id = p.id
    union all
    select o.id, coalesce(t.label, ${besideLabel}), l.name
    from handover_line l join handover h on h.id = l.handover_id join job j on j.id = h.job_id left join tray t on t.id = l.tray_id
    join obligation o on o.handover_line_id = l.id where coalesce(l.tray_id, j.engine_id) = any(${ids}::uuid[])
    union all -- of a piece that lay elsewhere when it was counted
    select o.id, y.label, l.name
    from lying y join handover_line l on l.piece_id = y.piece_id join obligation o on o.handover_line_id = l.id`;
}

/** What was counted again where a first difference opened an obligation, at a handover or as something moved: it stands all the same. */
export async function findCountsAgain(sql: Sql, { jobId, engineId }: Omit<ForViewer, 'viewerId'>) {
  const asked = sql`
    ${jobId === undefined && engineId === undefined ? sql`o.discharged_at is null` : sql`true`}
    and (${jobId ?? null}::uuid is null or o.job_id = ${jobId ?? null}) and (${engineId ?? null}::uuid is null or o.engine_id = ${engineId ?? null})`;
  return sql<{ id: string; counted: number; given: number }[]>`
    select o.id, c.counted, l.given
    from obligation o join handover_line l on l.id = o.handover_line_id
    join lateral (select k.counted, k.attempt from handover_count k where k.line_id = l.id order by k.attempt desc limit 1) c on true
    where ${asked}
      and c.attempt > (select min(k.attempt) from handover_count k where k.line_id = l.id and k.counted <> l.given)
    union all
    select o.id, c.counted, c.expected
    from obligation o
    join lateral (select m.* from moving_count m where m.obligation_id = o.id order by m.counted_at, m.id limit 1) f on true
    join lateral (select k.counted, k.expected from moving_count k
                  where k.piece_id = f.piece_id and k.tray_id is not distinct from f.tray_id and k.counted_at > f.counted_at
                    and (o.discharged_at is null or k.counted_at < o.discharged_at)
                  order by k.counted_at desc, k.id desc limit 1) c on true
    where ${asked}`;
}

/** Trays of a job that somebody is to count blind: offered, not counted yet, and the viewer is not who gives them. */
export async function findBlindTrays(sql: Sql, of: ForViewer): Promise<readonly string[]> {
  return [...new Set((await findBlindPieces(sql, of)).map(({ trayId }) => trayId))];
}

/** The instant at which a job's trays were emptied; their custody ends at that very instant. */
export async function emptyAllTrays(sql: Sql, jobId: string): Promise<readonly string[]> {
  const [now] = await sql<{ at: string }[]>`select clock_timestamp() as at`;
  const at = now?.at ?? '';
  const rows = await sql<{ id: string; label: string }[]>`
    update tray set emptied_at = ${at}::timestamptz where job_id = ${jobId} and emptied_at is null returning id, label`;
  await sql`
    update custody set until_at = ${at}::timestamptz
    where until_at is null and tray_id = any(${rows.map(({ id }) => id)}::uuid[])`;
  return rows.map(({ label }) => label);
}
