import { queryOptions } from '@tanstack/react-query';
import type { ClosingCheck, RackInShop, Racks, Searches } from '#contracts/searches.ts';
import { read } from '../../app/api.ts';

export const searchesQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['searches', jobId],
    queryFn: ({ signal }) => read<Searches>(`/jobs/${jobId}/searches`, signal),
    meta: { follows: { jobId } },
  });

export const checkQuery = (opening: { readonly id: string; readonly jobId: string } | null) =>
  queryOptions({
    queryKey: ['check', opening?.id],
    queryFn: ({ signal }) => read<ClosingCheck>(`/openings/${opening?.id}/check`, signal),
    enabled: opening !== null,
    meta: { follows: { jobId: opening?.jobId ?? '' } },
  });

export const racksQuery = (opening: { readonly id: string; readonly jobId: string } | null) =>
  queryOptions({
    queryKey: ['racks', opening?.id],
    queryFn: ({ signal }) => read<Racks>(`/openings/${opening?.id}/racks`, signal),
    enabled: opening !== null,
    meta: { follows: { jobId: opening?.jobId ?? '' } },
  });

export const rackQuery = (rackId: string) =>
  queryOptions({
    queryKey: ['rack', rackId],
    queryFn: ({ signal }) => read<RackInShop>(`/racks/${rackId}`, signal),
    meta: { follows: 'every change' },
  });
