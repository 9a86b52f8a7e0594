import { useState } from 'react';
import type { BinKept } from '#contracts/stock-books.ts';
import type { BinStanding } from '#contracts/stores-desks.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

interface DialogProps {
  /** Null: a new one. */
  readonly bin: BinStanding | null;
  readonly onClose: () => void;
}

/** A bin is put up, renamed, moved in the walk, closed or opened again. */
export function BinDialog({ bin, onClose }: DialogProps) {
  const { bins: words } = useWords().storesDesks;
  const [code, setCode] = useState(bin?.code ?? '');
  const [walk, setWalk] = useState(bin === null ? '' : String(bin.walkOrder));
  const writing = useWrite<BinKept>();
  const path = bin === null ? '/bins' : `/bins/${bin.id}/change`;
  const write = (more: { readonly closed?: boolean } = {}) =>
    writing.write({ path, body: { code, ...(walk === '' ? {} : { walkOrder: Number(walk) }), ...more } }, onClose);
  const walkWrong = walk !== '' && !/^\d{1,7}$/.test(walk);
  return (
    <Dialog title={bin === null ? words.add : words.changeOf(bin.code)} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (!walkWrong && code.trim() !== '') write();
        }}
      >
        <div className="pair">
          <Field label={words.code} hint={words.codeHint} error={faultAt(writing.error, '/code')}>
            {(input) => (
              <input
                {...input}
                required
                maxLength={20}
                autoCapitalize="characters"
                value={code}
                onChange={({ target }) => setCode(target.value)}
              />
            )}
          </Field>
          <Field
            label={words.walk}
            hint={words.walkHint}
            error={walkWrong ? words.walkHint : faultAt(writing.error, '/walkOrder')}
          >
            {(input) => (
              <input
                {...input}
                inputMode="numeric"
                maxLength={7}
                value={walk}
                onChange={({ target }) => setWalk(target.value.trim())}
              />
            )}
          </Field>
        </div>
        {isSaidAt(writing.error, ['/code', '/walkOrder']) ? null : <Refusal error={writing.error} />}
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={writing.busy || walkWrong || code.trim() === ''}>
            {words.write}
          </Button>
          {bin === null ? null : (
            <Button disabled={writing.busy} onClick={() => write({ closed: !bin.closed })}>
              {bin.closed ? words.open : words.close}
            </Button>
          )}
          <Button onClick={onClose}>{words.leave}</Button>
        </div>
      </form>
    </Dialog>
  );
}
