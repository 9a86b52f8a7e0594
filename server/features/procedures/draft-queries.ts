import type { ProcedureDocument } from '#contracts/procedure-documents.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import type { Kind } from './queries.ts';

export interface ShelfRow {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly kind: Kind;
  readonly familyId: string;
  readonly familyName: string;
  readonly versionId: string;
  readonly number: number;
  readonly publishedAt: string | null;
  readonly draftedAt: string;
  readonly byId: string | null;
  readonly by: string | null;
  readonly note: string;
  readonly steps: number;
  readonly runs: number;
  readonly openRuns: number;
}

/** Every version of every procedure with how many runs follow it; newest version first. */
export async function findShelf(sql: Sql): Promise<readonly ShelfRow[]> {
  return sql<ShelfRow[]>`
    select p.id, p.code, p.name, p.kind, f.id as "familyId", f.name as "familyName", v.id as "versionId", v.number,
           v.published_at as "publishedAt", v.drafted_at as "draftedAt", b.id as "byId", b.name as by,
           coalesce(v.document ->> 'note', v.note) as note,
           case when v.document is null then (select count(*) from procedure_step s where s.version_id = v.id)::int
                else json_array_length(v.document -> 'steps') end as steps,
           runs.all as runs, runs.open as "openRuns"
    from procedure p
    join family f on f.id = p.family_id
    join procedure_version v on v.procedure_id = p.id
    left join person b on b.id = coalesce(v.published_by_id, v.drafted_by_id)
    cross join lateral (
      select count(*)::int as all, count(*) filter (where j.handed_back_at is null)::int as open
      from procedure_run r join job j on j.id = r.job_id where r.version_id = v.id) runs
    order by f.name, array_position(array['strip', 'assemble', 'prove'], p.kind), p.code, v.number desc`;
}

interface ProcedureRow {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly kind: Kind;
  readonly familyId: string;
  readonly family: string;
}

/** The procedure of a code, or of an id, locked. */
export async function lockProcedure(
  sql: Sql,
  of: { id: string } | { code: string },
): Promise<ProcedureRow | undefined> {
  const [row] = await sql<ProcedureRow[]>`
    select p.id, p.code, p.name, p.kind, f.id as "familyId", f.code as family
    from procedure p join family f on f.id = p.family_id
    where ${'id' in of ? sql`p.id = ${of.id}` : sql`p.code = ${of.code}`} for update of p`;
  return row;
}

export async function findFamilyByCode(sql: Sql, code: string): Promise<{ id: string } | undefined> {
  const [row] = await sql<{ id: string }[]>`select id from family where code = ${code}`;
  return row;
}

export async function findFamilyCode(sql: Sql, id: string): Promise<string | undefined> {
  const [row] = await sql<{ code: string }[]>`select code from family where id = ${id}`;
  return row?.code;
}

export async function insertProcedure(
  sql: Sql,
  of: { readonly code: string; readonly name: string; readonly kind: Kind; readonly familyId: string },
): Promise<string> {
  const id = newId();
  await sql`
    insert into procedure (id, code, name, kind, family_id) values (${id}, ${of.code}, ${of.name}, ${of.kind}, ${of.familyId})`;
  return id;
}

export async function findDraftOf(sql: Sql, procedureId: string): Promise<{ id: string; number: number } | undefined> {
  const [row] = await sql<{ id: string; number: number }[]>`
    select id, number from procedure_version where procedure_id = ${procedureId} and published_at is null`;
  return row;
}

/** The newest published version of a procedure. */
export async function findNewestPublished(sql: Sql, procedureId: string): Promise<string | undefined> {
  const [row] = await sql<{ id: string }[]>`
    select id from procedure_version where procedure_id = ${procedureId} and published_at is not null order by number desc limit 1`;
  return row?.id;
}

export async function insertDraft(
  sql: Sql,
  of: { readonly procedureId: string; readonly document: ProcedureDocument; readonly byId: string },
): Promise<{ id: string; number: number; edit: number }> {
  const id = newId();
  const [row] = await sql<{ number: number; edit: number }[]>`
    insert into procedure_version (id, procedure_id, number, document, drafted_by_id)
    values (${id}, ${of.procedureId}, (select coalesce(max(number), 0) + 1 from procedure_version where procedure_id = ${of.procedureId}),
            ${JSON.stringify(of.document)}::text::json, ${of.byId})
    returning number, edit`;
  return { id, number: row?.number ?? 1, edit: row?.edit ?? 1 };
}

export async function updateDraft(sql: Sql, of: { id: string; document: ProcedureDocument }): Promise<number> {
  const [row] = await sql<{ edit: number }[]>`
    update procedure_version set document = ${JSON.stringify(of.document)}::text::json, edit = edit + 1
    where id = ${of.id} returning edit`;
  return row?.edit ?? 1;
}

/** The name may change with a new version; its code, kind and family never do. */
export async function publishVersion(
  sql: Sql,
  of: {
    readonly id: string;
    readonly procedureId: string;
    readonly name: string;
    readonly note: string;
    readonly byId: string;
  },
): Promise<string> {
  await sql`update procedure set name = ${of.name} where id = ${of.procedureId} and name <> ${of.name}`;
  const [row] = await sql<{ publishedAt: string }[]>`
    update procedure_version set published_at = clock_timestamp(), published_by_id = ${of.byId}, note = ${of.note}, document = null
    where id = ${of.id} returning published_at as "publishedAt"`;
  return row?.publishedAt ?? '';
}

/** Removes a draft, and its procedure when nothing else is left of it. */
export async function deleteDraft(sql: Sql, of: { id: string; procedureId: string }): Promise<void> {
  await sql`delete from procedure_version where id = ${of.id}`;
  await sql`
    delete from procedure p where p.id = ${of.procedureId} and not exists (select from procedure_version v where v.procedure_id = p.id)`;
}

interface Coded {
  readonly code: string;
  readonly name: string;
}

/** What the family's newest published sheet calls its dimensions and fastener sets; undefined: it has none. */
export async function findSheetNames(sql: Sql, familyId: string) {
  const [row] = await sql<{ dimensions: Coded[]; fastenerSets: Coded[] }[]>`
    select coalesce((select json_agg(json_build_object('code', code, 'name', name) order by ordinal)
                     from spec_dimension where revision_id = r.id), '[]') as dimensions,
           coalesce((select json_agg(json_build_object('code', code, 'name', name) order by code)
                     from spec_fastener_set where revision_id = r.id), '[]') as "fastenerSets"
    from spec_revision r where r.family_id = ${familyId} and r.published_at is not null order by r.number desc limit 1`;
  return row;
}
