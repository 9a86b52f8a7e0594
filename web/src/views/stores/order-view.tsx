import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { BuyingProposals, Order, OrderListed } from '#contracts/supply.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { BuyingRulesSection } from './buying-rules.tsx';
import { Desks } from './desks.tsx';
import { Scrolled } from './scrolled.tsx';
import { FileLink } from './store-files.tsx';
import { ordersQuery, toBuyQuery, vendorsQuery } from './stores-queries.ts';
import './stores.css';
import './desks.css';

/** The ordering desk: what to buy, by vendor, and what was ordered. */
export function OrderDeskView() {
  const { stores: words } = useWords();
  const buying = useQuery(toBuyQuery);
  const orders = useQuery(ordersQuery);
  return (
    <main className="stores one-sheet">
      <div className="p">
        <Desks />
        <h1>{words.desks.order}</h1>
        {buying.isPending ? <Skeleton label={words.reading} lines={6} /> : null}
        {buying.isError ? <Failed error={buying.error} again={() => void buying.refetch()} /> : null}
        {buying.data?.vendors.length === 0 ? <p className="nothing">{words.buying.nothing}</p> : null}
        {buying.data?.vendors.map((group) => (
          <VendorGroup key={group.vendor?.id ?? ''} group={group} />
        ))}
        <section>
          <div className="hd">
            <h2>{words.buying.orders}</h2>
            <FileLink name="orders" />
          </div>
          {orders.data?.items.length === 0 ? <p className="nothing">{words.buying.noOrders}</p> : null}
          <ul className="order-list">
            {orders.data?.items.map((order) => (
              <ListedOrder key={order.id} order={order} />
            ))}
          </ul>
        </section>
        <BuyingRulesSection />
      </div>
    </main>
  );
}

type Group = BuyingProposals['vendors'][number];
const keyOf = ({ part, job }: Group['lines'][number]) => `${part.id} ${job?.id ?? ''}`;

/** What one vendor is asked for; what is ticked becomes one order. */
function VendorGroup({ group }: { readonly group: Group }) {
  const { buying: words, orderDialog } = useWords().stores;
  const may = useMay('stores');
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  const navigate = useNavigate();
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [vendorId, setVendorId] = useState(group.vendor?.id ?? '');
  const writing = useWrite<Order>();
  const chosen = group.lines.filter((line) => !left.has(keyOf(line)));
  const place = () => {
    const lines = chosen.map(({ part, quantity, job }) => ({
      partId: part.id,
      quantity,
      ...(job === null ? {} : { jobId: job.id }),
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
      <Scrolled label={group.vendor?.name ?? words.nobody}>
        <BuyingTable lines={group.lines} left={left} onToggle={may ? toggle : undefined} />
      </Scrolled>
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
          <Button kind="main" disabled={vendorId === '' || chosen.length === 0 || writing.busy} onClick={place}>
            {words.place(chosen.length)}
          </Button>
        </div>
      ) : null}
      <Refusal error={writing.error} />
    </section>
  );
}

interface TableProps {
  readonly lines: Group['lines'];
  readonly left: ReadonlySet<string>;
  readonly onToggle: ((key: string) => void) | undefined;
}

function BuyingTable({ lines, left, onToggle }: TableProps) {
  const { buying: words } = useWords().stores;
  const format = useFormat();
  return (
    <table>
      <thead>
        <tr>
          {onToggle === undefined ? null : <th>{words.take}</th>}
          <th>{words.part}</th>
          <th className="n">{words.quantity}</th>
          <th>{words.why}</th>
          <th className="n">{words.price}</th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr key={keyOf(line)}>
            {onToggle === undefined ? null : (
              <td>
                <label className="tick">
                  <input
                    type="checkbox"
                    aria-label={words.takeOf(line.part.name)}
                    checked={!left.has(keyOf(line))}
                    onChange={() => onToggle(keyOf(line))}
                  />
                </label>
              </td>
            )}
            <td>
              <b>{line.part.name}</b> <span className="note num">{line.part.number}</span>
            </td>
            <td className="n">{line.quantity}</td>
            <td>
              {line.job === null
                ? words.low(line.onHand, line.coming, line.reorderPoint)
                : words.short(line.job.number, line.job.family, line.job.serial)}
            </td>
            <td className="n">{line.price === null ? '' : format.money(line.price)}</td>
          </tr>
        ))}
      </tbody>
    </table>
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
