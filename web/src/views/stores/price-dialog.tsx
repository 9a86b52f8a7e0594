import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PartName } from '#contracts/parts.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useSession } from '../../app/session.tsx';
import { useToday } from '../../app/today.ts';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { useFormat } from '../../words/format.ts';
import { readMoney } from '../../words/money-entry.ts';
import { useWords } from '../../words/words.tsx';
import { vendorsQuery } from './stores-queries.ts';

/** Writes down what a vendor asks for a part from a day on. */
export function PriceButton({ part }: { readonly part: PartName }) {
  const { price: words } = useWords().storesDesks;
  const [open, setOpen] = useState(false);
  return (
    <>
      <Button onClick={() => setOpen(true)}>{words.add}</Button>
      {open ? <PriceDialog part={part} onClose={() => setOpen(false)} /> : null}
    </>
  );
}

function PriceDialog({ part, onClose }: { readonly part: PartName; readonly onClose: () => void }) {
  const { price: words } = useWords().storesDesks;
  const { currency } = useSession().shop;
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  const [vendorId, setVendorId] = useState('');
  const [sum, setSum] = useState('');
  const format = useFormat();
  const [pack, setPack] = useState('');
  const [validFrom, setValidFrom] = useState(useToday());
  const [theirNumber, setTheirNumber] = useState('');
  const writing = useWrite();
  const price = readMoney(sum, currency);
  const packSize = /^[1-9]\d{0,5}$/.test(pack.trim()) ? Number(pack) : undefined;
  const packWrong = pack.trim() !== '' && packSize === undefined;
  const ready = vendorId !== '' && price !== undefined && !packWrong && validFrom !== '' && !writing.busy;
  return (
    <Dialog title={words.title(part.name)} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          const body = { vendorId, partId: part.id, price, packSize, validFrom, theirNumber };
          if (ready) writing.write({ path: '/vendor-prices', body }, onClose);
        }}
      >
        <div className="pair">
          <Field label={words.vendor} error={faultAt(writing.error, '/vendorId')}>
            {(input) => (
              <select {...input} required value={vendorId} onChange={({ target }) => setVendorId(target.value)}>
                <option value="">{words.chooseVendor}</option>
                <NamedOptions of={vendors} />
              </select>
            )}
          </Field>
          <Field
            label={words.price(currency)}
            error={sum !== '' && price === undefined ? words.wrong : faultAt(writing.error, '/price')}
          >
            {(input) => (
              <input
                {...input}
                required
                inputMode="decimal"
                maxLength={15}
                value={sum}
                onChange={({ target }) => setSum(target.value)}
              />
            )}
          </Field>
          <Field
            label={words.pack}
            hint={
              packSize === undefined || price === undefined
                ? words.packHint
                : words.each(format.moneyEach(price, packSize))
            }
            error={packWrong ? words.packWrong : faultAt(writing.error, '/packSize')}
          >
            {(input) => (
              <input
                {...input}
                inputMode="numeric"
                maxLength={6}
                value={pack}
                onChange={({ target }) => setPack(target.value)}
              />
            )}
          </Field>
          <Field label={words.from} error={faultAt(writing.error, '/validFrom')}>
            {(input) => (
              <input
                {...input}
                type="date"
                required
                value={validFrom}
                onChange={({ target }) => setValidFrom(target.value)}
              />
            )}
          </Field>
          <Field label={words.theirs} error={faultAt(writing.error, '/theirNumber')}>
            {(input) => (
              <input
                {...input}
                maxLength={60}
                value={theirNumber}
                onChange={({ target }) => setTheirNumber(target.value)}
              />
            )}
          </Field>
        </div>
        {isSaidAt(writing.error, ['/vendorId', '/price', '/packSize', '/validFrom', '/theirNumber']) ? null : (
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
