import { keepPreviousData, queryOptions } from '@tanstack/react-query';
import type { PackingList } from '#contracts/boxes.ts';
import type { Owners } from '#contracts/contacts.ts';
import type { JobQuotes, OpenQuotes, PromiseMade, QuoteDraft } from '#contracts/counter.ts';
import type { OutsideWork } from '#contracts/custody.ts';
import type { EngineList } from '#contracts/engines.ts';
import type { BuildSheet, HandBackPage } from '#contracts/hand-back.ts';
import type { Job } from '#contracts/intake.ts';
import type { PartsReady } from '#contracts/promising.ts';
import type { Families } from '#contracts/specs.ts';
import { read } from '../../app/api.ts';

export const familiesQuery = queryOptions({
  queryKey: ['families'],
  queryFn: ({ signal }) => read<Families>('/families', signal),
  meta: { follows: 'no change' },
});

/** Engines that were ever here whose serial has this in it. */
export const serialsQuery = (serial: string) =>
  queryOptions({
    queryKey: ['engines', 'serial', serial],
    queryFn: ({ signal }) =>
      read<EngineList>(`/engines?state=all&limit=6&search=${encodeURIComponent(serial)}`, signal),
    placeholderData: keepPreviousData,
  });

export const ownersQuery = (name: string) =>
  queryOptions({
    queryKey: ['owners', name],
    queryFn: ({ signal }) => read<Owners>(`/owners?search=${encodeURIComponent(name)}`, signal),
    placeholderData: keepPreviousData,
  });

export const jobQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId],
    queryFn: ({ signal }) => read<Job>(`/jobs/${jobId}`, signal),
    meta: { follows: { jobId } },
  });

export const promisesQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId, 'promises'],
    queryFn: ({ signal }) => read<{ items: readonly PromiseMade[] }>(`/jobs/${jobId}/promises`, signal),
    meta: { follows: { jobId } },
  });

export const quotesQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId, 'quotes'],
    queryFn: ({ signal }) => read<JobQuotes>(`/jobs/${jobId}/quotes`, signal),
    meta: { follows: { jobId } },
  });

export const openQuotesQuery = queryOptions({
  queryKey: ['quotes'],
  queryFn: ({ signal }) => read<OpenQuotes>('/quotes', signal),
});

/** What a quote would hold: read when somebody begins one, and left alone while they write it. */
export const draftQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId, 'quote-draft'],
    queryFn: ({ signal }) => read<QuoteDraft>(`/jobs/${jobId}/quote-draft`, signal),
    meta: { follows: 'no change' },
    gcTime: 0,
    refetchOnWindowFocus: false,
  });

/** When all that the job wants from stores can be here. */
export const partsReadyQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId, 'parts-ready'],
    queryFn: ({ signal }) => read<PartsReady>(`/jobs/${jobId}/parts-ready`, signal),
  });

export const outsideQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId, 'outside'],
    queryFn: ({ signal }) => read<{ items: readonly OutsideWork[] }>(`/jobs/${jobId}/outside-work`, signal),
    meta: { follows: { jobId } },
  });

export const handBackQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId, 'hand-back'],
    queryFn: ({ signal }) => read<HandBackPage>(`/jobs/${jobId}/hand-back`, signal),
    meta: { follows: { jobId } },
  });

export const sheetQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId, 'sheet'],
    queryFn: ({ signal }) => read<BuildSheet>(`/jobs/${jobId}/sheet`, signal),
    meta: { follows: { jobId } },
  });

export const packingListQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['jobs', jobId, 'packing-list'],
    queryFn: ({ signal }) => read<PackingList>(`/jobs/${jobId}/packing-list`, signal),
    meta: { follows: { jobId } },
  });
