import { queryOptions } from '@tanstack/react-query';
import type { RevisionJobs, Revisions, SheetChanges, SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { read, readTagged } from '../../app/api.ts';

export const revisionsQuery = (familyId: string) =>
  queryOptions({
    queryKey: ['spec-revisions', familyId],
    queryFn: ({ signal }) => read<Revisions>(`/families/${familyId}/spec-revisions`, signal),
  });

/** The sheet as it is printed, with the tag that an edit of it names. */
export const documentQuery = (revisionId: string) =>
  queryOptions({
    queryKey: ['spec-document', revisionId],
    queryFn: ({ signal }) => readTagged<SpecSheetDocument>(`/spec-revisions/${revisionId}/sheet.json`, signal),
  });

export const jobsQuery = (revisionId: string) =>
  queryOptions({
    queryKey: ['spec-jobs', revisionId],
    queryFn: ({ signal }) => read<RevisionJobs>(`/spec-revisions/${revisionId}/jobs`, signal),
  });

export const changesQuery = (revisionId: string, since: string) =>
  queryOptions({
    queryKey: ['spec-changes', revisionId, since],
    queryFn: ({ signal }) => read<SheetChanges>(`/spec-revisions/${revisionId}/changes?since=${since}`, signal),
  });
