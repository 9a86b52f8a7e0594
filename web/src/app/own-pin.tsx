import { type FormEvent, useState } from 'react';
import { Button } from '../kit/button.tsx';
import { Dialog } from '../kit/dialog.tsx';
import { Field } from '../kit/field.tsx';
import { useWords } from '../words/words.tsx';
import { Refusal } from './refusal.tsx';
import { useSession } from './session.tsx';
import { faultAt, isSaidAt, useWrite } from './write.ts';

function OwnPinDialog({ onClose }: { readonly onClose: () => void }) {
  const { ownPin: words, cancel } = useWords().shop;
  const [entry, setEntry] = useState({ pin: '', newPin: '' });
  const writing = useWrite();
  const field = (name: 'pin' | 'newPin', label: string, hint?: string) => (
    <Field label={label} error={faultAt(writing.error, `/${name}`)} {...(hint === undefined ? {} : { hint })}>
      {(input) => (
        <input
          {...input}
          type="password"
          inputMode="numeric"
          autoComplete="off"
          maxLength={12}
          value={entry[name]}
          onChange={({ target }) => setEntry({ ...entry, [name]: target.value.replace(/\D/g, '') })}
        />
      )}
    </Field>
  );
  const submit = (event: FormEvent) => {
    event.preventDefault();
    writing.write({ path: '/session/pin', body: entry }, onClose);
  };
  return (
    <Dialog title={words.title} open onClose={onClose}>
      <form className="form" onSubmit={submit}>
        {field('pin', words.now)}
        {field('newPin', words.next, words.hint)}
        <p className="note">{words.why}</p>
        {isSaidAt(writing.error, ['/pin', '/newPin']) ? null : <Refusal error={writing.error} />}
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={entry.pin.length < 4 || entry.newPin.length < 4 || writing.busy}>
            {words.keep}
          </Button>
          <Button onClick={onClose}>{cancel}</Button>
        </div>
      </form>
    </Dialog>
  );
}

/** Who is here; a tap changes the PIN. */
export function OwnName() {
  const words = useWords().shop.ownPin;
  const { person } = useSession();
  const [open, setOpen] = useState(false);
  return (
    <>
      <button type="button" className="own-name" aria-label={words.open(person.name)} onClick={() => setOpen(true)}>
        {person.name}
      </button>
      {open ? <OwnPinDialog onClose={() => setOpen(false)} /> : null}
    </>
  );
}
