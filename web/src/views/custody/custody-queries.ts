import { queryOptions } from '@tanstack/react-query';
import type {
  BenchTimes,
  PackingSlip,
  Periods,
  ShiftEnd,
  ShiftReport,
  ShiftReports,
  WhoHeld,
} from '#contracts/custody-past.ts';
import { read } from '../../app/api.ts';

/** `at` null: now, which changes with every write; a moment of the past never does. */
export const whoHeldQuery = (of: { readonly at: string | null; readonly engineId: string | null }) =>
  queryOptions({
    queryKey: ['custody', of],
    queryFn: ({ signal }) => {
      const query = new URLSearchParams({
        ...(of.at === null ? {} : { at: of.at }),
        ...(of.engineId === null ? {} : { engineId: of.engineId }),
      });
      return read<WhoHeld>(`/custody?${query}`, signal);
    },
    placeholderData: (before) => before,
    meta: { follows: 'every change' },
  });

export const periodsQuery = (of: {
  readonly from: string;
  readonly until: string | null;
  readonly engineId: string | null;
}) =>
  queryOptions({
    queryKey: ['custody-periods', of],
    queryFn: ({ signal }) => {
      const query = new URLSearchParams({
        from: of.from,
        ...(of.until === null ? {} : { until: of.until }),
        ...(of.engineId === null ? {} : { engineId: of.engineId }),
      });
      return read<Periods>(`/custody/periods?${query}`, signal);
    },
    placeholderData: (before) => before,
    meta: { follows: 'every change' },
  });

export const benchTimesQuery = (jobId: string | null) =>
  queryOptions({
    queryKey: ['bench-times', jobId],
    queryFn: ({ signal }) => read<BenchTimes>(`/jobs/${jobId}/bench-times`, signal),
    enabled: jobId !== null,
    meta: { follows: 'every change' },
  });

export const shiftEndQuery = queryOptions({
  queryKey: ['shift-end'],
  queryFn: ({ signal }) => read<ShiftEnd>('/custody/shift-end', signal),
  meta: { follows: 'every change' },
});

export const shiftReportsQuery = queryOptions({
  queryKey: ['shift-reports'],
  queryFn: ({ signal }) => read<ShiftReports>('/custody/shift-reports', signal),
  meta: { follows: 'every change' },
});

export const shiftReportQuery = (id: string) =>
  queryOptions({
    queryKey: ['shift-reports', id],
    queryFn: ({ signal }) => read<ShiftReport>(`/custody/shift-reports/${id}`, signal),
    meta: { follows: 'no change' },
  });

export const slipQuery = (id: string) =>
  queryOptions({
    queryKey: ['slips', id],
    queryFn: ({ signal }) => read<PackingSlip>(`/outside-work/${id}/slip`, signal),
    meta: { follows: 'every change' },
  });
