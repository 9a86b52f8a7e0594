import { useState } from 'react';
import type { BinsChanged, ChangeBins } from '#contracts/bin-changes.ts';
import { furthestPlace, furthestStep } from '#contracts/bin-walk.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { ChangeSeveralDialog } from './change-several-dialog.tsx';

/** As typed; an empty one stays as it is. */
interface Entry {
  readonly from: string;
  readonly step: string;
  readonly closed: '' | 'yes' | 'no';
}

const isPlaceWrong = ({ from }: Entry): boolean =>
  from !== '' && !(/^\d{1,7}$/.test(from) && Number(from) <= furthestPlace);
const isStepWrong = ({ step }: Entry): boolean =>
  !(/^\d{1,4}$/.test(step) && Number(step) >= 1 && Number(step) <= furthestStep);

const changeOf = ({ from, step, closed }: Entry, binIds: readonly string[]): ChangeBins => ({
  binIds: [...binIds],
  ...(from === '' ? {} : { walk: { from: Number(from), step: Number(step) } }),
  ...(closed === '' ? {} : { closed: closed === 'yes' }),
});

interface DialogProps {
  readonly binIds: readonly string[];
  readonly onClose: () => void;
}

/** Moves several bins in the walk, closes or opens them in one act. */
export function BinChangeDialog({ binIds, onClose }: DialogProps) {
  const { several: words, bin, walkShort } = useWords().storesDesks.bins;
  const [entry, setEntry] = useState<Entry>({ from: '', step: '10', closed: '' });
  const isNothing = entry.from === '' && entry.closed === '';
  return (
    <ChangeSeveralDialog<BinsChanged['items'][number]>
      words={{ ...words, title: words.title(binIds.length), one: bin }}
      path="/bins/changes"
      body={changeOf(entry, binIds)}
      keyed={!isNothing && !isPlaceWrong(entry) && !isStepWrong(entry)}
      onClose={onClose}
      itemOf={({ bin: { id, code } }) => ({ id, name: <b className="num">{code}</b> })}
      factIn={(fact) => (fact === 'closed' ? words.closed : walkShort)}
      fields={(changed) => (
        <Fields
          entry={entry}
          change={(keyed) => {
            changed();
            setEntry({ ...entry, ...keyed });
          }}
        />
      )}
    />
  );
}

interface FieldsProps {
  readonly entry: Entry;
  readonly change: (changed: Partial<Entry>) => void;
}

function Fields({ entry, change }: FieldsProps) {
  const { partChanges, storesDesks } = useWords();
  const { several: words } = storesDesks.bins;
  return (
    <div className="pair">
      <Field label={words.from} hint={words.fromHint} error={isPlaceWrong(entry) ? words.fromWrong : undefined}>
        {(input) => (
          <input
            {...input}
            inputMode="numeric"
            maxLength={7}
            placeholder={partChanges.asItIs}
            value={entry.from}
            onChange={({ target }) => change({ from: target.value.trim() })}
          />
        )}
      </Field>
      <Field label={words.step} error={isStepWrong(entry) ? words.stepWrong : undefined}>
        {(input) => (
          <input
            {...input}
            inputMode="numeric"
            maxLength={4}
            value={entry.step}
            onChange={({ target }) => change({ step: target.value.trim() })}
          />
        )}
      </Field>
      <Field label={words.closed}>
        {(input) => (
          <select
            {...input}
            value={entry.closed}
            onChange={({ target: { value } }) => change({ closed: value === 'yes' || value === 'no' ? value : '' })}
          >
            <option value="">{partChanges.asItIs}</option>
            <option value="yes">{partChanges.yes}</option>
            <option value="no">{partChanges.no}</option>
          </select>
        )}
      </Field>
    </div>
  );
}
