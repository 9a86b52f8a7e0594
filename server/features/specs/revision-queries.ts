import type { SheetDocument } from '#domain/spec-sheet/document.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export interface FamilyRow {
  readonly id: string;
  readonly code: string;
  readonly name: string;
}

export async function findFamily(sql: Sql, id: string): Promise<FamilyRow | undefined> {
  const [row] = await sql<FamilyRow[]>`select id, code, name from family where id = ${id}`;
  return row;
}

/** Taken before a revision is numbered, so that two drafts of a family can't get one number. */
export async function lockFamily(sql: Sql, id: string): Promise<FamilyRow | undefined> {
  const [row] = await sql<FamilyRow[]>`select id, code, name from family where id = ${id} for no key update`;
  return row;
}

export interface NewFamilyRow {
  readonly code: string;
  readonly name: string;
  readonly cycle: string;
  readonly cooling: string;
  readonly boreNm: number;
  readonly strokeNm: number;
}

export async function insertFamily(sql: Sql, family: NewFamilyRow): Promise<string> {
  const id = newId();
  await sql`
    insert into family (id, code, name, cycle, cooling, bore_nm, stroke_nm)
    values (${id}, ${family.code}, ${family.name}, ${family.cycle}, ${family.cooling}, ${family.boreNm}, ${family.strokeNm})`;
  return id;
}

export interface RevisionListed {
  readonly id: string;
  readonly number: number;
  readonly note: string;
  readonly figuresInvented: boolean;
  readonly draftedById: string | null;
  readonly draftedByName: string | null;
  readonly draftedAt: string;
  readonly publishedById: string | null;
  readonly publishedByName: string | null;
  readonly publishedAt: string | null;
  readonly version: number;
  readonly dimensions: number;
  readonly openJobs: number;
  readonly jobs: number;
}

/** A family's revisions, the newest first. Plans: spec_revision_family_id_number_key, job by revision. */
export async function findRevisions(sql: Sql, familyId: string): Promise<readonly RevisionListed[]> {
  return sql<RevisionListed[]>`
    select r.id, r.number, r.note, r.figures_invented as "figuresInvented", r.drafted_by_id as "draftedById",
           d.name as "draftedByName", r.drafted_at as "draftedAt", r.published_by_id as "publishedById",
           p.name as "publishedByName", r.published_at as "publishedAt", r.version,
           (select count(*)::int from spec_dimension s where s.revision_id = r.id) as dimensions,
           coalesce(j.open, 0) as "openJobs", coalesce(j.jobs, 0) as jobs
    from spec_revision r
    left join person d on d.id = r.drafted_by_id
    left join person p on p.id = r.published_by_id
    left join (select revision_id, count(*)::int as jobs, (count(*) filter (where handed_back_at is null))::int as open
               from job group by revision_id) j on j.revision_id = r.id
    where r.family_id = ${familyId} order by r.number desc`;
}

export interface RevisionDrafted {
  readonly id: string;
  readonly number: number;
  readonly version: number;
  readonly publishedAt: string | null;
  readonly familyId: string;
  readonly familyCode: string;
  readonly familyName: string;
  readonly document: SheetDocument | null;
}

const revisionColumns = (sql: Sql) => sql`
  r.id, r.number, r.version, r.published_at as "publishedAt", r.family_id as "familyId", f.code as "familyCode",
  f.name as "familyName", r.document`;

export async function findDrafted(sql: Sql, id: string): Promise<RevisionDrafted | undefined> {
  const [row] = await sql<RevisionDrafted[]>`
    select ${revisionColumns(sql)} from spec_revision r join family f on f.id = r.family_id where r.id = ${id}`;
  return row;
}

export async function lockRevision(sql: Sql, id: string): Promise<RevisionDrafted | undefined> {
  const [row] = await sql<RevisionDrafted[]>`
    select ${revisionColumns(sql)} from spec_revision r join family f on f.id = r.family_id where r.id = ${id} for update of r`;
  return row;
}

/** The draft of a family, if there is one. */
export async function findDraftNumber(sql: Sql, familyId: string): Promise<number | undefined> {
  const [row] = await sql<{ number: number }[]>`
    select number from spec_revision where family_id = ${familyId} and published_at is null`;
  return row?.number;
}

/** The family's lock is held, so the next number is free. */
export async function insertDraft(
  sql: Sql,
  of: { readonly familyId: string; readonly draftedById: string },
): Promise<{ id: string; number: number }> {
  const id = newId();
  const [row] = await sql<{ number: number }[]>`
    insert into spec_revision (id, family_id, number, drafted_by_id)
    select ${id}, ${of.familyId}, coalesce(max(r.number), 0) + 1, ${of.draftedById}
    from spec_revision r where r.family_id = ${of.familyId} returning number`;
  return { id, number: row?.number ?? 0 };
}

export async function deleteRevision(sql: Sql, id: string): Promise<void> {
  await sql`delete from spec_revision where id = ${id}`;
}

export async function publishRevision(sql: Sql, id: string, publishedById: string): Promise<string> {
  const [row] = await sql<{ publishedAt: string }[]>`
    update spec_revision set published_at = clock_timestamp(), published_by_id = ${publishedById}
    where id = ${id} returning published_at as "publishedAt"`;
  return row?.publishedAt ?? '';
}

export interface JobOnRevision {
  readonly id: string;
  readonly number: number;
  readonly engineId: string;
  readonly serial: string;
  readonly handedBackAt: string | null;
}

/** Every job still in the shop, and of the others the newest, a hundred in all. */
export async function findJobsOn(sql: Sql, revisionId: string): Promise<readonly JobOnRevision[]> {
  return sql<JobOnRevision[]>`
    select j.id, j.number, j.engine_id as "engineId", e.serial, j.handed_back_at as "handedBackAt"
    from job j join engine e on e.id = j.engine_id
    where j.revision_id = ${revisionId}
    order by (j.handed_back_at is not null), j.number desc limit 100`;
}
