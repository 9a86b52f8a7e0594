import type {
  Drafted,
  DraftKept,
  DraftRevision,
  NewFamily,
  Published,
  RevisionJobs,
  Revisions,
  SheetChanges,
} from '#contracts/spec-sheets.ts';
import { changesBetween } from '#domain/spec-sheet/changes.ts';
import { checkSheet } from '#domain/spec-sheet/check.ts';
import type { CheckedSheet } from '#domain/spec-sheet/checked.ts';
import type { SheetDocument } from '#domain/spec-sheet/document.ts';
import type { SheetFault } from '#domain/spec-sheet/faults.ts';
import type { Act } from '#platform/act.ts';
import type { Database, Sql } from '#platform/database/client.ts';
import { baseOf } from '#platform/keyed-quantity.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { writtenDown } from './document.ts';
import {
  deleteRevision,
  findDrafted,
  findDraftNumber,
  findFamily,
  findJobsOn,
  findRevisions,
  insertDraft,
  insertFamily,
  lockFamily,
  lockRevision,
  publishRevision,
  type RevisionDrafted,
} from './revision-queries.ts';
import { sheetInFull, specOf } from './service.ts';
import { deleteSheetRows, insertSheetRows, updateDraft } from './sheet-rows.ts';

export type { RevisionDrafted } from './revision-queries.ts';

const mostFaultsTold = 100;

/** Every fault is named by its place in the document; nothing of it was kept. */
export function sheetRefusal(faults: readonly SheetFault[]): ProblemError {
  const [first] = faults;
  const where = first === undefined ? '' : `${first.pointer}: ${first.detail} `;
  const count = faults.length === 1 ? 'One thing is wrong' : `${faults.length} things are wrong`;
  return new ProblemError('refused', `${where}${count}; nothing was kept.`, {
    errors: faults.slice(0, mostFaultsTold),
  });
}

/** Adds a family of engines. It has no spec sheet yet, so no engine of it can be taken in. */
export async function addFamily(act: Act, asked: NewFamily): Promise<{ id: string }> {
  const [boreNm, strokeNm] = (['bore', 'stroke'] as const).map((field): number => {
    const base = baseOf(asked[field], 'length', `/${field}`);
    if (base > 0) return base;
    const detail = `The ${field} must be above nothing.`;
    throw new ProblemError('refused', detail, { errors: [{ pointer: `/${field}/value`, detail }] });
  });
  const { code, name, cycle, cooling } = asked;
  const row = { code, name: name.trim(), cycle, cooling, boreNm: boreNm ?? 0, strokeNm: strokeNm ?? 0 };
  const id = await insertFamily(act.sql, row);
  await act.event('family.added', { data: { code, name: row.name } });
  return { id };
}

const named = (id: string | null, name: string | null) => (id === null || name === null ? null : { id, name });

/** Every revision of a family, drafts too, with how many jobs are bound to each. */
export async function revisionsOf(sql: Sql, familyId: string): Promise<Revisions> {
  const family = found(await findFamily(sql, familyId), 'such engine family');
  const rows = await findRevisions(sql, familyId);
  return {
    family,
    items: rows.map(({ draftedById, draftedByName, publishedById, publishedByName, ...row }) => ({
      ...row,
      draftedBy: named(draftedById, draftedByName),
      publishedBy: named(publishedById, publishedByName),
    })),
  };
}

/** Any revision as a document: as it was written down, or from its rows. */
export async function documentOf(
  db: Database,
  revisionId: string,
): Promise<{ readonly revision: RevisionDrafted; readonly document: SheetDocument }> {
  const revision = found(await findDrafted(db.sql, revisionId), 'such spec revision');
  if (revision.document !== null) return { revision, document: revision.document };
  const [sheet, { places }] = await Promise.all([sheetInFull(db, revisionId), specOf(db.sql, revisionId)]);
  const family = { code: revision.familyCode, name: revision.familyName };
  return { revision, document: writtenDown(sheet, family, places) };
}

export async function changesSince(db: Database, of: { id: string; since: string }): Promise<SheetChanges> {
  const [after, before] = [await documentOf(db, of.id), await documentOf(db, of.since)];
  const naming = ({ id, number }: RevisionDrafted) => ({ id, number });
  if (after.revision.familyId !== before.revision.familyId)
    throw new ProblemError('refused', 'These are sheets of two engine families. Compare revisions of one.');
  return {
    from: naming(before.revision),
    to: naming(after.revision),
    items: [...changesBetween(before.document, after.document)],
  };
}

export async function jobsOn(sql: Sql, revisionId: string): Promise<RevisionJobs> {
  found(await findDrafted(sql, revisionId), 'such spec revision');
  return { items: [...(await findJobsOn(sql, revisionId))] };
}

type Family = { readonly code: string };

