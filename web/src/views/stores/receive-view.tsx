import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { DeliveryTaken, ExpectedGoods } from '#contracts/deliveries.ts';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { Delivery } from './delivery.tsx';
import { DeliveryDone } from './delivery-done.tsx';
import { Desks } from './desks.tsx';
import { LineChangeDialog } from './line-change-dialog.tsx';
import { NotYetRead } from './not-yet-read.tsx';
import { BringButton, FileLink } from './store-files.tsx';
import { expectedQuery } from './stores-queries.ts';
import { TickBar, useTicks } from './ticks.tsx';
import './stores.css';
import './desks.css';
import './receive.css';

/** The receiving desk: whose delivery it is, what of it came and how, and what became of it. */
export function ReceiveView() {
  const { receive: words } = useWords().storesDesks;
  const [vendorId, setVendorId] = useState('');
  const expected = useQuery(expectedQuery(vendorId));
  const writing = useWrite<DeliveryTaken>();
  return (
    <main className="stores one-sheet">
      <title>{words.title}</title>
      <div className="p receive">
        <Desks />
        <div className="hd">
          <h1>{words.title}</h1>
          <div className="kit-acts">
            <FileLink name="expected" />
            <BringButton what="days" at="/purchase-lines" />
          </div>
        </div>
        <NotYetRead query={expected} label={words.reading} lines={7} />
        {writing.reply !== undefined ? (
          <DeliveryDone
            taken={writing.reply}
            onNext={() => {
              writing.clear();
              setVendorId('');
            }}
          />
        ) : expected.data === undefined ? null : (
          <Desk expected={expected.data} vendorId={vendorId} onVendor={setVendorId} writing={writing} />
        )}
      </div>
    </main>
  );
}

interface DeskProps {
  readonly expected: ExpectedGoods;
  readonly vendorId: string;
  readonly onVendor: (vendorId: string) => void;
  readonly writing: ReturnType<typeof useWrite<DeliveryTaken>>;
}

function Desk({ expected, vendorId, onVendor, writing }: DeskProps) {
  const { receive: words } = useWords().storesDesks;
  const format = useFormat();
  if (expected.vendors.length === 0)
    return (
      <Empty
        title={words.nothing}
        act={
          <Link className="btn main" to="/stores/order">
            {words.toOrder}
          </Link>
        }
      >
        {words.nothingWhat}
      </Empty>
    );
  return (
    <>
      <section className="vendors" aria-label={words.from}>
        <h2>{words.from}</h2>
        <div className="vendor-choice">
          {expected.vendors.map(({ id, name, lines, late, nextOn }) => (
            <Button key={id} aria-pressed={id === vendorId} onClick={() => onVendor(id)}>
              <span>
                <b>{name}</b>
                <span className={late > 0 ? 'note hot' : 'note'}>
                  {words.vendor(lines, late)}, {nextOn === null ? words.noDay : words.nextOn(format.day(nextOn))}
                </span>
              </span>
            </Button>
          ))}
        </div>
        {vendorId === '' ? <p className="note">{words.hint}</p> : null}
      </section>
      <ToCome
        // Another vendor is another delivery.
        key={vendorId}
        lines={vendorId === '' ? [] : expected.lines}
        vendorId={vendorId}
        onVendor={onVendor}
        writing={writing}
      />
    </>
  );
}

interface ToComeProps extends Omit<DeskProps, 'expected'> {
  readonly lines: ExpectedGoods['lines'];
}

/** What is to come of a vendor: taken in as a delivery, or its day moved where they wrote that it slips. */
function ToCome({ lines, ...desk }: ToComeProps) {
  const { lineChanges: words } = useWords();
  const may = useMay('stores');
  const shown = lines.map(({ id }) => id);
  const ticks = useTicks(shown);
  return (
    <>
      {may && lines.length > 0 ? (
        <TickBar
          ticks={ticks}
          shown={shown}
          change={words.open}
          dialog={(lineIds, close) => <LineChangeDialog lineIds={lineIds} onClose={close} />}
        />
      ) : null}
      <Delivery lines={lines} ticks={ticks} {...desk} />
    </>
  );
}
