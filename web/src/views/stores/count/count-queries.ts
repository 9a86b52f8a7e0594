import { queryOptions } from '@tanstack/react-query';
import type { z } from 'zod';
import type { CountAccuracy, CountPage, CountSchedule, CountSheet } from '#contracts/counts.ts';
import { read } from '../../../app/api.ts';

export const scheduleQuery = queryOptions({
  queryKey: ['counts', 'schedule'],
  queryFn: ({ signal }) => read<CountSchedule>('/count-schedule?limit=60', signal),
});

export const sheetsQuery = queryOptions({
  queryKey: ['counts', 'sheets'],
  queryFn: ({ signal }) => read<z.infer<typeof CountPage>>('/count-sheets?limit=12', signal),
});

export const accuracyQuery = queryOptions({
  queryKey: ['counts', 'accuracy'],
  queryFn: ({ signal }) => read<CountAccuracy>('/count-accuracy', signal),
});

export const countSheetQuery = (id: string) =>
  queryOptions({
    queryKey: ['counts', 'sheet', id],
    queryFn: ({ signal }) => read<CountSheet>(`/count-sheets/${id}`, signal),
  });
