import { useMutation, useQuery } from '@tanstack/react-query';
import { useId, useState } from 'react';
import type { PriceListTaken } from '#contracts/price-lists.ts';
import { RefusedError, send } from '../../app/api.ts';
import { FaultTable } from '../../app/fault-table.tsx';
import { newKey } from '../../app/key.ts';
import { invalidateFor } from '../../app/query-client.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { Choice } from '../../kit/choice.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { vendorsQuery } from './stores-queries.ts';

interface Entry {
  readonly vendorId: string;
  readonly from: string;
  readonly unknown: 'refuse' | 'make';
  readonly text: string;
}
type Step = 'check' | 'take';

function addressOf({ vendorId, from, unknown }: Entry, step: Step): string {
  const asked = new URLSearchParams({ unknown, ...(from === '' ? {} : { validFrom: from }) });
  return `/vendors/${vendorId}/price-list${step === 'check' ? '/check' : ''}?${asked}`;
}

/** Rows below the header, as a spreadsheet shows them. */
const rowsIn = (text: string): number => Math.max(0, text.trimEnd().split('\n').length - 1);

/** Takes a vendor's price list: checked first, with what it would bring or what is wrong with it, then kept whole. */
export function PriceListDialog({ onClose }: { readonly onClose: () => void }) {
  const { priceList: words } = useWords();
  const format = useFormat();
  const [entry, setEntry] = useState<Entry>({ vendorId: '', from: '', unknown: 'make', text: '' });
  const sending = useMutation<PriceListTaken, Error, { step: Step; key: string }>({
    mutationFn: ({ step, key }) => send(addressOf(entry, step), undefined, { csv: entry.text, key }),
    onSuccess: (_taken, { step }) => {
      if (step === 'take') invalidateFor('everything');
    },
  });
  const change = (changed: Partial<Entry>) => {
    sending.reset();
    setEntry({ ...entry, ...changed });
  };
  const done = sending.variables?.step === 'take' ? sending.data : undefined;
  const checked = sending.variables?.step === 'check' ? sending.data : undefined;
  const ready = entry.vendorId !== '' && entry.text !== '' && !sending.isPending;
  const next: Step = checked === undefined ? 'check' : 'take';
  return (
    <Dialog
      title={words.title}
      open
      onClose={onClose}
      acts={
        <>
          {done === undefined ? (
            <Button big kind="main" disabled={!ready} onClick={() => sending.mutate({ step: next, key: newKey() })}>
              {checked === undefined ? words.check : words.take(format.number(checked.prices))}
            </Button>
          ) : null}
          <Button big onClick={onClose}>
            {words.close}
          </Button>
        </>
      }
    >
      <div className="form">
        <p>{words.how}</p>
        <PriceListFields entry={entry} change={change} />
        <Progress rows={rowsIn(entry.text)} step={sending.isPending ? sending.variables.step : undefined} />
        {checked === undefined ? null : <Would taken={checked} />}
        {done === undefined ? null : (
          <p role="status">
            <b>{words.kept(format.number(done.prices), format.number(done.made))}</b>
          </p>
        )}
        <Faults error={sending.error} />
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
  const format = useFormat();
  const vendors = useQuery(vendorsQuery).data?.items ?? [];
  return (
    <>
      <div className="pair">
        <Field label={words.vendor}>
          {(input) => (
            <select {...input} value={entry.vendorId} onChange={({ target }) => change({ vendorId: target.value })}>
              <option value="">{words.chooseVendor}</option>
              {vendors.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
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
      <Field
        label={words.file}
        {...(entry.text === '' ? {} : { hint: words.fileHint(format.number(rowsIn(entry.text))) })}
        big
      >
        {(input) => (
          <input
            {...input}
            type="file"
            accept=".csv,.txt,text/csv,text/plain"
            onChange={({ target }) => {
              const [file] = target.files ?? [];
              if (file !== undefined) void file.text().then((text) => change({ text }));
            }}
          />
        )}
      </Field>
    </>
  );
}

/** A long list takes seconds: which step it is at, said as well as shown. */
function Progress({ rows, step }: { readonly rows: number; readonly step: Step | undefined }) {
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

function Faults({ error }: { readonly error: Error | null }) {
  const { priceList: words } = useWords();
  const faults = error instanceof RefusedError && error.code === 'csv-row' ? (error.problem.errors ?? []) : [];
  if (faults.length === 0) return <Refusal error={error} />;
  return <FaultTable faults={faults} title={words.wrong} where={words.where} what={words.what} />;
}
