import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Reserved } from '#contracts/demands.ts';
import type { PartName } from '#contracts/parts.ts';
import type { GoodsReceived, PurchaseLine } from '#contracts/stock.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useSession } from '../../app/session.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { readMoney } from '../../words/money-entry.ts';
import { useWords } from '../../words/words.tsx';
import { ReserveAnswer } from './reserve-answer.tsx';
import { binsQuery, partQuery } from './stores-queries.ts';

interface ReceiveProps {
  readonly part: PartName;
  readonly purchase: PurchaseLine | null;
  readonly onClose: () => void;
}

/** Takes goods in: how many, into which bin, of which lot, at what cost; then tells who gets them. */
export function ReceiveDialog({ part, purchase, onClose }: ReceiveProps) {
  const { receiveDialog: words } = useWords().stores;
  const writing = useWrite<GoodsReceived>();
  return (
    <Dialog title={`${words.title}: ${part.name}`} open onClose={onClose}>
      {writing.reply === undefined ? (
        <ReceiveForm part={part} purchase={purchase} writing={writing} onClose={onClose} />
      ) : (
        <Taken part={part} received={writing.reply} onClose={onClose} />
      )}
    </Dialog>
  );
}

type FormProps = ReceiveProps & { readonly writing: ReturnType<typeof useWrite<GoodsReceived>> };

function ReceiveForm({ part, purchase, writing, onClose }: FormProps) {
  const { receiveDialog: words } = useWords().stores;
  const { currency } = useSession().shop;
  const bins = useQuery(binsQuery).data?.items ?? [];
  const sheet = useQuery(partQuery(part.id)).data;
  const isShim = sheet?.part.shim !== null && sheet?.part.shim !== undefined;
  const [quantity, setQuantity] = useState(purchase === null ? 1 : purchase.quantity - purchase.received);
  const [binId, setBinId] = useState('');
  const [lot, setLot] = useState('');
  const [cost, setCost] = useState('');
  const [thickness, setThickness] = useState('');
  const usual = sheet?.part.lots.at(-1)?.bin;
  const bin = binId === '' ? (bins.find(({ code }) => code === usual)?.id ?? '') : binId;
  const money = cost.trim() === '' ? undefined : readMoney(cost, currency);
  const costWrong = cost.trim() !== '' && money === undefined;
  const take = () =>
    writing.write({
      path: '/receipts',
      body: {
        partId: part.id,
        binId: bin,
        quantity,
        ...(lot.trim() === '' ? {} : { lotCode: lot.trim() }),
        ...(money === undefined ? {} : { cost: money }),
        ...(thickness.trim() === '' ? {} : { thickness: { value: thickness.trim().replace(',', '.'), unit: 'mm' } }),
        ...(purchase === null ? {} : { purchaseLineId: purchase.id }),
      },
    });
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (bin !== '' && !costWrong && !writing.busy) take();
      }}
    >
      <div className="count">
        <b>{words.quantity}</b>
        <Stepper label={words.quantity} value={quantity} min={1} max={100_000} onChange={setQuantity} />
      </div>
      <div className="pair">
        <Field label={words.bin} error={faultAt(writing.error, '/binId')}>
          {(input) => (
            <select {...input} required value={bin} onChange={({ target }) => setBinId(target.value)}>
              <option value="">{words.chooseBin}</option>
              {bins.map(({ id, code }) => (
                <option key={id} value={id}>
                  {code}
                </option>
              ))}
            </select>
          )}
        </Field>
        <Field label={words.lot} hint={words.lotHint} error={faultAt(writing.error, '/lotCode')}>
          {(input) => <input {...input} maxLength={40} value={lot} onChange={({ target }) => setLot(target.value)} />}
        </Field>
        <Field label={words.cost(currency)} error={costWrong ? words.costWrong : faultAt(writing.error, '/cost')}>
          {(input) => (
            <input {...input} inputMode="decimal" value={cost} onChange={({ target }) => setCost(target.value)} />
          )}
        </Field>
        {isShim ? (
          <Field label={words.thickness} hint={words.thicknessHint} error={faultAt(writing.error, '/thickness')}>
            {(input) => (
              <input
                {...input}
                inputMode="decimal"
                maxLength={12}
                value={thickness}
                onChange={({ target }) => setThickness(target.value)}
              />
            )}
          </Field>
        ) : null}
      </div>
      {isSaidAt(writing.error, ['/binId', '/lotCode', '/cost', '/thickness']) ? null : (
        <Refusal error={writing.error} />
      )}
      <div className="dialog-acts">
        <Button type="submit" kind="main" disabled={bin === '' || costWrong || writing.busy}>
          {words.take}
        </Button>
        <Button onClick={onClose}>{words.leave}</Button>
      </div>
    </form>
  );
}

interface TakenProps {
  readonly part: PartName;
  readonly received: GoodsReceived;
  readonly onClose: () => void;
}

/** What came of it: for whom it is reserved, and who else is waiting. */
function Taken({ part, received, onClose }: TakenProps) {
  const { receiveDialog: words } = useWords().stores;
  const { reservedFor, waiting } = received;
  const jobWords = ({ family, serial }: { family: string; serial: string }) => `${family} ${serial}`;
  return (
    <div className="form" role="status">
      <p>
        <b>{words.done(received.onHand, part.name)}</b>
      </p>
      {reservedFor === null ? null : <p>{words.reserved(reservedFor.quantity, jobWords(reservedFor.job))}</p>}
      <p className="num">{words.free(received.available)}</p>
      {waiting.length === 0 ? null : (
        <section>
          <h3>{words.waiting}</h3>
          <ul className="waiting">
            {waiting.map(({ job, demandLineId, short }) => (
              <Waiting
                key={demandLineId}
                said={words.waitingFor(jobWords(job), short)}
                jobId={job.id}
                lineId={demandLineId}
                free={received.available > 0}
              />
            ))}
          </ul>
        </section>
      )}
      <div className="dialog-acts">
        <Button kind="main" onClick={onClose}>
          {words.close}
        </Button>
      </div>
    </div>
  );
}

interface WaitingProps {
  readonly said: string;
  readonly jobId: string;
  readonly lineId: string;
  readonly free: boolean;
}

function Waiting({ said, jobId, lineId, free }: WaitingProps) {
  const { receiveDialog: words } = useWords().stores;
  const writing = useWrite<Reserved>();
  const give = () =>
    writing.write({
      path: `/jobs/${jobId}/reservations`,
      body: { allOrNothing: false, demandLineIds: [lineId] },
    });
  return (
    <li>
      <span>{said}</span>
      {writing.reply === undefined ? (
        <Button aria-label={`${words.giveTo}: ${said}`} disabled={!free || writing.busy} onClick={give}>
          {words.giveTo}
        </Button>
      ) : (
        <ReserveAnswer answer={writing.reply} />
      )}
      <Refusal error={writing.error} />
    </li>
  );
}
