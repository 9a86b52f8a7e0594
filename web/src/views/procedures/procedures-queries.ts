import { queryOptions } from '@tanstack/react-query';
import type {
  ProcedureDocument,
  ProcedureFaults,
  ProcedureNames,
  ProcedureShelf,
} from '#contracts/procedure-documents.ts';
import { read, readTagged } from '../../app/api.ts';

export const shelfQuery = queryOptions({
  queryKey: ['procedure-shelf'],
  queryFn: ({ signal }) => read<ProcedureShelf>('/procedure-shelf', signal),
});

/** A version as a document, with the tag that an edit of it names. */
export const procedureQuery = (versionId: string) =>
  queryOptions({
    queryKey: ['procedure-document', versionId],
    queryFn: ({ signal }) => readTagged<ProcedureDocument>(`/procedure-versions/${versionId}/procedure.json`, signal),
  });

export const faultsQuery = (versionId: string) =>
  queryOptions({
    queryKey: ['procedure-faults', versionId],
    queryFn: ({ signal }) => read<ProcedureFaults>(`/procedure-versions/${versionId}/faults`, signal),
  });

/** What its codes are called, from code to name; a code that no sheet knows stays as it is. */
export const namesQuery = (versionId: string) =>
  queryOptions({
    queryKey: ['procedure-names', versionId],
    queryFn: ({ signal }) => read<ProcedureNames>(`/procedure-versions/${versionId}/names`, signal),
    select: ({ dimensions, fastenerSets }) => ({ dimensions: byCode(dimensions), fastenerSets: byCode(fastenerSets) }),
  });

const byCode = (named: ProcedureNames['dimensions']): ReadonlyMap<string, string> =>
  new Map(named.map(({ code, name }) => [code, name]));
