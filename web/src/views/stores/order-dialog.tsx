import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PartName } from '#contracts/parts.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useWords } from '../../words/words.tsx';
import { PartPicker } from './part-picker.tsx';
import { floorQuery, vendorsQuery } from './stores-queries.ts';

export interface OrderFor {
  readonly part: PartName | null;
  readonly quantity: number;
  readonly jobId: string;
}

/** Writes down what was ordered, so that its shortage gets a date. */
export function OrderDialog({ order, onClose }: { readonly order: OrderFor; readonly onClose: () => void }) {
  const { orderDialog: words } = useWords().stores;
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  const engines = useQuery(floorQuery).data?.engines ?? [];
  const [part, setPart] = useState(order.part);
  const [vendorId, setVendorId] = useState('');
  const [quantity, setQuantity] = useState(order.quantity);
  const [promisedOn, setPromisedOn] = useState('');
  const [jobId, setJobId] = useState(order.jobId);
  const writing = useWrite<{ id: string }>();
  const ready = part !== null && vendorId !== '' && !writing.busy;
  const write = () => {
    if (part === null || !ready) return;
    const body = {
      vendorId,
      partId: part.id,
      quantity,
      ...(promisedOn === '' ? {} : { promisedOn }),
      ...(jobId === '' ? {} : { jobId }),
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
        <div className="count">
          <b>{words.quantity}</b>
          <Stepper label={words.quantity} value={quantity} min={1} max={100_000} onChange={setQuantity} />
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
        {isSaidAt(writing.error, ['/vendorId', '/promisedOn', '/jobId']) ? null : <Refusal error={writing.error} />}
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
