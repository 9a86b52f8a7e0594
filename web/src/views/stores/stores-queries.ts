import { infiniteQueryOptions, keepPreviousData, queryOptions } from '@tanstack/react-query';
import type { z } from 'zod';
import type { BuyingRules } from '#contracts/buying-rules.ts';
import type { Vendors } from '#contracts/contacts.ts';
import type { ExpectedGoods } from '#contracts/deliveries.ts';
import type { Floor } from '#contracts/floor.ts';
import type { Kit, PartPage, PartSheet } from '#contracts/parts.ts';
import type { Bins, StoresBoard } from '#contracts/stores.ts';
import type { PickWalk, ShortLines } from '#contracts/stores-desks.ts';
import type { BuyingProposals, Cores, Order, PartSupply } from '#contracts/supply.ts';
import { read } from '../../app/api.ts';

export const boardQuery = queryOptions({
  queryKey: ['stores', 'board'],
  queryFn: ({ signal }) => read<StoresBoard>('/stores/board', signal),
});

/** For the drawings at the heads of the jobs, and to name every job in the shop. */
export const floorQuery = queryOptions({
  queryKey: ['floor'],
  queryFn: ({ signal }) => read<Floor>('/floor', signal),
});

/** What to buy, by vendor. */
export const toBuyQuery = queryOptions({
  queryKey: ['stores', 'to buy'],
  queryFn: ({ signal }) => read<BuyingProposals>('/stores/to-buy', signal),
});

export const orderQuery = (id: string) =>
  queryOptions({
    queryKey: ['stores', 'orders', id],
    queryFn: ({ signal }) => read<Order>(`/purchase-orders/${id}`, signal),
  });

/** What is firmly reserved, bin after bin. */
export const walkQuery = queryOptions({
  queryKey: ['stores', 'walk'],
  queryFn: ({ signal }) => read<PickWalk>('/stores/pick-walk', signal),
});

/** What is short, and what on order fills it. */
export const shortQuery = queryOptions({
  queryKey: ['stores', 'short'],
  queryFn: ({ signal }) => read<ShortLines>('/stores/short', signal),
});

/** Of whom something is still to come; of the vendor chosen, what. */
export const expectedQuery = (vendorId: string) =>
  queryOptions({
    queryKey: ['stores', 'expected', vendorId],
    queryFn: ({ signal }) =>
      read<ExpectedGoods>(`/stores/expected${vendorId === '' ? '' : `?vendorId=${vendorId}`}`, signal),
    placeholderData: keepPreviousData,
  });

/** What suggestions of when and how many to buy assume. */
export const buyingRulesQuery = queryOptions({
  queryKey: ['stores', 'buying rules'],
  queryFn: ({ signal }) => read<BuyingRules>('/stores/buying-rules', signal),
});

export const coresQuery = queryOptions({
  queryKey: ['stores', 'cores'],
  queryFn: ({ signal }) => read<Cores>('/cores', signal),
});

export const partSupplyQuery = (id: string) =>
  queryOptions({
    queryKey: ['parts', id, 'supply'],
    queryFn: ({ signal }) => read<PartSupply>(`/parts/${id}/supply`, signal),
  });

export const binsQuery = queryOptions({
  queryKey: ['bins'],
  queryFn: ({ signal }) => read<Bins>('/bins', signal),
  meta: { follows: 'no change' },
});

export const vendorsQuery = queryOptions({
  queryKey: ['vendors'],
  queryFn: ({ signal }) => read<Vendors>('/vendors', signal),
  meta: { follows: 'no change' },
});

export const kitsQuery = (familyId: string) =>
  queryOptions({
    queryKey: ['kits', familyId],
    queryFn: ({ signal }) => read<{ items: readonly Kit[] }>(`/kits?familyId=${familyId}`, signal),
  });

/** A number or a name; figures such as 2.30 alone mean a shim of that thickness. */
function searchOf(text: string): string {
  const wanted = new URLSearchParams({ limit: '30' });
  if (/^\d[.,]\d{1,3}$/.test(text)) {
    wanted.set('shims', 'true');
    wanted.set('thickness', text.replace(',', '.'));
  } else if (text !== '') wanted.set('search', text);
  return wanted.toString();
}

export const partsQuery = (text: string) =>
  queryOptions({
    queryKey: ['parts', 'search', text],
    queryFn: ({ signal }) => read<z.infer<typeof PartPage>>(`/parts?${searchOf(text)}`, signal),
    placeholderData: keepPreviousData,
  });

/** Every part found, page by page. */
export const partPagesQuery = (text: string) =>
  infiniteQueryOptions({
    queryKey: ['parts', 'pages', text],
    queryFn: ({ pageParam, signal }) => {
      const after = pageParam === '' ? '' : `&after=${encodeURIComponent(pageParam)}`;
      return read<z.infer<typeof PartPage>>(`/parts?${searchOf(text)}${after}`, signal);
    },
    initialPageParam: '',
    getNextPageParam: ({ next }) => next,
    placeholderData: keepPreviousData,
  });

/** The parts of the catalogue that fit one place of a family's engines. */
export const fittingPartsQuery = (familyId: string, placeCode: string) =>
  queryOptions({
    queryKey: ['parts', 'fitting', familyId, placeCode],
    queryFn: ({ signal }) =>
      read<z.infer<typeof PartPage>>(`/parts?${new URLSearchParams({ familyId, placeCode, limit: '30' })}`, signal),
  });

/** What moved of a part before the newest, page by page from where those end. */
export const earlierMovementsQuery = (id: string, from: string | null) =>
  infiniteQueryOptions({
    queryKey: ['parts', id, 'movements', from],
    queryFn: async ({ pageParam, signal }) =>
      (await read<PartSheet>(`/parts/${id}?limit=100&after=${encodeURIComponent(pageParam)}`, signal)).movements,
    initialPageParam: from ?? '',
    getNextPageParam: ({ next }) => next,
  });

export const partQuery = (id: string) =>
  queryOptions({
    queryKey: ['parts', id],
    queryFn: ({ signal }) => read<PartSheet>(`/parts/${id}?limit=20`, signal),
  });
