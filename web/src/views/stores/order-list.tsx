import { keepPreviousData, useInfiniteQuery, useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useDeferredValue, useState } from 'react';
import type { z } from 'zod';
import type { OrderListed, OrderPage, OrderSort } from '#contracts/supply.ts';
import { read } from '../../app/api.ts';
import { Failed } from '../../app/view-states.tsx';
import { Field } from '../../kit/field.tsx';
import { MorePages } from '../../kit/more-pages.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { SearchField } from '../../kit/search-field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useScan } from '../../scan/registry.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { FileLink } from './store-files.tsx';
import { vendorsQuery } from './stores-queries.ts';

const which = ['all', 'open', 'unsent', 'in'] as const;
const sorts = ['newest', 'oldest', 'vendor', 'expected'] as const satisfies readonly OrderSort[];

interface Asked {
  readonly which: (typeof which)[number];
  readonly vendorId: string;
  readonly search: string;
  readonly sort: OrderSort;
}

const everything: Asked = { which: 'all', vendorId: '', search: '', sort: 'newest' };
/** What this terminal last asked for: whoever comes back from an order finds the list as it was left. */
let lastAsked = everything;

const wanted = { all: {}, open: { open: 'true' }, unsent: { sent: 'false' }, in: { open: 'false' } } as const;

function useOrders(asked: Asked) {
  return useInfiniteQuery({
    queryKey: ['stores', 'orders', 'list', asked],
    queryFn: ({ pageParam, signal }) => {
      const query = new URLSearchParams({ limit: '40', sort: asked.sort, ...wanted[asked.which] });
      if (asked.search !== '') query.set('search', asked.search);
      if (asked.vendorId !== '') query.set('vendorId', asked.vendorId);
      if (pageParam !== '') query.set('after', pageParam);
      return read<z.infer<typeof OrderPage>>(`/purchase-orders?${query}`, signal);
    },
    initialPageParam: '',
    getNextPageParam: ({ next }) => next,
    placeholderData: keepPreviousData,
  });
}

/** The cursor stands in the field that finds orders: what is scanned then is looked for, not ordered. */
export const isFindingOrder = (): boolean => document.activeElement?.matches('[data-finds="orders"]') === true;

/** Every order that was ever written: of one vendor or all, open or in, in the sorting asked for, page by page. */
export function OrderList() {
  const { buying: words, reading } = useWords().stores;
  const [asked, setAsked] = useState(lastAsked);
  const orders = useOrders({ ...asked, search: useDeferredValue(asked.search.trim()) });
  const listed = orders.data?.pages.flatMap(({ items }) => items);
  const change = (changed: Partial<Asked>) => {
    lastAsked = { ...asked, ...changed };
    setAsked(lastAsked);
  };
  useScan((scanned) => {
    if (scanned.kind !== 'part' || !isFindingOrder()) return undefined;
    change({ search: scanned.part.number });
    return { did: words.ordersOf, undo: () => change({ search: asked.search }) };
  });
  const none =
    asked.which === 'all' && asked.vendorId === '' && asked.search.trim() === '' ? words.noOrders : words.noneOfThese;
  return (
    <section className="orders" aria-label={words.orders}>
      <div className="hd">
        <h2>{words.orders}</h2>
        <FileLink name="orders" />
      </div>
      <OrdersAsked asked={asked} onChange={change} />
      {orders.isPending ? <Skeleton label={reading} lines={4} /> : null}
      {orders.isError ? <Failed error={orders.error} again={() => void orders.refetch()} /> : null}
      {listed?.length === 0 ? <p className="nothing">{none}</p> : null}
      {listed === undefined || listed.length === 0 ? null : (
        <ul className="order-list">
          {listed.map((order) => (
            <ListedOrder key={order.id} order={order} />
          ))}
        </ul>
      )}
      <MorePages of={orders}>{words.moreOrders}</MorePages>
    </section>
  );
}

interface AskedProps {
  readonly asked: Asked;
  readonly onChange: (changed: Partial<Asked>) => void;
}

function OrdersAsked({ asked, onChange }: AskedProps) {
  const { buying: words } = useWords().stores;
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  const options = <Name extends string>(of: readonly Name[], named: Readonly<Record<Name, string>>) => (
    <NamedOptions of={of.map((id) => ({ id, name: named[id] }))} />
  );
  const one = <Name extends string>(of: readonly Name[], chosen: string) => of.find((name) => name === chosen);
  return (
    <div className="orders-asked">
      <SearchField
        label={words.findOrder}
        hint={words.findOrderHint}
        finds="orders"
        most={80}
        value={asked.search}
        onChange={(search) => onChange({ search })}
      />
      <Field label={words.which}>
        {(input) => (
          <select
            {...input}
            value={asked.which}
            onChange={({ target }) => onChange({ which: one(which, target.value) ?? 'all' })}
          >
            {options(which, words.whichOnes)}
          </select>
        )}
      </Field>
      <Field label={words.ofVendor}>
        {(input) => (
          <select {...input} value={asked.vendorId} onChange={({ target }) => onChange({ vendorId: target.value })}>
            <option value="">{words.anyVendor}</option>
            <NamedOptions of={vendors} />
          </select>
        )}
      </Field>
      <Field label={words.sorted}>
        {(input) => (
          <select
            {...input}
            value={asked.sort}
            onChange={({ target }) => onChange({ sort: one(sorts, target.value) ?? 'newest' })}
          >
            {options(sorts, words.sortedBy)}
          </select>
        )}
      </Field>
    </div>
  );
}

function ListedOrder({ order }: { readonly order: OrderListed }) {
  const { buying: words } = useWords().stores;
  const format = useFormat();
  const state =
    order.open === 0
      ? words.allIn
      : `${words.open(order.open, order.lines)}, ${order.expectedOn === null ? words.noDate : words.expected(format.day(order.expectedOn))}`;
  return (
    <li>
      <Link to="/stores/orders/$orderId" params={{ orderId: order.id }}>
        <b className="num">{words.number(order.number)}</b> {order.vendor.name}
      </Link>
      <span className="note">
        {order.sentAt === null ? words.notSent : words.sent(format.date(order.sentAt))}
        {order.confirmedAt === null ? '' : `, ${words.confirmed(format.date(order.confirmedAt))}`}
      </span>
      <span className={order.sentAt === null ? 'hot' : ''}>{state}</span>
    </li>
  );
}
