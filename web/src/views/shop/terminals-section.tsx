import { useState } from 'react';
import type { ShopFacts } from '#contracts/shop.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { SetUpDialog, TextField } from './set-up-dialog.tsx';

type Terminal = ShopFacts['terminals'][number];

function TerminalDialog({
  terminal,
  bays,
  onClose,
}: {
  readonly terminal: Terminal | null;
  readonly bays: ShopFacts['bays'];
  readonly onClose: () => void;
}) {
  const { terminals: words, name: nameWord, changeOf } = useWords().shop;
  const writing = useWrite();
  const [name, setName] = useState(terminal?.name ?? '');
  const [bayId, setBayId] = useState(terminal?.bay?.id ?? '');
  const [idle, setIdle] = useState(terminal === null ? '10' : String(terminal.idleMinutes ?? ''));
  const minutes = idle.trim() === '' ? null : Number(idle);
  const body = { name, bayId: bayId === '' ? null : bayId, idleMinutes: minutes };
  const keep = () =>
    writing.write(
      terminal === null ? { path: '/terminals', body } : { path: `/terminals/${terminal.id}`, method: 'PATCH', body },
      onClose,
    );
  return (
    <SetUpDialog
      title={terminal === null ? words.add : changeOf(terminal.name)}
      writing={writing}
      keep={keep}
      onClose={onClose}
      said={['/name', '/idleMinutes']}
      ready={name.trim() !== '' && (minutes === null || Number.isInteger(minutes))}
      adding={terminal === null}
      more={
        terminal === null ? undefined : (
          <Button
            disabled={writing.busy}
            onClick={() => writing.write({ path: `/terminals/${terminal.id}/give-up`, body: {} }, onClose)}
          >
            {words.giveUp}
          </Button>
        )
      }
    >
      <TextField label={nameWord} value={name} onChange={setName} pointer="/name" error={writing.error} most={60} />
      <Field label={words.bay}>
        {(input) => (
          <select {...input} value={bayId} onChange={({ target }) => setBayId(target.value)}>
            <option value="">{words.noBay}</option>
            {bays.map((bay) => (
              <option key={bay.id} value={bay.id}>
                {bay.name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <TextField
        label={words.idle}
        hint={words.idleHint}
        value={idle}
        onChange={setIdle}
        pointer="/idleMinutes"
        error={writing.error}
        numeric
        most={3}
      />
    </SetUpDialog>
  );
}

/** The shared screens, where they stand, and when they let nobody in any more. */
export function TerminalsSection({ facts }: { readonly facts: ShopFacts }) {
  const { terminals: words, change, changeOf } = useWords().shop;
  const [changing, setChanging] = useState<Terminal | 'new' | null>(null);
  return (
    <section aria-labelledby="shop-terminals">
      <div className="set-up-head">
        <h2 id="shop-terminals">{words.title}</h2>
        <Button onClick={() => setChanging('new')}>{words.add}</Button>
      </div>
      {facts.terminals.length === 0 ? <p className="note">{words.none}</p> : null}
      <ul className="set-up-lines">
        {facts.terminals.map((terminal) => (
          <li key={terminal.id} className="set-up-line">
            <div>
              <b>{terminal.name}</b>
              <span className="note line">{terminal.bay?.name ?? words.noBay}</span>
            </div>
            <span className="note">{words.idleAfter(terminal.idleMinutes)}</span>
            <div className="set-up-acts">
              <Button aria-label={changeOf(terminal.name)} onClick={() => setChanging(terminal)}>
                {change}
              </Button>
            </div>
          </li>
        ))}
      </ul>
      {changing === null ? null : (
        <TerminalDialog
          terminal={changing === 'new' ? null : changing}
          bays={facts.bays}
          onClose={() => setChanging(null)}
        />
      )}
    </section>
  );
}
