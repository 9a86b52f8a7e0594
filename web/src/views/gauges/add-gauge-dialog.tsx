import { type FormEvent, useState } from 'react';
import type { AddInstrument } from '#contracts/instruments.ts';
import { quantityKinds } from '#domain/units/quantity.ts';
import { unitsOfKind } from '#domain/units/unit-table.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { typedFigure } from './gauges-queries.ts';

type Kind = AddInstrument['kind'];
const texts = ['code', 'name', 'kind'] as const;
const figures = ['low', 'high', 'resolution', 'mpe'] as const;
type Entry = Readonly<Record<(typeof texts)[number] | (typeof figures)[number], string>>;
const nothing: Entry = { code: '', name: '', kind: '', low: '', high: '', resolution: '', mpe: '' };

interface Form {
  readonly entry: Entry;
  readonly quantity: Kind;
  readonly unit: string;
  readonly decimals: number;
}

/** What is sent; undefined while a figure or a word is wanting. */
function bodyOf({ entry, quantity, unit, decimals }: Form): AddInstrument | undefined {
  const [low, high, resolution, mpe] = figures.map((name) => typedFigure(entry[name]));
  if (texts.some((name) => entry[name].trim() === '')) return undefined;
  if (low === undefined || high === undefined || resolution === undefined || mpe === undefined) return undefined;
  return {
    code: entry.code.trim(),
    name: entry.name.trim(),
    instrumentKind: entry.kind.trim(),
    kind: quantity,
    unit,
    decimals,
    range: { low: { value: low, unit }, high: { value: high, unit } },
    resolution: { value: resolution, unit },
    mpe: { value: mpe, unit },
  };
}

/** A new gauge for the register. */
export function AddGaugeDialog({ onClose }: { readonly onClose: () => void }) {
  const { gauges } = useWords();
  const words = gauges.addForm;
  const writing = useWrite();
  const [entry, setEntry] = useState(nothing);
  const [quantity, setQuantity] = useState<Kind>('length');
  const [unit, setUnit] = useState('mm');
  const [decimals, setDecimals] = useState(3);
  const body = bodyOf({ entry, quantity, unit, decimals });
  const typed = (name: keyof Entry, numeric: boolean) => (
    <Field key={name} label={words[name]}>
      {(input) => (
        <input
          {...input}
          maxLength={numeric ? 16 : 60}
          inputMode={numeric ? 'decimal' : 'text'}
          value={entry[name]}
          onChange={({ target }) => setEntry({ ...entry, [name]: target.value })}
        />
      )}
    </Field>
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (body !== undefined) writing.write({ path: '/instruments', body }, onClose);
  };
  return (
    <Dialog title={gauges.add} open onClose={onClose}>
      <form className="form" onSubmit={submit}>
        {texts.map((name) => typed(name, false))}
        <div className="pair">
          <Field label={words.quantity}>
            {(input) => (
              <select
                {...input}
                value={quantity}
                onChange={({ target }) => {
                  const next = quantityKinds.find((kind) => kind === target.value) ?? 'length';
                  setQuantity(next);
                  setUnit(unitsOfKind(next)[0] ?? '');
                }}
              >
                {quantityKinds.map((kind) => (
                  <option key={kind} value={kind}>
                    {words.kinds[kind]}
                  </option>
                ))}
              </select>
            )}
          </Field>
          <Field label={words.unit}>
            {(input) => (
              <select {...input} value={unit} onChange={({ target }) => setUnit(target.value)}>
                {unitsOfKind(quantity).map((code) => (
                  <option key={code}>{code}</option>
                ))}
              </select>
            )}
          </Field>
          <Field label={words.decimals}>
            {(input) => (
              <select {...input} value={decimals} onChange={({ target }) => setDecimals(Number(target.value))}>
                {[0, 1, 2, 3, 4, 5, 6].map((each) => (
                  <option key={each}>{each}</option>
                ))}
              </select>
            )}
          </Field>
        </div>
        <div className="pair">{figures.map((name) => typed(name, true))}</div>
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={body === undefined || writing.busy}>
            {words.add}
          </Button>
          <Button onClick={onClose}>{words.cancel}</Button>
        </div>
      </form>
    </Dialog>
  );
}
