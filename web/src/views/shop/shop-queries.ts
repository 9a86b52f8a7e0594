import { queryOptions } from '@tanstack/react-query';
import type { People } from '#contracts/people.ts';
import type { ShopFacts } from '#contracts/shop.ts';
import { read } from '../../app/api.ts';

export const shopQuery = queryOptions({
  queryKey: ['shop-facts'],
  queryFn: ({ signal }) => read<ShopFacts>('/shop', signal),
});

export const peopleQuery = queryOptions({
  queryKey: ['people'],
  queryFn: ({ signal }) => read<People>('/people', signal),
});
