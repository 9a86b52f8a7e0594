import { useState } from 'react';
import type { ExpectedLine } from '#contracts/deliveries.ts';
import type { Bins } from '#contracts/stores.ts';
import { useSession } from '../../app/session.tsx';
import { faultAt } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field, type FieldInput } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { BinOptions } from './bin-options.tsx';
import { type Entry, goodsByOrder, isSum, openOf } from './delivery-entry.ts';
import { PackSteppers } from './pack-count.tsx';

interface FieldsProps {
  readonly line: ExpectedLine;
  readonly entry: Entry;
  readonly bins: Bins['items'];
  readonly error: Error | null;
  readonly at: number;
  readonly onChange: (entry: Entry) => void;
}

type TextField = 'lot' | 'cost' | 'thickness' | 'grade' | 'wrongWords' | 'damagedWords';

/** How many are good, where they go, what they cost; and what of it was no good. */
export function DeliveryFields(props: FieldsProps) {
  const { line, entry, bins, error, at, onChange } = props;
  const { receive: words } = useWords().storesDesks;
  const { packs: packWords } = useWords();
  const { currency } = useSession().shop;
  const format = useFormat();
  const change = (changed: Partial<Entry>) => onChange({ ...entry, ...changed });
  const fault = (field: string) => faultAt(error, `/lines/${at}/${field}`);
  const text = (field: TextField, maxLength: number) => (input: FieldInput) => (
    <input
      {...input}
      maxLength={maxLength}
      inputMode={field === 'cost' || field === 'thickness' ? 'decimal' : 'text'}
      value={entry[field]}
      onChange={({ target }) => change({ [field]: target.value })}
    />
  );
  const over = entry.quantity - openOf(line);
  const byOrder = format.money({ minor: String(goodsByOrder(line, entry.quantity)), currency });
  return (
    <div className="delivery-fields">
      <div className="count">
        <b>{words.good}</b>
        <PackSteppers
          label={`${words.good}: ${line.part.name}`}
          ones={entry.quantity}
          packSize={line.packSize}
          onChange={(quantity) => change({ quantity })}
        />
        {line.packSize > 1 && over < 0 && over % line.packSize !== 0 ? (
          <p className="note">{packWords.missing(format.number(-over))}</p>
        ) : null}
        {over > 0 ? <b className="hot">{words.over(over)}</b> : null}
        {fault('quantity') === undefined ? null : (
          <p className="field-error" role="alert">
            {fault('quantity')}
          </p>
        )}
      </div>
      {entry.quantity === 0 ? null : (
        <div className="pair">
          <Field label={words.bin} error={fault('binId')}>
            {(input) => (
              <select {...input} value={entry.binId} onChange={({ target }) => change({ binId: target.value })}>
                <option value="">{words.chooseBin}</option>
                <BinOptions of={bins} />
              </select>
            )}
          </Field>
          <Field label={words.lot} error={fault('lotCode')}>
            {text('lot', 40)}
          </Field>
          <Field
            label={words.cost(currency)}
            hint={line.price === null ? words.costNone : words.costHint(byOrder)}
            error={isSum(entry.cost, currency) ? fault('cost') : words.costWrong}
          >
            {text('cost', 15)}
          </Field>
          {line.isShim ? (
            <Field label={words.thickness} error={fault('thickness')}>
              {text('thickness', 12)}
            </Field>
          ) : null}
          <Field label={words.grade} hint={words.gradeHint} error={fault('grade')}>
            {text('grade', 20)}
          </Field>
          {line.bySerial ? (
            <Field
              label={words.serials}
              hint={words.serialsHint(entry.quantity)}
              error={fault('serials') ?? fault('serial')}
            >
              {(input) => (
                <textarea
                  {...input}
                  rows={Math.min(6, entry.quantity + 1)}
                  value={entry.serials}
                  onChange={({ target }) => change({ serials: target.value })}
                />
              )}
            </Field>
          ) : null}
        </div>
      )}
      {line.owesCore && entry.quantity > 0 ? (
        <p className="note">{words.core(entry.quantity, line.core === null ? null : format.money(line.core))}</p>
      ) : null}
      <Aside {...props} text={text} change={change} />
    </div>
  );
}

interface AsideProps extends FieldsProps {
  readonly text: (field: TextField, maxLength: number) => (input: FieldInput) => React.ReactNode;
  readonly change: (changed: Partial<Entry>) => void;
}

/** What came wrong or damaged: it stays out of stock. */
function Aside({ line, entry, error, at, text, change }: AsideProps) {
  const { receive: words } = useWords().storesDesks;
  const [open, setOpen] = useState(false);
  if (!open)
    return (
      <div>
        <Button onClick={() => setOpen(true)} aria-label={`${words.aside}: ${line.part.name}`}>
          {words.aside}
        </Button>
      </div>
    );
  return (
    <div className="delivery-aside">
      {(
        [
          ['wrong', 'wrongWords', words.wrong, words.wrongWhat],
          ['damaged', 'damagedWords', words.damaged, words.damagedWhat],
        ] as const
      ).map(([kind, said, label, what]) => (
        <div key={kind}>
          <div className="count">
            <b>{label}</b>
            <PackSteppers
              label={`${label}: ${line.part.name}`}
              ones={entry[kind]}
              packSize={line.packSize}
              onChange={(count) => change({ [kind]: count })}
            />
          </div>
          {entry[kind] === 0 ? null : (
            <Field label={what} error={faultAt(error, `/lines/${at}/${kind}`)}>
              {text(said, 300)}
            </Field>
          )}
        </div>
      ))}
      <p className="note">{words.asideNote}</p>
    </div>
  );
}
