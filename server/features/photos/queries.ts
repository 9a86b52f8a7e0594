import type { Photo, RemovedPhoto } from '#contracts/photos.ts';
import type { Sql } from '#platform/database/client.ts';
import type { Folders, SmallerPart } from '#platform/files/store.ts';

/** What a photo is attached to, by the column that says it; all null: the job itself. */
export interface Attached {
  readonly runId: string | null;
  readonly stepId: string | null;
  readonly pieceId: string | null;
  readonly readingId: string | null;
  readonly findingId: string | null;
  readonly obligationId: string | null;
  readonly handoverId: string | null;
  readonly placeCode: string | null;
}

export interface NewPhoto extends Attached {
  readonly id: string;
  readonly engineId: string;
  readonly jobId: string;
  readonly hash: string;
  readonly type: string;
  readonly bytes: number;
  readonly width: number | null;
  readonly height: number | null;
  readonly name: string;
  readonly caption: string;
  readonly takenAt: string;
  readonly byId: string;
  readonly terminalId: string | null;
}

export async function insertPhoto(sql: Sql, photo: NewPhoto): Promise<void> {
  await sql`
    insert into photo (id, engine_id, job_id, hash, type, bytes, width, height, name, caption, taken_at, run_id, step_id, piece_id,
                       reading_id, finding_id, obligation_id, handover_id, place_code, added_by_id, terminal_id)
    values (${photo.id}, ${photo.engineId}, ${photo.jobId}, ${photo.hash}, ${photo.type}, ${photo.bytes}, ${photo.width},
            ${photo.height}, ${photo.name}, ${photo.caption}, ${photo.takenAt}, ${photo.runId}, ${photo.stepId}, ${photo.pieceId},
            ${photo.readingId}, ${photo.findingId}, ${photo.obligationId}, ${photo.handoverId}, ${photo.placeCode},
            ${photo.byId}, ${photo.terminalId})`;
}

/** A photo as it is listed, with what the service needs to decide who may see it. */
export type PhotoRow = Omit<Photo, 'job' | 'by' | 'terminal' | 'of'> & {
  readonly jobId: string;
  readonly jobNumber: number;
  readonly byId: string;
  readonly by: string;
  readonly terminalId: string | null;
  readonly terminal: string | null;
  readonly of: Photo['of'];
  readonly serial: string;
  readonly hash: string;
  /** The tray of the piece that it shows. */
  readonly trayIds: readonly string[];
};

const attachedTo = (sql: Sql) => sql`
  case
    when p.step_id is not null then (select json_build_object('kind', 'step', 'id', s.id, 'words', 'Step ' || s.ordinal || ', ' || s.title)
                                     from procedure_step s where s.id = p.step_id)
    when p.piece_id is not null then json_build_object('kind', 'piece', 'id', i.id, 'words', piece_name(i))
    when p.reading_id is not null then (select json_build_object('kind', 'reading', 'id', r.id, 'words', coalesce(
          (select d.name from spec_dimension d where d.revision_id = j.revision_id and d.code = r.dimension_code), r.dimension_code)
          || ', ' || r.keyed_text || ' ' || r.keyed_unit) from reading r where r.id = p.reading_id)
    when p.finding_id is not null then (select json_build_object('kind', 'finding', 'id', f.id, 'words', f.dimension_name || ', ' || f.round)
                                        from finding f where f.id = p.finding_id)
    when p.obligation_id is not null then (select json_build_object('kind', 'obligation', 'id', o.id, 'words', o.words) from obligation o where o.id = p.obligation_id)
    when p.handover_id is not null then (select json_build_object('kind', 'handover', 'id', h.id, 'words', 'Handover to ' || w.name)
                                         from handover h join person w on w.id = h.receiver_id where h.id = p.handover_id)
    when p.place_code is not null then json_build_object('kind', 'place', 'id', p.place_code, 'words', coalesce(
          (select s.name from spec_place s where s.revision_id = j.revision_id and s.code = p.place_code), p.place_code))
    else json_build_object('kind', 'job', 'id', j.id, 'words', '')
  end`;

type Which =
  | { readonly engineId: string }
  | { readonly jobId: string }
  | { readonly id: string }
  | { readonly hashes: readonly string[] };

/** Those that nobody removed, the newest first. */
export async function findPhotos(sql: Sql, which: Which): Promise<readonly PhotoRow[]> {
  const engineId = 'engineId' in which ? which.engineId : null;
  const jobId = 'jobId' in which ? which.jobId : null;
  const id = 'id' in which ? which.id : null;
  const hashes = 'hashes' in which ? [...which.hashes] : null;
  return sql<PhotoRow[]>`
    select p.id, p.hash, p.engine_id as "engineId", e.serial, p.job_id as "jobId", j.number as "jobNumber", p.type, p.bytes, p.width, p.height, p.name,
           coalesce(n.caption, p.caption) as caption, coalesce(n.on_sheet, p.type <> 'application/pdf' and q.photo <> '', false) as "onSheet", p.taken_at as "takenAt",
           p.added_at as "addedAt", w.id as "byId", w.name as by, t.id as "terminalId", t.name as terminal, array(select l.counted_with from piece_counted_with l where l.piece_id = p.piece_id) as "trayIds",
           ${attachedTo(sql)} as of
    from photo p join job j on j.id = p.job_id join engine e on e.id = p.engine_id join person w on w.id = p.added_by_id
    left join terminal t on t.id = p.terminal_id left join piece i on i.id = p.piece_id left join procedure_step q on q.id = p.step_id
    left join lateral (select caption, on_sheet from photo_note where photo_id = p.id order by said_at desc, id desc limit 1) n on true
    where (${engineId}::uuid is null or p.engine_id = ${engineId}) and (${jobId}::uuid is null or p.job_id = ${jobId})
      and (${id}::uuid is null or p.id = ${id}) and (${hashes}::text[] is null or p.hash = any(${hashes}))
      and not exists (select from photo_removal r where r.photo_id = p.id)
    order by p.taken_at desc, p.id desc`;
}

