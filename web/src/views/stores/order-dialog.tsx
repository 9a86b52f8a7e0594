import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PartName } from '#contracts/parts.ts';
import { packsFor } from '#domain/stock/packs.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useToday } from '../../app/today.ts';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { usePackText } from './pack-count.tsx';
import { PartPicker } from './part-picker.tsx';
import { Replaced } from './replaced.tsx';
import { floorQuery, partSupplyQuery, vendorsQuery } from './stores-queries.ts';

export interface OrderFor {
  readonly part: PartName | null;
  readonly quantity: number;
  readonly jobId: string;
  /** What the vendor is to be told of it: by which rule of lots it is wanted. */
  readonly words: string;
}

/** By how many a vendor sells a part today; by one where nobody told. */
function usePackOf(partId: string | undefined, vendorId: string): number {
  const today = useToday();
  const { data } = useQuery({ ...partSupplyQuery(partId ?? ''), enabled: partId !== undefined });
  return data?.prices.find(({ vendor, validFrom }) => vendor.id === vendorId && validFrom <= today)?.packSize ?? 1;
}

/** Writes down what was ordered, so that its shortage gets a date. */
export function OrderDialog({ order, onClose }: { readonly order: OrderFor; readonly onClose: () => void }) {
  const { orderDialog: words } = useWords().stores;
  const { packs: packWords } = useWords();
  const format = useFormat();
  const packText = usePackText();
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  const engines = useQuery(floorQuery).data?.engines ?? [];
  const [part, setPart] = useState(order.part);
  const [vendorId, setVendorId] = useState('');
  const [quantity, setQuantity] = useState(order.quantity);
  const [promisedOn, setPromisedOn] = useState('');
  const [jobId, setJobId] = useState(order.jobId);
  const [told, setTold] = useState(order.words);
  const [replacedWhy, setReplacedWhy] = useState('');
  const writing = useWrite<{ id: string }>();
  const packSize = usePackOf(part?.id, vendorId);
  const packs = packsFor(quantity, packSize);
  const ready = part !== null && vendorId !== '' && !writing.busy;
  const write = () => {
    if (part === null || !ready) return;
    const body = {
      vendorId,
      partId: part.id,
      ...(packSize === 1 ? { quantity } : { packs, packSize }),
      ...(promisedOn === '' ? {} : { promisedOn }),
      ...(jobId === '' ? {} : { jobId }),
      ...(told.trim() === '' ? {} : { words: told }),
      ...(replacedWhy.trim() === '' ? {} : { replacedWhy }),
    };
    writing.write({ path: '/purchase-lines', body }, onClose);
  };
  return (
    <Dialog title={words.title} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          write();
        }}
      >
        <PartPicker chosen={part} onChoose={setPart} />
        <Replaced
          part={part}
          why={replacedWhy}
          error={faultAt(writing.error, '/replacedWhy')}
          onWhy={setReplacedWhy}
          onInstead={setPart}
        />
        <div className="count">
          <b>{packSize === 1 ? words.quantity : packWords.packs(format.number(packSize))}</b>
          <Stepper
            label={packSize === 1 ? words.quantity : packWords.packs(format.number(packSize))}
            value={packs}
            min={1}
            max={Math.floor(100_000 / packSize)}
            onChange={(count) => setQuantity(count * packSize)}
          />
          {packSize === 1 ? null : <output className="num">{packText(packs * packSize, packSize)}</output>}
        </div>
        <div className="pair">
          <Field label={words.vendor} error={faultAt(writing.error, '/vendorId')}>
            {(input) => (
              <select {...input} required value={vendorId} onChange={({ target }) => setVendorId(target.value)}>
                <option value="">{words.chooseVendor}</option>
                {vendors.map(({ id, name, trade }) => (
                  <option key={id} value={id}>
                    {name}, {trade}
                  </option>
                ))}
              </select>
            )}
          </Field>
          <Field label={words.promised} hint={words.promisedHint} error={faultAt(writing.error, '/promisedOn')}>
            {(input) => (
              <input {...input} type="date" value={promisedOn} onChange={({ target }) => setPromisedOn(target.value)} />
            )}
          </Field>
          <Field label={words.job} error={faultAt(writing.error, '/jobId')}>
            {(input) => (
              <select {...input} value={jobId} onChange={({ target }) => setJobId(target.value)}>
                <option value="">{words.noJob}</option>
                {engines.map(({ job, family, serial }) => (
                  <option key={job.id} value={job.id}>
                    {job.number}, {family.name} {serial}
                  </option>
                ))}
              </select>
            )}
          </Field>
        </div>
        <Field label={words.told} hint={words.toldHint} error={faultAt(writing.error, '/words')}>
          {(input) => (
            <input {...input} maxLength={300} value={told} onChange={({ target }) => setTold(target.value)} />
          )}
        </Field>
        {isSaidAt(writing.error, ['/words', '/vendorId', '/promisedOn', '/jobId', '/replacedWhy']) ? null : (
          <Refusal error={writing.error} />
        )}
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={!ready}>
            {words.write}
          </Button>
          <Button onClick={onClose}>{words.close}</Button>
        </div>
      </form>
    </Dialog>
  );
}
