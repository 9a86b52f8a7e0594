import { useQuery } from '@tanstack/react-query';
import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { BuyingProposals, Order } from '#contracts/supply.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { BuyingLines, keyOf } from './buying-lines.tsx';
import { BuyingRulesSection } from './buying-rules.tsx';
import { Desks } from './desks.tsx';
import { OrderDialog, type OrderFor } from './order-dialog.tsx';
import { isFindingOrder, OrderList } from './order-list.tsx';
import { FileLink } from './store-files.tsx';
import { toBuyQuery, vendorsQuery } from './stores-queries.ts';
import './stores.css';
import './desks.css';

/** The ordering desk: what to buy, by vendor, and what was ordered. */
export function OrderDeskView() {
  const { stores: words } = useWords();
  const buying = useQuery(toBuyQuery);
  const [order, setOrder] = useState<OrderFor | null>(null);
  const may = useMay('stores');
  const { done } = useWords().scan;
  // Whoever stands before an empty bin with its label in hand has come to order it.
  useScan((scanned) => {
    if (scanned.kind !== 'part' || !may || isFindingOrder()) return undefined;
    setOrder({ part: scanned.part, quantity: 1, jobId: '', words: '' });
    return { did: done.toOrder, undo: () => setOrder(null) };
  });
  return (
    <main className="stores one-sheet">
      <div className="p">
        <Desks />
        <div className="hd">
          <h1>{words.desks.order}</h1>
          <FileLink name="toBuy" />
        </div>
        {buying.isPending ? <Skeleton label={words.reading} lines={6} /> : null}
        {buying.isError ? <Failed error={buying.error} again={() => void buying.refetch()} /> : null}
        {buying.data?.vendors.length === 0 ? <p className="nothing">{words.buying.nothing}</p> : null}
        {buying.data?.vendors.map((group) => (
          <VendorGroup key={group.vendor?.id ?? ''} group={group} />
        ))}
        {buying.data === undefined || buying.data.more === 0 ? null : (
          <p className="note">{words.buying.more(buying.data.more)}</p>
        )}
        <OrderList />
        <BuyingRulesSection />
        {order === null ? null : <OrderDialog key={order.part?.id} order={order} onClose={() => setOrder(null)} />}
      </div>
    </main>
  );
}

type Group = BuyingProposals['vendors'][number];

/** What one vendor is asked for; what is ticked becomes one order. */
function VendorGroup({ group }: { readonly group: Group }) {
  const { buying: words, orderDialog } = useWords().stores;
  const may = useMay('stores');
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  const navigate = useNavigate();
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [vendorId, setVendorId] = useState(group.vendor?.id ?? '');
  const [wantedOn, setWantedOn] = useState('');
  const writing = useWrite<Order>();
  const chosen = group.lines.filter((line) => !left.has(keyOf(line)));
  const place = () => {
    const lines = chosen.map(({ part, quantity, packs, packSize, job, words: told }) => ({
      partId: part.id,
      // Of a vendor who is chosen only now nobody has told how it is sold.
      ...(group.vendor === null ? { quantity } : { packs, packSize }),
      ...(job === null ? {} : { jobId: job.id }),
      ...(told === '' ? {} : { words: told }),
      ...(wantedOn === '' ? {} : { wantedOn }),
    }));
    writing.write(
      { path: '/purchase-orders', body: { vendorId, lines } },
      ({ id }) => void navigate({ to: '/stores/orders/$orderId', params: { orderId: id } }),
    );
  };
  const toggle = (key: string) =>
    setLeft(left.has(key) ? new Set([...left].filter((one) => one !== key)) : new Set([...left, key]));
  return (
    <section className="vendor-group">
      <h2>{group.vendor?.name ?? words.nobody}</h2>
      <BuyingLines
        of={group.vendor?.name ?? words.nobody}
        lines={group.lines}
        left={left}
        onToggle={may ? toggle : undefined}
      />
      {may ? (
        <div className="kit-acts">
          {group.vendor === null ? (
            <Field label={orderDialog.vendor}>
              {(input) => (
                <select {...input} value={vendorId} onChange={({ target }) => setVendorId(target.value)}>
                  <option value="">{orderDialog.chooseVendor}</option>
                  {vendors.map(({ id, name, trade }) => (
                    <option key={id} value={id}>
                      {name}, {trade}
                    </option>
                  ))}
                </select>
              )}
            </Field>
          ) : null}
          <Field label={words.wantedBy}>
            {(input) => (
              <input {...input} type="date" value={wantedOn} onChange={({ target }) => setWantedOn(target.value)} />
            )}
          </Field>
          <Button kind="main" disabled={vendorId === '' || chosen.length === 0 || writing.busy} onClick={place}>
            {words.place(chosen.length)}
          </Button>
        </div>
      ) : null}
      <Refusal error={writing.error} />
    </section>
  );
}
