import {
  ProcedureDocument,
  type ProcedureFaults,
  type ProcedureNames,
  type ProcedureShelf,
} from '#contracts/procedure-documents.ts';
import { checkProcedure } from '#domain/procedures/check.ts';
import type { Sql } from '#platform/database/client.ts';
import { found } from '#platform/problem.ts';
import { findSheetNames, findShelf } from './draft-queries.ts';
import { findVersion, type VersionRow } from './queries.ts';
import { findStepsOfVersion } from './step-queries.ts';

/** Every procedure with all its versions. */
export async function shelf(sql: Sql): Promise<ProcedureShelf> {
  const rows = await findShelf(sql);
  const ids = [...new Set(rows.map(({ id }) => id))];
  return {
    items: ids.flatMap((id) => {
      const versions = rows.filter((row) => row.id === id);
      const [first] = versions;
      if (first === undefined) return [];
      const { code, name, kind, familyId, familyName } = first;
      return {
        id,
        code,
        name,
        kind,
        family: { id: familyId, name: familyName },
        versions: versions.map((row) => ({
          id: row.versionId,
          number: row.number,
          publishedAt: row.publishedAt,
          draftedAt: row.draftedAt,
          by: row.byId === null || row.by === null ? null : { id: row.byId, name: row.by },
          note: row.note,
          steps: row.steps,
          runs: row.runs,
          openRuns: row.openRuns,
        })),
      };
    }),
  };
}

/** What a version says: a draft as it was kept, a published one from its rows. */
export async function documentIn(sql: Sql, version: VersionRow): Promise<ProcedureDocument> {
  if (version.document !== null) return ProcedureDocument.parse(version.document);
  const { code, name, kind, family, note } = version;
  const steps = await findStepsOfVersion(sql, version.id);
  return {
    shape: 1,
    code,
    name,
    kind,
    family,
    note,
    steps: steps.map((step) => ({
      section: step.section,
      title: step.title,
      words: step.words,
      cautions: [...step.cautions],
      pieces: step.pieces.map(({ id: _, fromWhere, ...piece }) => ({
        name: piece.name,
        expected: piece.expected,
        from: fromWhere,
        why: piece.why,
        layer: piece.layer,
        oneTime: piece.oneTime,
        matchedSet: piece.matchedSet,
      })),
      putIn: [...step.putIn],
      fastenerSet: step.fastenerSet,
      readings: [...step.readings],
      secondPerson: step.secondPerson,
      ...(step.turnsEngine ? { turnsEngine: true as const } : {}),
      photo: step.photo,
      asks: step.asks === null ? null : { ...step.asks, choices: [...step.asks.choices] },
      onlyIf: step.onlyIf.map((condition) => ({ ...condition, oneOf: [...condition.oneOf] })),
    })),
  };
}

/** Any version as a document. */
export async function documentOf(sql: Sql, id: string): Promise<{ version: VersionRow; document: ProcedureDocument }> {
  const version = found(await findVersion(sql, id), 'such version of a procedure');
  return { version, document: await documentIn(sql, version) };
}

const codes = (named: readonly { readonly code: string }[]): string[] => named.map(({ code }) => code);

/** What is wrong with a document, its codes looked up on the newest sheet of the family. */
export async function faultsOf(sql: Sql, version: { familyId: string }, document: ProcedureDocument) {
  const sheet = await findSheetNames(sql, version.familyId);
  const known =
    sheet === undefined ? null : { dimensions: codes(sheet.dimensions), fastenerSets: codes(sheet.fastenerSets) };
  return [...checkProcedure(document, known)];
}

/** What keeps a version from being published; of a published one, what a newer sheet has made of it. */
export async function faultsIn(sql: Sql, id: string): Promise<ProcedureFaults> {
  const { version, document } = await documentOf(sql, id);
  return { items: await faultsOf(sql, version, document) };
}

/** What the codes of a version are called on the newest sheet of its family; whatever that does not know is left out. */
export async function namesIn(sql: Sql, id: string): Promise<ProcedureNames> {
  const { version, document } = await documentOf(sql, id);
  const sheet = await findSheetNames(sql, version.familyId);
  const measured = new Set(document.steps.flatMap(({ readings }) => readings.map(({ dimension }) => dimension)));
  const pulled = new Set(document.steps.map(({ fastenerSet }) => fastenerSet));
  return {
    dimensions: sheet?.dimensions.filter(({ code }) => measured.has(code)) ?? [],
    fastenerSets: sheet?.fastenerSets.filter(({ code }) => pulled.has(code)) ?? [],
  };
}
