import { useState } from 'react';
import type { People } from '#contracts/people.ts';
import { type Role, roles } from '#contracts/rights.ts';
import { useWrite } from '../../app/write.ts';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

type Person = People['items'][number];

const onlyDigits = (text: string): string => text.replace(/\D/g, '');

/** Somebody new, or other initials and work for somebody who is here. */
export function PersonDialog({ person, onClose }: { readonly person: Person | null; readonly onClose: () => void }) {
  const { people: words, name: nameWord, changeOf } = useWords().shop;
  const writing = useWrite();
  const [name, setName] = useState(person?.name ?? '');
  const [initials, setInitials] = useState(person?.initials ?? '');
  const [held, setHeld] = useState<readonly Role[]>(person?.roles ?? ['technician']);
  const [pin, setPin] = useState('');
  const keep = () =>
    writing.write(
      person === null
        ? { path: '/people', body: { name, initials, roles: held, pin } }
        : { path: `/people/${person.id}`, method: 'PATCH', body: { name, initials, roles: held } },
      onClose,
    );
  const toggle = (role: Role) =>
    setHeld(
      held.includes(role)
        ? held.filter((one) => one !== role)
        : roles.filter((one) => one === role || held.includes(one)),
    );
  return (
    <SetUpDialog
      title={person === null ? words.add : changeOf(person.name)}
      writing={writing}
      keep={keep}
      onClose={onClose}
      said={['/name', '/initials', '/pin']}
      ready={name.trim() !== '' && initials !== '' && held.length > 0 && (person !== null || pin.length >= 4)}
      adding={person === null}
    >
      <div className="pair">
        <TextField label={nameWord} value={name} onChange={setName} pointer="/name" error={writing.error} />
        <TextField
          label={words.initials}
          hint={words.initialsHint}
          value={initials}
          onChange={(typed) => setInitials(typed.trim())}
          pointer="/initials"
          error={writing.error}
          most={4}
        />
      </div>
      <fieldset>
        <legend>{words.roles}</legend>
        {roles.map((role) => (
          <label key={role} className="check">
            <input type="checkbox" checked={held.includes(role)} onChange={() => toggle(role)} />
            {role}
          </label>
        ))}
      </fieldset>
      {person === null ? (
        <TextField
          label={words.pin}
          hint={words.pinHint}
          value={pin}
          onChange={(typed) => setPin(onlyDigits(typed))}
          pointer="/pin"
          error={writing.error}
          numeric
          most={12}
        />
      ) : null}
    </SetUpDialog>
  );
}

/** A PIN given by the lead, for who forgot theirs. */
export function PinDialog({ person, onClose }: { readonly person: Person; readonly onClose: () => void }) {
  const words = useWords().shop.people;
  const writing = useWrite();
  const [pin, setPin] = useState('');
  return (
    <SetUpDialog
      title={words.givePinTo(person.name)}
      writing={writing}
      keep={() => writing.write({ path: `/people/${person.id}/pin`, body: { pin } }, onClose)}
      onClose={onClose}
      said={['/pin']}
      ready={pin.length >= 4}
    >
      <TextField
        label={words.pin}
        hint={words.pinHint}
        value={pin}
        onChange={(typed) => setPin(onlyDigits(typed))}
        pointer="/pin"
        error={writing.error}
        numeric
        most={12}
      />
      <p className="note">{words.givePinWhy}</p>
    </SetUpDialog>
  );
}
