import { useState } from 'react';
import type { PartsChanged } from '#contracts/part-changes.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
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
  const checking = useWrite<PartsChanged>();
  const writing = useWrite<PartsChanged>();
  const body = () => changeOf(entry, partIds);
  const would = checking.reply;
  const done = writing.reply;
  const wrong = isNothing(entry) || isLevelWrong(entry);
  const busy = checking.busy || writing.busy;
  return (
    <Dialog
      title={words.title(partIds.length)}
      open
      onClose={onClose}
      acts={
        <>
          {done === undefined && would === undefined ? (
            <Button
              big
              kind="main"
              disabled={wrong || busy}
              onClick={() => checking.write({ path: '/parts/changes/check', body: body() })}
            >
              {words.check}
            </Button>
          ) : null}
          {done === undefined && would !== undefined ? (
            <Button
              big
              kind="main"
              disabled={busy || would.items.length === 0}
              onClick={() => writing.write({ path: '/parts/changes', body: body() })}
            >
              {words.write(would.items.length)}
            </Button>
          ) : null}
          <Button big onClick={onClose}>
            {words.close}
          </Button>
        </>
      }
    >
      <div className="form">
        <p>{words.stays}</p>
        {done === undefined ? (
          <PartChangeFields
            entry={entry}
            change={(changed) => {
              checking.clear();
              writing.clear();
              setEntry({ ...entry, ...changed });
            }}
          />
        ) : null}
        <p role="status">
          {done !== undefined ? <b>{words.done(done.items.length)}</b> : null}
          {done === undefined && would !== undefined ? words.would(would.items.length, would.unchanged) : null}
        </p>
        {would === undefined || would.items.length === 0 ? null : <Changes changed={would} />}
        <Refusal error={checking.error ?? writing.error} />
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
