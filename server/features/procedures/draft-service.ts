import type {
  DraftMade,
  NewProcedure,
  ProcedureDocument,
  ProcedureKept,
  ProcedurePublished,
} from '#contracts/procedure-documents.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { documentIn, documentOf, faultsOf } from './document-service.ts';
import {
  deleteDraft,
  findDraftOf,
  findFamilyByCode,
  findFamilyCode,
  findNewestPublished,
  insertDraft,
  insertProcedure,
  lockProcedure,
  publishVersion,
  updateDraft,
} from './draft-queries.ts';
import { lockVersion, type VersionRow } from './queries.ts';
import { insertSteps } from './step-queries.ts';

const alreadyDrafted = (name: string, draft: { id: string; number: number }) =>
  new ProblemError(
    'already-done',
    `Version ${draft.number} of "${name}" is a draft already. Go on with it, or discard it first.`,
    {
      versionId: draft.id,
    },
  );

/** A new procedure with an empty draft. */
export async function newProcedure(act: Act, asked: NewProcedure): Promise<DraftMade> {
  const family = found(await findFamilyCode(act.sql, asked.familyId), 'such engine family');
  const name = asked.name.trim();
  return importProcedure(
    act,
    { shape: 1, code: asked.code, name, kind: asked.kind, family, note: '', steps: [] },
    true,
  );
}

/** A document becomes the first draft of a new procedure, or the next one of that which has its code. */
export async function importProcedure(act: Act, document: ProcedureDocument, onlyNew = false): Promise<DraftMade> {
  const known = await lockProcedure(act.sql, { code: document.code });
  if (known !== undefined && onlyNew) {
    throw new ProblemError('conflict', `The code ${document.code} is that of "${known.name}". Choose another.`, {
      errors: [{ pointer: '/code', detail: 'is in use' }],
    });
  }
  if (known !== undefined) return draftFrom(act, { procedure: known, document });
  const family = await findFamilyByCode(act.sql, document.family);
  if (family === undefined) {
    throw new ProblemError(
      'refused',
      `No engine family has the code "${document.family}". Add the family first, or correct the code.`,
      {
        errors: [{ pointer: '/family', detail: 'is no family of this shop' }],
      },
    );
  }
  const { code, name, kind } = document;
  const id = await insertProcedure(act.sql, { code, name, kind, familyId: family.id });
  return draftFrom(act, { procedure: { id, code, name, kind, family: document.family }, document });
}

interface Head {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly kind: string;
  readonly family: string;
}

/** A document may rename its procedure; it may not make it another's. */
function refuseAnothers(head: Omit<Head, 'id' | 'name'>, document: ProcedureDocument): void {
  const errors = (['code', 'kind', 'family'] as const)
    .filter((field) => head[field] !== document[field])
    .map((field) => ({
      pointer: `/${field}`,
      detail: `is "${document[field]}", and this procedure’s is "${head[field]}"`,
    }));
  if (errors.length > 0) {
    throw new ProblemError('refused', 'This document is of another procedure: code, kind and family never change.', {
      errors,
    });
  }
}

async function draftFrom(act: Act, of: { procedure: Head; document: ProcedureDocument }): Promise<DraftMade> {
  const { procedure, document } = of;
  refuseAnothers(procedure, document);
  const draft = await findDraftOf(act.sql, procedure.id);
  if (draft !== undefined) throw alreadyDrafted(procedure.name, draft);
  const made = await insertDraft(act.sql, { procedureId: procedure.id, document, byId: act.actor.id });
  await act.event('procedure.drafted', { data: { procedure: procedure.name, version: made.number } });
  return { ...made, procedureId: procedure.id };
}

/** The next draft: a copy of the newest published version. */
export async function draftNext(act: Act, procedureId: string): Promise<DraftMade> {
  const procedure = found(await lockProcedure(act.sql, { id: procedureId }), 'such procedure');
  const draft = await findDraftOf(act.sql, procedureId);
  if (draft !== undefined) throw alreadyDrafted(procedure.name, draft);
  const newest = found(await findNewestPublished(act.sql, procedureId), 'published version of this procedure');
  const { document } = await documentOf(act.sql, newest);
  return draftFrom(act, { procedure, document: { ...document, note: '' } });
}

interface DraftAsked {
  readonly id: string;
  readonly edit: number;
}

async function draftLocked(act: Act, asked: DraftAsked): Promise<VersionRow> {
  const version = found(await lockVersion(act.sql, asked.id), 'such version of a procedure');
  if (version.publishedAt !== null) {
    throw new ProblemError(
      'conflict',
      `Version ${version.number} of "${version.name}" is published and never changes. Draft a new one from it.`,
    );
  }
  if (version.edit !== asked.edit) {
    throw new ProblemError(
      'changed-meanwhile',
      'Somebody changed this draft after you read it. Read it again, then change it.',
    );
  }
  return version;
}

/** Puts a document in the place of a draft; it may have faults still, and they are told. */
export async function keepDraft(act: Act, asked: DraftAsked, document: ProcedureDocument): Promise<ProcedureKept> {
  const version = await draftLocked(act, asked);
  refuseAnothers(version, document);
  const edit = await updateDraft(act.sql, { id: version.id, document });
  await act.event('procedure.changed', { data: { procedure: document.name, version: version.number } });
  return { edit, steps: document.steps.length, faults: await faultsOf(act.sql, version, document) };
}

/** Publishes a draft, or refuses it with every fault. Its steps become rows that never change. */
export async function publishDraft(act: Act, asked: DraftAsked): Promise<ProcedurePublished> {
  const version = await draftLocked(act, asked);
  const document = await documentIn(act.sql, version);
  const faults = await faultsOf(act.sql, version, document);
  if (faults.length > 0) {
    const [first] = faults;
    const where = first?.step == null ? '' : `Step ${first.step}, ${first.field}: `;
    const more = faults.length === 1 ? '' : ` There are ${faults.length - 1} more.`;
    throw new ProblemError('refused', `Nothing was published. ${where}${first?.detail ?? ''}${more}`, {
      errors: faults.map(({ pointer, step, detail }) => ({
        pointer,
        detail: step === null ? detail : `Step ${step}: ${detail}`,
      })),
    });
  }
  await insertSteps(act.sql, version.id, document);
  const { name, note } = document;
  const publishedAt = await publishVersion(act.sql, {
    id: version.id,
    procedureId: version.procedureId,
    name: name.trim(),
    note,
    byId: act.actor.id,
  });
  await act.event('procedure.published', {
    data: { procedure: name, version: version.number, steps: document.steps.length },
  });
  return { number: version.number, publishedAt };
}

/** Throws a draft away. */
export async function discardDraft(act: Act, asked: DraftAsked): Promise<{ number: number }> {
  const version = await draftLocked(act, asked);
  await deleteDraft(act.sql, version);
  await act.event('procedure.discarded', { data: { procedure: version.name, version: version.number } });
  return { number: version.number };
}