export async function findRemoved(sql: Sql, engineId: string): Promise<readonly RemovedPhoto[]> {
  const rows = await sql<(Omit<RemovedPhoto, 'by'> & { byId: string; byName: string })[]>`
    select p.id, r.reason, r.removed_at as at, w.id as "byId", w.name as "byName",
           not exists (select from file_discard d where d.hash = p.hash and d.discarded_at > p.added_at) as kept
    from photo_removal r join photo p on p.id = r.photo_id join person w on w.id = r.removed_by_id
    where p.engine_id = ${engineId} order by r.removed_at desc, p.id desc`;
  return rows.map(({ byId, byName, ...removed }) => ({ ...removed, by: { id: byId, name: byName } }));
}

/** What lies under an id, removed or not. */
export async function findStored(sql: Sql, id: string) {
  const [row] = await sql<
    {
      jobId: string;
      hash: string;
      type: Photo['type'];
      name: string;
      byId: string;
      trayIds: readonly string[];
      removed: boolean;
    }[]
  >`
    select p.job_id as "jobId", p.hash, p.type, p.name, p.added_by_id as "byId", array(select l.counted_with from piece_counted_with l where l.piece_id = p.piece_id) as "trayIds",
           exists (select from photo_removal r where r.photo_id = p.id) as removed
    from photo p where p.id = ${id}`;
  return row;
}

export async function findJobOf(sql: Sql, jobId: string) {
  const [row] = await sql<{ engineId: string }[]>`select engine_id as "engineId" from job where id = ${jobId}`;
  return row;
}

export async function engineExists(sql: Sql, id: string): Promise<boolean> {
  return (await sql`select from engine where id = ${id}`).length > 0;
}

/** A camera's local time as an instant in the shop's zone, if it is within the last month; null: not to be believed. */
export async function believedTime(
  sql: Sql,
  time: { readonly local: string; readonly offset: string | undefined },
): Promise<string | null> {
  const [row] = await sql<{ at: string | null }[]>`
    select case when t.at between now() - interval '31 days' and now() + interval '2 minutes' then t.at end as at
    from (select case when ${time.offset ?? null}::text is not null then (${time.local} || coalesce(${time.offset ?? null}, ''))::timestamptz
                      else ${time.local}::timestamp at time zone coalesce((select zone from shop), 'UTC') end as at) t`;
  return row?.at ?? null;
}

/** Held until the act ends: whoever adds and whoever discards one content wait for each other. */
export async function lockHash(sql: Sql, hash: string): Promise<void> {
  await sql`select pg_advisory_xact_lock(hashtextextended(${`file ${hash}`}, 0))`;
}

/** Discarded, and in no photo that was added after that. */
export async function isDiscarded(sql: Sql, hash: string): Promise<boolean> {
  const [row] = await sql<{ gone: boolean }[]>`
    select coalesce(max(d.discarded_at) > (select max(p.added_at) from photo p where p.hash = ${hash}), false) as gone
    from file_discard d where d.hash = ${hash}`;
  return row?.gone ?? false;
}

export async function insertNote(
  sql: Sql,
  note: { id: string; photoId: string; caption: string; onSheet: boolean; byId: string },
): Promise<void> {
  await sql`
    insert into photo_note (id, photo_id, caption, on_sheet, said_by_id)
    values (${note.id}, ${note.photoId}, ${note.caption}, ${note.onSheet}, ${note.byId})`;
}

export async function insertRemoval(
  sql: Sql,
  removal: { photoId: string; reason: string; byId: string },
): Promise<void> {
  await sql`
    insert into photo_removal (photo_id, reason, removed_by_id) values (${removal.photoId}, ${removal.reason}, ${removal.byId})`;
}

export async function insertDiscard(
  sql: Sql,
  discard: { id: string; hash: string; reason: string; byId: string },
): Promise<void> {
  await sql`
    insert into file_discard (id, hash, reason, discarded_by_id)
    values (${discard.id}, ${discard.hash}, ${discard.reason}, ${discard.byId})`;
}

/** Keeps what the smaller pictures of a content hash to; packed anew, they may hash otherwise. */
export async function keepPartHash(
  sql: Sql,
  of: { readonly hash: string; readonly part: SmallerPart; readonly partHash: string },
): Promise<void> {
  await sql`
    insert into file_part (hash, part, part_hash) values (${of.hash}, ${of.part}, ${of.partHash})
    on conflict (hash, part) do update set part_hash = excluded.part_hash`;
}

/** What the smaller pictures in some folders hash to, as far as that was kept. */
export async function findPartHashes(sql: Sql, folders: Folders) {
  return sql<{ hash: string; part: SmallerPart; partHash: string }[]>`
    select hash, part, part_hash as "partHash" from file_part where left(hash, 2) between ${folders.from} and ${folders.to}`;
}

/** Every content in some folders of the store that a row names; `shown`: by a photo that nobody removed. */
export async function findHashes(sql: Sql, folders: Folders) {
  return sql<{ hash: string; shown: boolean; picture: boolean }[]>`
    select p.hash, bool_or(not exists (select from photo_removal r where r.photo_id = p.id)) as shown,
           bool_or(p.type <> 'application/pdf') as picture
    from photo p where left(p.hash, 2) between ${folders.from} and ${folders.to} group by p.hash order by p.hash`;
}
