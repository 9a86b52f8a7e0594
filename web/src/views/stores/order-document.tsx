import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { Order } from '#contracts/supply.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { HeadOfPaper } from '../../kit/head-of-paper.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { Desks } from './desks.tsx';
import { FaultDialog } from './order-fault-dialog.tsx';
import { type Doing, OrderLines } from './order-lines.tsx';
import { ReceiveDialog } from './receive-dialog.tsx';
import { Scrolled } from './scrolled.tsx';
import { orderQuery } from './stores-queries.ts';
import './stores.css';
import './desks.css';

type Line = Order['lines'][number];

/** One order: a sheet to send, and all that became of its lines. */
export function OrderDocumentView() {
  const { stores: words } = useWords();
  const { orderId } = useParams({ from: '/framed/stores/orders/$orderId' });
  const order = useQuery(orderQuery(orderId));
  return (
    <main className="stores one-sheet">
      <div className="p">
        <Desks />
        {order.isPending ? <Skeleton label={words.reading} lines={8} /> : null}
        {order.isError ? <Failed error={order.error} again={() => void order.refetch()} /> : null}
        {order.data === undefined ? null : <OrderSheet order={order.data} />}
      </div>
    </main>
  );
}

function OrderSheet({ order }: { readonly order: Order }) {
  const { buying: words } = useWords().stores;
  const format = useFormat();
  const [doing, setDoing] = useState<Doing | null>(null);
  const facts = [
    {
      name: words.to,
      value: order.vendor.contact === '' ? order.vendor.name : `${order.vendor.name}, ${order.vendor.contact}`,
      wide: true,
    },
    { name: words.from, value: <HeadOfPaper of={order.from} />, wide: true },
    { name: words.written, value: `${format.date(order.openedAt)}, ${order.openedBy}`, wide: true },
    {
      name: words.sentWord,
      value: order.sentAt === null ? words.notSent : format.date(order.sentAt),
      onScreen: true,
    },
    {
      name: words.confirmedWord,
      value: order.confirmedAt === null ? '–' : format.date(order.confirmedAt),
      onScreen: true,
    },
  ];
  return (
    <article className="order-sheet">
      <h1>
        {words.orderTitle} <span className="num">{order.number}</span>
      </h1>
      <TitleBlock facts={facts} columns={4} />
      <OrderActs order={order} />
      <Scrolled label={words.orderTitle}>
        <OrderLines order={order} onDo={setDoing} />
      </Scrolled>
      {order.words === '' ? null : <p>{order.words}</p>}
      {doing?.what === 'receive' ? (
        <ReceiveDialog
          part={doing.line.part}
          purchase={{ ...doing.line, vendor: order.vendor, orderedAt: order.openedAt }}
          onClose={() => setDoing(null)}
        />
      ) : null}
      {doing?.what === 'fault' ? <FaultDialog line={doing.line} onClose={() => setDoing(null)} /> : null}
      {doing?.what === 'date' ? <DateDialog line={doing.line} onClose={() => setDoing(null)} /> : null}
    </article>
  );
}

function OrderActs({ order }: { readonly order: Order }) {
  const { buying: words } = useWords().stores;
  const may = useMay('stores');
  const writing = useWrite<Order>();
  const mark = (what: 'sent' | 'confirmed') =>
    writing.write({ path: `/purchase-orders/${order.id}/marks`, body: { mark: what } });
  return (
    <>
      <div className="kit-acts no-print">
        {may && order.sentAt === null ? (
          <Button kind="main" disabled={writing.busy} onClick={() => mark('sent')}>
            {words.markSent}
          </Button>
        ) : null}
        {may && order.sentAt !== null && order.confirmedAt === null ? (
          <Button disabled={writing.busy} onClick={() => mark('confirmed')}>
            {words.markConfirmed}
          </Button>
        ) : null}
        <a className="btn" href={`/api/purchase-orders/${order.id}/pdf`} download={`order-${order.number}.pdf`}>
          {words.pdf}
        </a>
        <Button onClick={() => window.print()}>{words.print}</Button>
        <a className="btn" href={`/api/purchase-orders/${order.id}/text`} download={`order-${order.number}.txt`}>
          {words.text}
        </a>
        <a className="btn" href={`/api/purchase-orders/${order.id}/csv`} download={`order-${order.number}.csv`}>
          {words.csv}
        </a>
      </div>
      <Refusal error={writing.error} />
    </>
  );
}

/** The day a vendor gave, first or slipped, or that there is none any more. */
function DateDialog({ line, onClose }: { readonly line: Line; readonly onClose: () => void }) {
  const { buying: words, orderDialog } = useWords().stores;
  const [day, setDay] = useState(line.promisedOn ?? '');
  const [why, setWhy] = useState('');
  const writing = useWrite();
  return (
    <Dialog title={words.dateOf(line.part.name)} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          const body = { promisedOn: day === '' ? null : day, words: why };
          writing.write({ path: `/purchase-lines/${line.id}/dates`, body }, onClose);
        }}
      >
        <Field label={orderDialog.promised} hint={orderDialog.promisedHint}>
          {(input) => <input {...input} type="date" value={day} onChange={({ target }) => setDay(target.value)} />}
        </Field>
        <Field
          label={words.dateWhy}
          {...(line.promisedOn === null ? {} : { hint: words.dateWhyHint })}
          error={faultAt(writing.error, '/words')}
        >
          {(input) => <input {...input} maxLength={300} value={why} onChange={({ target }) => setWhy(target.value)} />}
        </Field>
        {isSaidAt(writing.error, ['/words']) ? null : <Refusal error={writing.error} />}
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={writing.busy}>
            {orderDialog.write}
          </Button>
          <Button onClick={onClose}>{orderDialog.close}</Button>
        </div>
      </form>
    </Dialog>
  );
}
