import { useQuery } from '@tanstack/react-query';
import { useDeferredValue } from 'react';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { ownersQuery } from './counter-queries.ts';
import type { TakeInEntry } from './take-in-entry.ts';

interface ChoiceProps {
  readonly entry: TakeInEntry;
  readonly change: (part: Partial<TakeInEntry>) => void;
  readonly fault: string | undefined;
}

/** Whose engine: an owner known here, or a new one with how to reach them. */
export function OwnerChoice({ entry, change, fault }: ChoiceProps) {
  const { takeIn: words } = useWords().counter;
  const typed = useDeferredValue(entry.ownerName.trim());
  const asks = entry.ownerId === null && typed.length >= 2;
  const found = useQuery({ ...ownersQuery(typed), enabled: asks });
  if (entry.ownerId !== null) {
    return (
      <div className="picked">
        <span>
          <span className="label">{words.owner}</span>
          <b>{entry.ownerName}</b> <span className="note">{words.ownerKnown(entry.ownerNote)}</span>
        </span>
        <Button onClick={() => change({ ownerId: null, ownerName: '', ownerNote: '' })}>{words.anotherOwner}</Button>
      </div>
    );
  }
  const matches = asks ? (found.data?.items ?? []).slice(0, 5) : [];
  return (
    <>
      <Field label={words.owner} hint={words.ownerHint} error={fault}>
        {(input) => (
          <input
            {...input}
            autoComplete="off"
            maxLength={120}
            value={entry.ownerName}
            onChange={({ target }) => change({ ownerName: target.value })}
          />
        )}
      </Field>
      {matches.length === 0 ? null : (
        <ul className="matches" aria-label={words.owners}>
          {matches.map(({ id, name, contact }) => (
            <li key={id}>
              <button
                type="button"
                className="found"
                aria-label={words.chooseOwner(name)}
                onClick={() => change({ ownerId: id, ownerName: name, ownerNote: contact })}
              >
                <b>{name}</b>
                <span className="note">{contact}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
      {entry.ownerName.trim() === '' ? null : (
        <Field label={words.contact}>
          {(input) => (
            <input
              {...input}
              autoComplete="off"
              maxLength={200}
              value={entry.contact}
              onChange={({ target }) => change({ contact: target.value })}
            />
          )}
        </Field>
      )}
    </>
  );
}
