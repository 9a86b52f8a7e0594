import { useState } from 'react';
import type { BinsChanged, ChangeBins } from '#contracts/bin-changes.ts';
import { send } from '../../app/api.ts';
import { CheckedActs, useCheckedWrite } from '../../app/checked-write.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { Scrolled } from './scrolled.tsx';

/** As typed; an empty one stays as it is. */
interface Entry {
  readonly from: string;
  readonly step: string;
  readonly closed: '' | 'yes' | 'no';
}

const isPlaceWrong = ({ from }: Entry): boolean =>
  from !== '' && !(/^\d{1,7}$/.test(from) && Number(from) <= 1_000_000);
const isStepWrong = ({ step }: Entry): boolean =>
  !(/^\d{1,4}$/.test(step) && Number(step) >= 1 && Number(step) <= 1000);

const changeOf = ({ from, step, closed }: Entry, binIds: readonly string[]): ChangeBins => ({
  binIds: [...binIds],
  ...(from === '' ? {} : { walk: { from: Number(from), step: Number(step) } }),
  ...(closed === '' ? {} : { closed: closed === 'yes' }),
});

interface DialogProps {
  readonly binIds: readonly string[];
  readonly onClose: () => void;
}

/** Moves several bins in the walk, closes or opens them in one act: what would change of each is shown first. */
export function BinChangeDialog({ binIds, onClose }: DialogProps) {
  const { partChanges, storesDesks } = useWords();
  const { several: words } = storesDesks.bins;
  const [entry, setEntry] = useState<Entry>({ from: '', step: '10', closed: '' });
  const writing = useCheckedWrite<BinsChanged>((step, key) =>
    send(`/bins/changes${step === 'check' ? '/check' : ''}`, changeOf(entry, binIds), { key }),
  );
  const { checked: would, taken: done } = writing;
  const isNothing = entry.from === '' && entry.closed === '';
  const ready = !isNothing && !isPlaceWrong(entry) && !isStepWrong(entry) && would?.items.length !== 0;
  return (
    <Dialog
      title={words.title(binIds.length)}
      open
      onClose={onClose}
      acts={
        <CheckedActs
          writing={writing}
          ready={ready}
          words={{ ...partChanges, take: ({ items }) => partChanges.write(items.length) }}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <p>{words.stays}</p>
        {done === undefined ? (
          <Fields
            entry={entry}
            change={(changed) => {
              writing.reset();
              setEntry({ ...entry, ...changed });
            }}
          />
        ) : null}
        <p role="status">
          {done !== undefined ? <b>{words.done(done.items.length)}</b> : null}
          {done === undefined && would !== undefined ? words.would(would.items.length, would.unchanged) : null}
        </p>
        {would === undefined || would.items.length === 0 ? null : <Changes changed={would} />}
        <Refusal error={writing.error} />
      </div>
    </Dialog>
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

function Changes({ changed }: { readonly changed: BinsChanged }) {
  const { partChanges: words, storesDesks } = useWords();
  const { bin: binWord, walkShort, several } = storesDesks.bins;
  const said = (text: string) => ({ yes: words.yes, no: words.no })[text] ?? text;
  return (
    <Scrolled label={words.check}>
      <table>
        <thead>
          <tr>
            <th>{binWord}</th>
            <th>{words.fact}</th>
            <th>{words.from}</th>
            <th>{words.to}</th>
          </tr>
        </thead>
        <tbody>
          {changed.items.flatMap(({ bin, changes }) =>
            changes.map(({ fact, from, to }) => (
              <tr key={`${bin.id} ${fact}`}>
                <td className="num">
                  <b>{bin.code}</b>
                </td>
                <td>{fact === 'closed' ? several.closed : walkShort}</td>
                <td className="num">{said(from)}</td>
                <td className="num">
                  <b>{said(to)}</b>
                </td>
              </tr>
            )),
          )}
        </tbody>
      </table>
    </Scrolled>
  );
}
