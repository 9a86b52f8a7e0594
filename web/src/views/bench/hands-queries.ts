import { queryOptions } from '@tanstack/react-query';
import type { Handover, HandoverInList, Trays, TraysInShop } from '#contracts/custody.ts';
import type { ToHandOver } from '#contracts/custody-past.ts';
import type { Floor } from '#contracts/floor.ts';
import type { Opening } from '#contracts/openings.ts';
import type { ProcedureRun, StopPoint } from '#contracts/procedure-runs.ts';
import type { ProcedureInList } from '#contracts/procedures.ts';
import type { SignInChoices } from '#contracts/session.ts';
import type { ShopFacts } from '#contracts/shop.ts';
import { read } from '../../app/api.ts';

export const floorQuery = queryOptions({
  queryKey: ['floor'],
  queryFn: ({ signal }) => read<Floor>('/floor', signal),
  meta: { follows: 'every change' },
});

export const traysInShopQuery = queryOptions({
  queryKey: ['trays'],
  queryFn: ({ signal }) => read<TraysInShop>('/trays', signal),
  meta: { follows: 'every change' },
});

export const myHandoversQuery = queryOptions({
  queryKey: ['handovers', 'mine'],
  queryFn: ({ signal }) =>
    read<{ items: readonly HandoverInList[] }>('/handovers?mine=true&open=true&limit=200', signal),
  meta: { follows: 'every change' },
});

export const stopPointsQuery = queryOptions({
  queryKey: ['stop-points'],
  queryFn: ({ signal }) => read<{ items: readonly StopPoint[] }>('/stop-points', signal),
  meta: { follows: 'every change' },
});

export const handoverQuery = (id: string) =>
  queryOptions({
    queryKey: ['handovers', id],
    queryFn: ({ signal }) => read<Handover>(`/handovers/${id}`, signal),
    meta: { follows: 'every change' },
  });

export const toHandOverQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['to-hand-over', jobId],
    queryFn: ({ signal }) => read<ToHandOver>(`/jobs/${jobId}/to-hand-over`, signal),
    meta: { follows: { jobId } },
  });

export const jobTraysQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['trays', jobId],
    queryFn: ({ signal }) => read<Trays>(`/jobs/${jobId}/trays`, signal),
    meta: { follows: { jobId } },
  });

export const runsQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['runs', jobId],
    queryFn: ({ signal }) => read<{ items: readonly ProcedureRun[] }>(`/jobs/${jobId}/procedure-runs`, signal),
    meta: { follows: { jobId } },
  });

export const openingQuery = (opening: { readonly id: string; readonly jobId: string } | null) =>
  queryOptions({
    queryKey: ['opening', opening?.id],
    queryFn: ({ signal }) => read<Opening>(`/openings/${opening?.id}`, signal),
    enabled: opening !== null,
    meta: { follows: { jobId: opening?.jobId ?? '' } },
  });

export const proceduresQuery = (familyId: string) =>
  queryOptions({
    queryKey: ['procedures', familyId],
    queryFn: ({ signal }) => read<{ items: readonly ProcedureInList[] }>(`/procedures?familyId=${familyId}`, signal),
    meta: { follows: 'no change' },
  });

export const peopleQuery = queryOptions({
  queryKey: ['sign-in'],
  queryFn: ({ signal }) => read<SignInChoices>('/sign-in', signal),
  meta: { follows: 'no change' },
});

export const shopQuery = queryOptions({
  queryKey: ['shop'],
  queryFn: ({ signal }) => read<ShopFacts>('/shop', signal),
  meta: { follows: 'no change' },
});
