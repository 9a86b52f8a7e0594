import { useState } from 'react';
import type { ChangeLines, LinesChanged } from '#contracts/line-changes.ts';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { ChangeSeveralDialog } from './change-several-dialog.tsx';
import { Scrolled } from './scrolled.tsx';

interface DialogProps {
  readonly lineIds: readonly string[];
  readonly onClose: () => void;
}

/** Tells one day of several lines that are to come, of one or several orders, in one act. */
export function LineChangeDialog({ lineIds, onClose }: DialogProps) {
  const { lineChanges: words } = useWords();
  const format = useFormat();
  const [entry, setEntry] = useState<Entry>({ day: '', why: '' });
  const body: ChangeLines = {
    lineIds: [...lineIds],
    promisedOn: entry.day === '' ? null : entry.day,
    words: entry.why,
  };
  return (
    <ChangeSeveralDialog<LinesChanged['items'][number], LinesChanged>
      words={{ ...words, title: words.title(lineIds.length), one: words.line }}
      path="/purchase-lines/changes"
      body={body}
      keyed
      onClose={onClose}
      itemOf={({ line: { id, orderNumber, part } }) => ({
        id,
        name: (
          <>
            <b>{part.name}</b> <span className="note num">{part.number}</span>
            {orderNumber === null ? null : <span className="note"> {words.order(orderNumber)}</span>}
          </>
        ),
      })}
      factIn={() => words.promisedOn}
      valueIn={format.day}
      also={({ waits }) => <Waits waits={waits} />}
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

interface Entry {
  /** Empty: they gave none any more. */
  readonly day: string;
  readonly why: string;
}

interface FieldsProps {
  readonly entry: Entry;
  readonly change: (changed: Partial<Entry>) => void;
}

function Fields({ entry, change }: FieldsProps) {
  const { stores } = useWords();
  return (
    <div className="pair">
      <Field label={stores.orderDialog.promised} hint={stores.orderDialog.promisedHint}>
        {(input) => (
          <input {...input} type="date" value={entry.day} onChange={({ target }) => change({ day: target.value })} />
        )}
      </Field>
      <Field label={stores.buying.dateWhy} hint={stores.buying.dateWhyHint}>
        {(input) => (
          <input
            {...input}
            maxLength={300}
            value={entry.why}
            onChange={({ target }) => change({ why: target.value })}
          />
        )}
      </Field>
    </div>
  );
}

/** Who waits and gets the pieces on another day by it; too late for what the owner was told is said so. */
function Waits({ waits }: Pick<LinesChanged, 'waits'>) {
  const { lineChanges: words, partChanges } = useWords();
  const format = useFormat();
  if (waits.length === 0) return <p className="note">{words.nobodyWaits}</p>;
  const day = (on: string | null) => (on === null ? partChanges.nothing : format.day(on));
  return (
    <Scrolled label={words.waits}>
      <table>
        <caption>{words.waits}</caption>
        <thead>
          <tr>
            <th>{words.job}</th>
            <th>{partChanges.part}</th>
            <th>{partChanges.from}</th>
            <th>{partChanges.to}</th>
            <th>{words.owner}</th>
          </tr>
        </thead>
        <tbody>
          {waits.map(({ job, part, from, to, promisedOn }) => (
            <tr key={`${job.id} ${part.id}`}>
              <td>{words.jobName(job.number, job.family, job.serial)}</td>
              <td>{part.name}</td>
              <td className="num">{day(from)}</td>
              <td className="num">
                <b>{day(to)}</b>
              </td>
              <td className={promisedOn !== null && (to === null || to > promisedOn) ? 'num hot' : 'num'}>
                {day(promisedOn)}
                {promisedOn !== null && (to === null || to > promisedOn) ? ` ${words.tooLate}` : null}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scrolled>
  );
}
