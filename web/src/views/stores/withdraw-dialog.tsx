import { useState } from 'react';
import type { PartName } from '#contracts/parts.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Dialog, DialogActs } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

/** A tie between two parts that holds no longer. */
export interface Withdrawal {
  readonly kind: 'supersession' | 'alternative';
  readonly part: PartName;
  readonly other: PartName;
}

/** Takes back that one part may stand in another's place, with a reason. */
export function WithdrawDialog({ what, onClose }: { readonly what: Withdrawal; readonly onClose: () => void }) {
  const { partsInstead: words } = useWords();
  const writing = useWrite();
  const [text, setText] = useState('');
  const reason = text.trim();
  const write = () => {
    const at = `/parts/${what.part.id}`;
    if (what.kind === 'supersession') writing.write({ path: `${at}/supersession/withdraw`, body: { reason } }, onClose);
    else writing.write({ path: `${at}/alternatives/withdraw`, body: { partId: what.other.id, reason } }, onClose);
  };
  return (
    <Dialog
      title={words.withdrawTitle(what.other.name)}
      open
      onClose={onClose}
      acts={
        <DialogActs
          act={words.withdraw}
          ready={reason !== '' && !writing.busy}
          onAct={write}
          close={words.close}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <Field label={words.reason}>
          {(input) => (
            <input {...input} maxLength={300} value={text} onChange={({ target }) => setText(target.value)} />
          )}
        </Field>
        <Refusal error={writing.error} />
      </div>
    </Dialog>
  );
}
