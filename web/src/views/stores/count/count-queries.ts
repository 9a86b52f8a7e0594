import { infiniteQueryOptions, queryOptions } from '@tanstack/react-query';
import type { z } from 'zod';
import type { CountAccuracy, CountPage, CountSchedule, CountSheet } from '#contracts/counts.ts';
import { read } from '../../../app/api.ts';

export const scheduleQuery = queryOptions({
  queryKey: ['counts', 'schedule'],
  queryFn: ({ signal }) => read<CountSchedule>('/count-schedule?limit=60', signal),
});

type Page = z.infer<typeof CountPage>;

const sheetsQuery = (open: boolean, limit: number) =>
  infiniteQueryOptions({
    queryKey: ['counts', 'sheets', open ? 'open' : 'ended'],
    queryFn: ({ pageParam, signal }) =>
      read<Page>(`/count-sheets?open=${open}&limit=${limit}${pageParam === '' ? '' : `&after=${pageParam}`}`, signal),
    initialPageParam: '',
    getNextPageParam: ({ next }) => next,
  });

export const openSheetsQuery = sheetsQuery(true, 100);
export const endedSheetsQuery = sheetsQuery(false, 20);

export const accuracyQuery = queryOptions({
  queryKey: ['counts', 'accuracy'],
  queryFn: ({ signal }) => read<CountAccuracy>('/count-accuracy', signal),
});

export const countSheetQuery = (id: string) =>
  queryOptions({
    queryKey: ['counts', 'sheet', id],
    queryFn: ({ signal }) => read<CountSheet>(`/count-sheets/${id}`, signal),
  });
