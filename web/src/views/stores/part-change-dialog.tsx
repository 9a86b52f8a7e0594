import { useState } from 'react';
import type { PartsChanged } from '#contracts/part-changes.ts';
import { send } from '../../app/api.ts';
import { CheckedActs, useCheckedWrite } from '../../app/checked-write.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import {
  type ChangeEntry,
  changeOf,
  isLevelWrong,
  isNothing,
  nothingTyped,
  PartChangeFields,
} from './part-change-fields.tsx';
import { Scrolled } from './scrolled.tsx';

interface DialogProps {
  readonly partIds: readonly string[];
  readonly onClose: () => void;
}

/** Changes several parts in one act: what would change of each is shown first, then it is written. */
export function PartChangeDialog({ partIds, onClose }: DialogProps) {
  const { partChanges: words } = useWords();
  const [entry, setEntry] = useState<ChangeEntry>(nothingTyped);
  const writing = useCheckedWrite<PartsChanged>((step, key) =>
    send(`/parts/changes${step === 'check' ? '/check' : ''}`, changeOf(entry, partIds), { key }),
  );
  const { checked: would, taken: done } = writing;
  const ready = !isNothing(entry) && !isLevelWrong(entry) && would?.items.length !== 0;
  return (
    <Dialog
      title={words.title(partIds.length)}
      open
      onClose={onClose}
      acts={
        <CheckedActs
          writing={writing}
          ready={ready}
          words={{ ...words, take: ({ items }) => words.write(items.length) }}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <p>{words.stays}</p>
        {done === undefined ? (
          <PartChangeFields
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

function Changes({ changed }: { readonly changed: PartsChanged }) {
  const { partChanges: words } = useWords();
  const said = (text: string) => ({ yes: words.yes, no: words.no, '': words.nothing })[text] ?? text;
  return (
    <Scrolled label={words.check}>
      <table>
        <thead>
          <tr>
            <th>{words.part}</th>
            <th>{words.fact}</th>
            <th>{words.from}</th>
            <th>{words.to}</th>
          </tr>
        </thead>
        <tbody>
          {changed.items.flatMap(({ part, changes }) =>
            changes.map(({ fact, from, to }) => (
              <tr key={`${part.id} ${fact}`}>
                <td>
                  <b>{part.name}</b> <span className="note num">{part.number}</span>
                </td>
                <td>{words[fact]}</td>
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
