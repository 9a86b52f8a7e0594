import { useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import type { PriceListTaken } from '#contracts/price-lists.ts';
import { CsvFaults, CsvFileField, useCheckedFile } from '../../app/checked-file.tsx';
import { CheckedActs } from '../../app/checked-write.tsx';
import { useMay } from '../../app/session.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { NamedOptions } from '../../kit/named-options.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { vendorsQuery } from './stores-queries.ts';

interface Entry {
  readonly vendorId: string;
  readonly from: string;
  readonly unknown: 'refuse' | 'make';
}

function addressOf({ vendorId, from, unknown }: Entry, step: 'check' | 'take'): string {
  const asked = new URLSearchParams({ unknown, ...(from === '' ? {} : { validFrom: from }) });
  return `/vendors/${vendorId}/price-list${step === 'check' ? '/check' : ''}?${asked}`;
}

/** Takes a vendor's price list. */
export function PriceListDialog({ onClose }: { readonly onClose: () => void }) {
  const { priceList: words } = useWords();
  const format = useFormat();
  const [entry, setEntry] = useState<Entry>({ vendorId: '', from: '', unknown: 'make' });
  const file = useCheckedFile<PriceListTaken>((step) => addressOf(entry, step));
  const { checked, taken } = file;
  const change = (changed: Partial<Entry>) => {
    file.reset();
    setEntry({ ...entry, ...changed });
  };
  return (
    <Dialog
      title={words.title}
      open
      onClose={onClose}
      acts={
        <CheckedActs
          writing={file}
          ready={entry.vendorId !== '' && file.text !== ''}
          words={{ ...words, take: ({ prices }) => words.take(format.number(prices)) }}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <p>{words.how}</p>
        <PriceListFields entry={entry} change={change} />
        <CsvFileField label={words.file} hint={words.fileHint(format.number(file.rows))} file={file} />
        <Progress rows={file.rows} step={file.sending} />
        {checked === undefined || taken !== undefined ? null : <Would taken={checked} />}
        {taken === undefined ? null : (
          <p role="status">
            <b>{words.kept(format.number(taken.prices), format.number(taken.made))}</b>
          </p>
        )}
        <CsvFaults error={file.error} words={words} />
      </div>
    </Dialog>
  );
}

interface FieldsProps {
  readonly entry: Entry;
  readonly change: (changed: Partial<Entry>) => void;
}

function PriceListFields({ entry, change }: FieldsProps) {
  const { priceList: words, storeFiles } = useWords();
  const seesMoney = useMay('money');
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  return (
    <>
      <div className="pair">
        <Field label={words.vendor}>
          {(input) => (
            <select {...input} value={entry.vendorId} onChange={({ target }) => change({ vendorId: target.value })}>
              <option value="">{words.chooseVendor}</option>
              <NamedOptions of={vendors} />
            </select>
          )}
        </Field>
        <Field label={words.from} hint={words.fromHint}>
          {(input) => (
            <input
              {...input}
              type="date"
              value={entry.from}
              onChange={({ target }) => change({ from: target.value })}
            />
          )}
        </Field>
      </div>
      {entry.vendorId === '' || !seesMoney ? null : (
        <p>
          <a className="btn" href={`/api/vendors/${entry.vendorId}/price-list.csv`} download="price-list.csv">
            {storeFiles.out.vendorPrices}
          </a>
        </p>
      )}
      <Choice
        label={words.unknown}
        value={entry.unknown}
        options={(['make', 'refuse'] as const).map((way) => ({ value: way, label: words.unknownWays[way] }))}
        onChange={(unknown) => change({ unknown })}
      />
    </>
  );
}

/** A long list takes seconds: which step it is at, said as well as shown. */
function Progress({ rows, step }: { readonly rows: number; readonly step: 'check' | 'take' | undefined }) {
  const { priceList: words } = useWords();
  const format = useFormat();
  const label = useId();
  if (step === undefined) return null;
  return (
    <p role="status">
      <span id={label}>
        {step === 'check' ? words.checking(format.number(rows)) : words.keeping(format.number(rows))}
      </span>
      <progress aria-labelledby={label} />
    </p>
  );
}

function Would({ taken }: { readonly taken: PriceListTaken }) {
  const { priceList: words } = useWords();
  const { number } = useFormat();
  return (
    <p role="status">
      {words.would(number(taken.rows), number(taken.prices), number(taken.made), number(taken.unchanged))}
    </p>
  );
}
