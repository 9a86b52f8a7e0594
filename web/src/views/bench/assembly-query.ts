import { queryOptions } from '@tanstack/react-query';
import type { AssemblyPage, FastenerSetStanding } from '#contracts/assembly.ts';
import type { HandBackPage } from '#contracts/hand-back.ts';
import type { Closing } from '#contracts/openings.ts';
import { read } from '../../app/api.ts';
import type { Entry } from '../../app/outbox.ts';
import { queryClient } from '../../app/query-client.ts';

export const assemblyQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['assembly', jobId],
    queryFn: ({ signal }) => read<AssemblyPage>(`/jobs/${jobId}/assembly`, signal),
    meta: { follows: { jobId } },
  });

export const closingQuery = (jobId: string, openingId: string | null) =>
  queryOptions({
    queryKey: ['closing', openingId],
    queryFn: ({ signal }) => read<Closing>(`/openings/${openingId}/closing`, signal),
    enabled: openingId !== null,
    meta: { follows: { jobId } },
  });

export const handBackQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['hand-back', jobId],
    queryFn: ({ signal }) => read<HandBackPage>(`/jobs/${jobId}/hand-back`, signal),
    meta: { follows: { jobId } },
  });

/** The set a pull has changed, put on screen before everything is read again. */
export function putPull(entry: Entry, reply: unknown): void {
  if (entry.kind !== 'pull') return;
  const standing = reply as FastenerSetStanding;
  queryClient.setQueryData(assemblyQuery(entry.jobId).queryKey, (page) =>
    page === undefined
      ? undefined
      : {
          ...page,
          sets: page.sets.map((set) => (set.code === standing.code ? { ...standing, required: set.required } : set)),
        },
  );
}
