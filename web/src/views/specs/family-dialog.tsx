import { useState } from 'react';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

const cycles = ['four-stroke', 'two-stroke'] as const;
const coolings = ['water', 'air'] as const;

/** Adds an engine family; its first spec sheet is drafted next. */
export function FamilyDialog({ onClose }: { readonly onClose: () => void }) {
  const { newFamily: words, close } = useWords().specs;
  const [entry, setEntry] = useState({
    code: '',
    name: '',
    cycle: 'four-stroke',
    cooling: 'water',
    bore: '',
    stroke: '',
  });
  const writing = useWrite<{ id: string }>();
  const text = (field: 'code' | 'name' | 'bore' | 'stroke', hint?: string) => (
    <Field label={words[field]} {...(hint === undefined ? {} : { hint })} error={faultAt(writing.error, `/${field}`)}>
      {(input) => (
        <input
          {...input}
          required
          value={entry[field]}
          inputMode={field === 'bore' || field === 'stroke' ? 'decimal' : 'text'}
          onChange={({ target }) => setEntry({ ...entry, [field]: target.value })}
        />
      )}
    </Field>
  );
  const choice = (field: 'cycle' | 'cooling', options: readonly string[]) => (
    <Field label={words[field]}>
      {(input) => (
        <select
          {...input}
          value={entry[field]}
          onChange={({ target }) => setEntry({ ...entry, [field]: target.value })}
        >
          {options.map((one) => (
            <option key={one}>{one}</option>
          ))}
        </select>
      )}
    </Field>
  );
  const add = () =>
    writing.write(
      {
        path: '/families',
        body: {
          ...entry,
          bore: { value: entry.bore, unit: 'mm' },
          stroke: { value: entry.stroke, unit: 'mm' },
        },
      },
      onClose,
    );
  return (
    <Dialog title={words.title} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          add();
        }}
      >
        <div className="pair">
          {text('code', words.codeHint)}
          {text('name')}
          {choice('cycle', cycles)}
          {choice('cooling', coolings)}
          {text('bore')}
          {text('stroke')}
        </div>
        {isSaidAt(writing.error, ['/code', '/name', '/bore', '/stroke']) ? null : <Refusal error={writing.error} />}
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={writing.busy}>
            {words.add}
          </Button>
          <Button onClick={onClose}>{close}</Button>
        </div>
      </form>
    </Dialog>
  );
}
