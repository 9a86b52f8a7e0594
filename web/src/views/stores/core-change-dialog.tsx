import { useState } from 'react';
import type { ChangeCores, CoresChanged } from '#contracts/core-changes.ts';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { ChangeSeveralDialog } from './change-several-dialog.tsx';

interface DialogProps {
  readonly coreIds: readonly string[];
  readonly onClose: () => void;
}

/** Marks several worn pieces as sent back or credited in one act. */
export function CoreChangeDialog({ coreIds, onClose }: DialogProps) {
  const { coreChanges: words, storesDesks } = useWords();
  const [mark, setMark] = useState<ChangeCores['mark']>('sent');
  const [why, setWhy] = useState('');
  const states: Readonly<Record<string, string>> = words.states;
  return (
    <ChangeSeveralDialog<CoresChanged['items'][number]>
      words={{ ...words, title: words.title(coreIds.length), one: storesDesks.cores.part }}
      path="/cores/changes"
      body={{ coreIds, mark, words: why }}
      keyed
      onClose={onClose}
      itemOf={({ core: { id, part, vendor, quantity } }) => ({
        id,
        name: (
          <>
            <b>{part.name}</b> <span className="note num">{part.number}</span> {words.of(quantity, vendor)}
          </>
        ),
      })}
      factIn={() => storesDesks.cores.state}
      valueIn={(state) => states[state] ?? state}
      fields={(changed) => (
        <>
          <Choice
            label={words.what}
            value={mark}
            onChange={(next) => {
              changed();
              setMark(next);
            }}
            options={[
              { value: 'sent', label: storesDesks.cores.markSent },
              { value: 'credited', label: storesDesks.cores.markCredited },
            ]}
          />
          <Field label={words.words} hint={words.wordsHint}>
            {(input) => (
              <input
                {...input}
                maxLength={300}
                value={why}
                onChange={({ target }) => {
                  changed();
                  setWhy(target.value);
                }}
              />
            )}
          </Field>
        </>
      )}
    />
  );
}
