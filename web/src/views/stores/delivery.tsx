import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { DeliveryTaken, ExpectedLine } from '#contracts/deliveries.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { isSaidAt, type useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { readMoney } from '../../words/money-entry.ts';
import { useWords } from '../../words/words.tsx';
import { asked, type Entry, isSum } from './delivery-entry.ts';
import { DeliveryLine } from './delivery-line.tsx';
import { FreightSpread } from './freight-spread.tsx';
import { binsQuery } from './stores-queries.ts';
import type { Ticks } from './ticks.tsx';
import { useDeliveryScan } from './use-delivery-scan.ts';

interface DeliveryProps {
  readonly lines: readonly ExpectedLine[];
  /** Lines chosen for something else than taking them in. */
  readonly ticks: Ticks;
  readonly vendorId: string;
  readonly onVendor: (vendorId: string) => void;
  readonly writing: ReturnType<typeof useWrite<DeliveryTaken>>;
}

/** What one vendor's delivery brought: line by line, with what bringing it cost; taken in all at once or not at all. */
export function Delivery({ lines, ticks, vendorId, onVendor, writing }: DeliveryProps) {
  const { receive: words } = useWords().storesDesks;
  const { currency } = useSession().shop;
  const may = useMay('stores');
  const bins = useQuery(binsQuery).data?.items ?? [];
  const [entries, setEntries] = useState<ReadonlyMap<string, Entry>>(new Map());
  const [note, setNote] = useState('');
  const [freight, setFreight] = useState('');
  const put = (id: string, entry: Entry | null) =>
    setEntries((before) => {
      const after = new Map(before);
      if (entry === null) after.delete(id);
      else after.set(id, entry);
      return after;
    });
  const notOrdered = useDeliveryScan({ lines, entries, put, vendorId, onVendor });
  const came = lines.flatMap((line) => {
    const entry = entries.get(line.id);
    return entry === undefined ? [] : [{ line, entry }];
  });
  const sums = [freight, ...came.map(({ entry }) => entry.cost)];
  const ready = came.length > 0 && !writing.busy && sums.every((sum) => isSum(sum, currency));
  const freightMoney = freight.trim() === '' ? undefined : readMoney(freight, currency);
  const take = () =>
    writing.write({
      path: '/deliveries',
      body: {
        ...(note.trim() === '' ? {} : { note: note.trim() }),
        lines: came.map(({ line, entry }) => asked(line, entry, currency)),
        ...(freightMoney === undefined ? {} : { freight: freightMoney }),
      },
    });
  if (lines.length === 0)
    return notOrdered === null ? null : (
      <p className="field-error" role="status">
        {words.scanned.notOrdered(notOrdered)}
      </p>
    );
  return (
    <form
      className="form delivery"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) take();
      }}
    >
      {byOrder(lines).map(({ number, own }) => (
        <section key={number ?? 0}>
          <h2>{number === null ? words.noOrder : words.order(number)}</h2>
          <ul className="delivery-lines">
            {own.map((line) => (
              <DeliveryLine
                key={line.id}
                line={line}
                ticks={ticks}
                entry={entries.get(line.id)}
                bins={bins}
                error={writing.error}
                at={came.findIndex((one) => one.line.id === line.id)}
                onChange={may ? (entry) => put(line.id, entry) : undefined}
              />
            ))}
          </ul>
        </section>
      ))}
      {may ? (
        <section className="delivery-foot sunken">
          <div className="pair">
            <Field label={words.note}>
              {(input) => (
                <input {...input} maxLength={60} value={note} onChange={({ target }) => setNote(target.value)} />
              )}
            </Field>
            <Field label={words.freight(currency)} error={isSum(freight, currency) ? undefined : words.costWrong}>
              {(input) => (
                <input
                  {...input}
                  inputMode="decimal"
                  maxLength={15}
                  value={freight}
                  onChange={({ target }) => setFreight(target.value)}
                />
              )}
            </Field>
          </div>
          <FreightSpread came={came} freight={BigInt(freightMoney?.minor ?? '0')} />
          {isSaidAt(writing.error, ['/lines']) ? null : <Refusal error={writing.error} />}
          <Button big type="submit" kind="main" disabled={!ready}>
            {came.length === 0 ? words.takeNone : words.take(came.length)}
          </Button>
        </section>
      ) : null}
    </form>
  );
}

/** By order, as the lines come. */
function byOrder(lines: readonly ExpectedLine[]) {
  const orders = new Map<number | null, ExpectedLine[]>();
  for (const line of lines) {
    const own = orders.get(line.orderNumber);
    if (own === undefined) orders.set(line.orderNumber, [line]);
    else own.push(line);
  }
  return [...orders].map(([number, own]) => ({ number, own }));
}