/** The sheet in base units, or the refusal that names each fault. */
function checked(document: SheetDocument, family: Family): CheckedSheet {
  if (document.family.code !== family.code) {
    const detail = `This is a sheet of "${document.family.code}", and the family is "${family.code}".`;
    throw sheetRefusal([{ pointer: '/family/code', detail }]);
  }
  const outcome = checkSheet(document);
  if (!outcome.ok) throw sheetRefusal(outcome.faults);
  return outcome.sheet;
}

async function keep(act: Act, revisionId: string, of: { sheet: CheckedSheet; document: SheetDocument }) {
  await deleteSheetRows(act.sql, revisionId);
  await insertSheetRows(act.sql, revisionId, of);
  return updateDraft(act.sql, revisionId, of);
}

const empty = (family: { code: string; name: string }): SheetDocument => ({
  shape: 1,
  family,
  note: '',
  figuresInvented: false,
  places: [],
  dimensions: [],
  fasteners: [],
  ringSeparation: null,
  rings: [],
  ringZones: [],
  valves: [],
  proofs: [],
});

/** What a draft begins with, read before its transaction; undefined: nothing. */
export async function beginningOf(db: Database, asked: DraftRevision): Promise<SheetDocument | undefined> {
  if (asked.copyOf === undefined) return asked.document;
  const { document } = await documentOf(db, asked.copyOf);
  return { ...document, note: '' };
}

/** Begins the next revision of a family. A family has one draft at a time. */
export async function draftRevision(
  act: Act,
  { familyId, beginning }: { readonly familyId: string; readonly beginning: SheetDocument | undefined },
): Promise<Drafted> {
  const family = found(await lockFamily(act.sql, familyId), 'such engine family');
  const draft = await findDraftNumber(act.sql, familyId);
  if (draft !== undefined) {
    throw new ProblemError(
      'already-done',
      `Revision ${draft} of ${family.name} is a draft already. Go on with it, or discard it first.`,
    );
  }
  const document = beginning ?? empty({ code: family.code, name: family.name });
  const sheet = checked(document, family);
  const { id, number } = await insertDraft(act.sql, { familyId, draftedById: act.actor.id });
  const version = await keep(act, id, { sheet, document });
  await act.event('spec.drafted', { data: { family: family.name, number } });
  return { id, number, version };
}

export interface DraftAsked {
  readonly id: string;
  readonly version: number;
}

/** Locks a draft; refuses what is published, and a version that is not the one that was read. */
export async function draftLocked(act: Act, asked: DraftAsked): Promise<RevisionDrafted> {
  const revision = found(await lockRevision(act.sql, asked.id), 'such spec revision');
  if (revision.publishedAt !== null) {
    throw new ProblemError(
      'conflict',
      `Revision ${revision.number} is published and never changes. Draft a new one from it.`,
    );
  }
  if (revision.version !== asked.version) {
    throw new ProblemError(
      'changed-meanwhile',
      'Somebody changed this draft after you read it. Read it again, then change it.',
    );
  }
  return revision;
}

const figuresIn = ({ dimensions }: SheetDocument): number =>
  dimensions
    .flatMap(({ limits, nominal, plausibleSpan, stated }) => [
      nominal,
      plausibleSpan,
      stated,
      ...limits.flatMap(({ standard, service }) => [standard.low, standard.high, service.low, service.high]),
    ])
    .filter((figure) => figure !== null).length;

/** Puts a document in the place of all that a draft held, or refuses it and keeps nothing. */
export async function replaceDraft(act: Act, revision: RevisionDrafted, document: SheetDocument): Promise<DraftKept> {
  const sheet = checked(document, { code: revision.familyCode });
  const version = await keep(act, revision.id, { sheet, document });
  await act.event('spec.changed', { data: { family: revision.familyName, number: revision.number } });
  return { version, dimensions: document.dimensions.length, figures: figuresIn(document) };
}

/**
 * Publishes a draft: engines taken in from now on are bound to it; it never changes again. `written` is the draft as it
 * was read before the transaction: the version tells that it still says so.
 */
export async function publishDraft(act: Act, asked: DraftAsked, written: SheetDocument): Promise<Published> {
  const revision = await draftLocked(act, asked);
  const document = revision.document ?? written;
  checked(document, { code: revision.familyCode });
  if (document.places.length === 0 || document.dimensions.length === 0) {
    throw new ProblemError('refused', 'A sheet without places and dimensions measures nothing. Fill it in first.');
  }
  const publishedAt = await publishRevision(act.sql, revision.id, act.actor.id);
  await act.event('spec.published', { data: { family: revision.familyName, number: revision.number } });
  return { number: revision.number, publishedAt };
}

/** Throws a draft away; its number is free again. */
export async function discardDraft(act: Act, asked: DraftAsked): Promise<{ number: number }> {
  const revision = await draftLocked(act, asked);
  await deleteSheetRows(act.sql, revision.id);
  await deleteRevision(act.sql, revision.id);
  await act.event('spec.discarded', { data: { family: revision.familyName, number: revision.number } });
  return { number: revision.number };
}
